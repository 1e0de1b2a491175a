"""Rows that say the same twice, and rows of one batch and day that say different things."""

from specs.tables.saying import Fate, RowRole
from tests.specs.tables.one_column import keys, look, table

SAME = ["Q1-25-0377", "Q1-25-0377"]


def test_a_row_that_says_the_same_again_is_dropped():
    found = look(table(["281", "281"], batches=SAME, remarks=["", "again?"]))

    assert found.role(3) is RowRole.DUPLICATE
    assert found.joined == {3: 2}
    assert found.at("D", 3).fate is Fate.LEFT_OUT
    assert found.at("D", 3).rule == "repeats row 2"
    assert [it.rows for it in found.lines] == [(2,)]


def test_a_row_of_another_day_is_no_repeat():
    found = look(table(["281", "281"], batches=SAME, days=["2025-12-03", "2025-12-04"]))

    assert [it.rows for it in found.lines] == [(2,), (3,)]
    assert found.lines[1].values[0].rule == ""


def test_the_same_day_in_another_form_is_the_same_day():
    found = look(table(["281", "281"], batches=SAME, days=["2025-12-13", "13.12.2025"]))

    assert len(found.lines) == 1


def test_other_results_of_the_same_batch_and_day_stand_and_are_told():
    found = look(table(["281", "284"], batches=SAME))

    assert [it.values[0].value for it in found.lines] == ["281", "284"]
    assert found.lines[0].values[0].rule == ""
    assert "row 2 has other results of the same batch and day" in (
        found.lines[1].values[0].rule
    )


def test_a_whole_set_that_is_repeated_is_dropped_whole():
    sheet = table(
        ["281", "279", "281", "279"],
        batches=["B-1", "", "B-1", ""],
        days=["2025-12-03", "", "2025-12-03", ""],
        products=["LX2", "", "LX2", ""],
    )

    found = look(sheet)

    assert [it.rows for it in found.lines] == [(2, 3)]
    assert [found.role(row) for row in (4, 5)] == [RowRole.DUPLICATE] * 2


def test_a_set_is_no_repeat_of_its_first_row():
    sheet = table(
        ["281", "281", "279"],
        batches=["B-1", "B-1", ""],
        days=["2025-12-03", "2025-12-03", ""],
        products=["LX2", "LX2", ""],
    )

    assert [it.rows for it in look(sheet).lines] == [(2,), (3, 4)]


def test_a_proposal_counts_until_it_is_answered_otherwise():
    sheet = table(["2 81", "281"], batches=SAME)

    proposed = look(sheet)
    left = look(sheet, choices={"D/blank inside": "leave"})

    assert proposed.role(3) is RowRole.DUPLICATE
    assert left.role(3) is RowRole.DATA
    assert [it.rows for it in left.lines] == [(2,), (3,)]


def test_two_cells_that_cannot_be_read_are_no_repeat_of_each_other():
    found = look(table(["soft", "hard"], batches=SAME))

    assert found.role(3) is RowRole.DATA
    assert keys(found) == ["D/unreadable"]
