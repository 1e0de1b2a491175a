"""Ratings, findings and words."""

import pytest

from specs.tables.known import Measured
from specs.tables.saying import Fate
from tests.specs.tables.one_column import keys, known_with, look, said, table

CU = "copper-strip"
RUST = Measured("rust", "Rust", kind="rating", scale=("0", "1", "2", "3", "4", "5"))
FOUND = Measured("found", "Rust test", kind="pass or fail", scale=("pass", "fail"))
LOOKS = Measured("looks", "Appearance", kind="words", scale=("met", "not met"))
WORDS = Measured("words", "Colour", kind="words")
KNOWN = known_with(RUST, FOUND, LOOKS, WORDS)


@pytest.mark.parametrize(
    ("text", "fate", "mark"),
    [
        ("1b", Fate.TAKEN, "1b"),
        ("1B", Fate.CONVERTED, "1b"),
        ("1 b", Fate.CONVERTED, "1b"),
        ("4C", Fate.CONVERTED, "4c"),
    ],
)
def test_a_rating_is_taken_in_the_letters_of_its_scale(text, fate, mark):
    found = look(table([text]), CU)

    assert (said(found).fate, said(found).value) == (fate, mark)
    assert not found.lines[0].values[0].is_words


@pytest.mark.parametrize("text", ["pass", "OK", "i.O.", "bestanden", "fail"])
def test_a_finding_where_a_rating_is_wanted_is_words(text):
    found = look(table([text]), CU)

    value = found.lines[0].values[0]
    assert (value.value, value.is_words, value.beside) == (text, True, "not known")


@pytest.mark.parametrize(
    ("text", "proposed"),
    [("5a", ""), ("lb", "1b"), ("1a-1b", "1b"), ("1", ""), ("slight tarnish", "")],
)
def test_what_is_no_mark_of_the_scale_is_refused(text, proposed):
    found = look(table([text]), CU)

    assert keys(found) == ["D/no mark"]
    assert (said(found).fate, said(found).value) == (Fate.REFUSED, proposed)
    assert text in said(found).why


def test_a_refused_mark_is_left_out_or_written_anew():
    assert look(table(["5a"]), CU, choices={"D/no mark": "leave"}).is_ready
    assert said(look(table(["5a"]), CU, instead={"D2": "3a"})).value == "3a"


@pytest.mark.parametrize(
    ("text", "mark"), [("0", "0"), ("0/1", "0/1"), ("0-1", "0/1"), ("1 / 0", "1/0")]
)
def test_two_bearings_may_stand_in_one_cell(text, mark):
    assert said(look(table([text]), "rust", known=KNOWN)).value == mark


@pytest.mark.parametrize(
    ("text", "mark"), [("ok", "pass"), ("Fail", "fail"), ("n.i.O.", "fail")]
)
def test_pass_or_fail_is_known_by_many_words(text, mark):
    found = look(table([text]), "found", known=KNOWN)

    assert said(found).value == mark
    assert not found.lines[0].values[0].is_words


@pytest.mark.parametrize(("text", "mark"), [("TRUE", "pass"), ("FALSE", "fail")])
def test_yes_and_no_of_a_workbook_are_findings(text, mark):
    found = look(table([text], kinds="b"), "found", known=KNOWN)

    assert said(found).value == mark


def test_words_stay_as_they_are():
    found = look(table(["smooth,  light brown"]), "words", known=KNOWN)

    assert said(found).value == "smooth, light brown"
    assert look(table(["smooth"]), "looks", known=KNOWN).lines[0].values[0].is_words
    assert said(look(table(["ok"]), "looks", known=KNOWN)).value == "met"


@pytest.mark.parametrize(
    ("kind", "text", "key"),
    [
        ("f", "1b", "D/formula"),
        ("e", "#N/A", "D/fault"),
        ("d", "2025-01-02", "D/date in number"),
        ("t", "x" * 301, "D/no mark"),
    ],
)
def test_what_is_no_text_is_refused(kind, text, key):
    assert keys(look(table([text], kinds=kind), CU)) == [key]


def test_words_too_long_or_not_printable_are_refused():
    assert keys(look(table(["x" * 301]), "words", known=KNOWN)) == ["D/unreadable"]
    assert keys(look(table(["a\u202eb"]), "words", known=KNOWN)) == ["D/unreadable"]


def test_not_tested_is_no_rating():
    found = look(table(["n/a", "-"]), CU)

    assert found.is_ready
    assert said(found).value == "not tested"
    assert [it.values for it in found.lines] == [(), ()]
