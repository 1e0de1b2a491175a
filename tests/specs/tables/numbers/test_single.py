"""One cell of numbers by itself."""

import pytest

from specs.tables.numbers.single import found_in
from specs.tables.numbers.spoken import is_met, is_not_tested, says_repeated


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("281", "281"),
        ("27,9", "27.9"),
        ("0,40", "0.40"),
        ("> 300", ">300"),
        ("<2", "<2"),
        ("−5", "-5"),
        ("+12", "12"),
        (".5", "0.5"),
    ],
)
def test_a_number_is_read_as_it_stands(text, number):
    found = found_in("t", text)

    assert found.number is not None
    assert (found.number.canonical, found.unit, found.matter) == (number, "", "")


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("5.5 psi", "5.5", "psi"),
        ("388F", "388", "°F"),
        ("388 ºF", "388", "°F"),
        ("198 °C", "198", "°C"),
        ("198°", "198", "°"),
        ("0,40 kg/cm2", "0.40", "kgf/cm²"),
        ("2,1 %", "2.1", "%"),
        ("2.1 wt.%", "2.1", "%"),
        ("<27,9 mm", "<27.9", "mm"),
    ],
)
def test_a_number_may_state_its_unit(text, number, unit):
    found = found_in("t", text)

    assert found.number is not None
    assert (found.number.canonical, found.unit, found.matter) == (number, unit, "")


@pytest.mark.parametrize(
    ("text", "matter", "proposed"),
    [
        ("283 (retest)", "retest", "283"),
        ("281*", "retest", "281"),
        ("275 (Wdh.)", "retest", "275"),
        ("2 81", "blank inside", "281"),
        ("1'234", "blank inside", "1234"),
        ("2\u00a081", "blank inside", "281"),
        ("28l", "letter in number", "281"),
        ("2O8", "letter in number", "208"),
        ("265-295", "limits", ""),
        ("265 – 295", "limits", ""),
        ("265 bis 295", "limits", ""),
        ("min. 265", "limits", ""),
        ("≥265", "limits", ""),
        ("280/281/279", "several numbers", ""),
        ("~280", "about", "280"),
        ("ca. 280", "about", "280"),
        ("281 (too soft)", "words behind", "281"),
        ("281 2nd cup", "words behind", "281"),
        ("#N/A", "fault", ""),
        ("#BEZUG!", "fault", ""),
        ("=AVERAGE(D2:D4)", "formula", ""),
        ("1.234,5", "unreadable", ""),
        ("1e3", "unreadable", ""),
        ("٣٥", "unreadable", ""),
        ("280\u200b", "unreadable", ""),
        ("Q1-25-0377", "unreadable", ""),
        ("soft", "unreadable", ""),
        ("9" * 41, "unreadable", ""),
        ("9" * 16, "unreadable", ""),
    ],
)
def test_what_is_odd_names_its_matter_and_proposes_a_number(text, matter, proposed):
    found = found_in("t", text)

    assert found.matter == matter
    assert (found.number.canonical if found.number else "") == proposed
    assert found.why or matter == "retest"


@pytest.mark.parametrize(
    "text", ["n/a", "N.A.", "-", "–", "not  tested", "n.b.", "k. A."]
)
def test_not_tested_is_neither_number_nor_odd(text):
    found = found_in("t", text)

    assert (found.number, found.matter) == (None, "")
    assert text in found.rule


@pytest.mark.parametrize(
    ("kind", "text", "matter", "words"),
    [
        ("f", "280", "formula", "paste its value"),
        ("e", "#N/A", "fault", "#N/A"),
        ("d", "2025-02-28", "date in number", "a date, “2025-02-28”"),
        ("m", "2025-02-28 07:30:00", "date in number", "a date"),
        ("b", "TRUE", "yes or no", "yes or no"),
    ],
)  # fmt: skip
def test_what_the_file_says_of_a_cell_may_refuse_it(kind, text, matter, words):
    found = found_in(kind, text)

    assert found.matter == matter
    assert words in found.why


def test_a_formula_proposes_the_value_that_was_stored_with_it():
    assert str(found_in("f", "280").number) == "280"


def test_the_noise_of_a_stored_number_is_cut_and_told():
    found = found_in("n", "0.30000000000000004")

    assert str(found.number) == "0.3"
    assert "15 digits" in found.rule


def test_a_plain_stored_number_says_nothing_more():
    assert found_in("n", "280.5").rule == ""


@pytest.mark.parametrize(
    ("text", "is_it"),
    [("pass", True), ("i.O.", True), ("OK!", True), ("nicht bestanden", False), ("maybe", None)],
)  # fmt: skip
def test_met_and_not_met_are_known_by_their_words(text, is_it):
    assert is_met(text) is is_it


def test_words_of_a_repeat_are_known():
    assert says_repeated("Retest")
    assert says_repeated("Wiederholung")
    assert not says_repeated("too soft")
    assert not is_not_tested("280")
