"""Readings of one set spread over rows that belong together."""

import pytest

from specs.tables.known import Measured
from specs.tables.saying import Fate
from specs.tables.sheet import Merged
from tests.specs.tables.one_column import keys, known_with, look, question, said, table

LOAD = Measured("load", "Weld load", kind="ladder")
KNOWN = known_with(LOAD)


def a_set(*texts, **more):
    """A batch of as many rows as there are texts."""
    rest = [""] * (len(texts) - 1)
    return table(
        texts,
        batches=["Q1-25-0377", *rest],
        days=["2025-12-03", *rest],
        products=["LX2", *rest],
        **more,
    )


def values(found):
    return [(it.value, it.cells) for it in found.lines[0].values]


def test_the_mean_of_whole_readings_is_reported_by_the_step():
    found = look(a_set("281", "280", "279", "279"))

    assert found.is_ready
    assert values(found) == [("280", ("D2", "D3", "D4", "D5"))]
    assert "279.75, reported as 280 × 0.1 mm" in found.lines[0].values[0].rule
    assert said(found, 1).rule == "reading 2 of 4"


@pytest.mark.parametrize(
    ("texts", "mean"), [(("280", "281"), "280"), (("281", "282"), "282")]
)
def test_a_tie_goes_to_the_even(texts, mean):
    assert values(look(a_set(*texts)))[0][0] == mean


def test_the_question_of_the_mean_shows_what_each_answer_makes():
    asked = question(look(a_set("280,5", "281", "279")), "D/mean or reading")

    made = {it.key: it.makes for it in asked.choices}
    assert "280.17, reported as 280" in made["reading"]
    assert asked.cells == ("D2",)


@pytest.mark.parametrize(
    ("choice", "expected"),
    [
        ("reading", [("280", ("D2", "D3", "D4"))]),
        ("mean", [("280.5", ("D2",))]),
        ("leave", [("280", ("D3", "D4"))]),
    ],
)
def test_a_reading_that_is_no_whole_unit_counts_as_answered(choice, expected):
    found = look(a_set("280,5", "281", "279"), choices={"D/mean or reading": choice})

    assert found.is_ready
    assert values(found) == expected


def test_a_converted_reading_is_finer_by_right():
    found = look(a_set("5.5 psi", "6 psi"), "oxidation-drop")

    assert found.is_ready
    assert values(found) == [("40", ("D2", "D3"))]


def test_half_a_unit_by_itself_is_no_question():
    assert look(table(["280,5"])).is_ready


def test_the_set_waits_while_one_of_its_cells_does():
    found = look(a_set("281", "2 80", "279"))

    assert keys(found) == ["D/blank inside"]
    assert values(found) == []


def test_a_reading_that_is_left_out_does_not_count():
    found = look(a_set("281", "28l", "279"), choices={"D/letter in number": "leave"})

    assert values(found) == [("280", ("D2", "D4"))]


def test_no_mean_where_one_is_only_a_bound():
    found = look(a_set("298", ">300"))

    assert values(found) == [("298", ("D2",)), (">300", ("D3",))]
    assert "no mean" in found.lines[0].values[0].rule


def test_loads_are_never_averaged():
    found = look(a_set("315", "250"), "load", known=KNOWN)

    assert values(found) == [("250", ("D2", "D3"))]


def test_of_two_ratings_the_worse_stands():
    found = look(a_set("1a", "2B"), "copper-strip")

    assert values(found) == [("2b", ("D2", "D3"))]
    assert found.lines[0].values[0].beside == "beyond"


def test_a_finding_beside_a_rating_makes_words_of_both():
    found = look(a_set("1a", "pass"), "copper-strip")

    assert values(found) == [("1a; pass", ("D2", "D3"))]
    assert found.lines[0].values[0].is_words


def test_a_value_in_a_later_row_of_the_set_is_not_lost():
    assert values(look(a_set("", "281"))) == [("281", ("D3",))]


def test_a_result_shown_across_the_rows_of_a_set_is_one_reading():
    found = look(a_set("281", "", "", merged=[Merged(2, 4, 4, 4)]))

    assert values(found) == [("281", ("D2",))]
    assert said(found, 1).fate is Fate.EMPTY


def test_a_result_shown_across_batches_is_the_result_of_each():
    found = look(table(["281", ""], merged=[Merged(2, 4, 3, 4)]))

    assert [it.values[0].value for it in found.lines] == ["281", "281"]
    assert said(found, 1).rule == "as in D2"


def test_rows_of_a_merged_batch_cell_belong_together():
    sheet = a_set("281", "280", "279", merged=[Merged(2, 1, 4, 1)])

    assert look(sheet).lines[0].rows == (2, 3, 4)
