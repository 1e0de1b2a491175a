"""Taking a file in: whole or not at all, in one entry; the same again adds nothing."""

import pytest

from lims.imports import actions, layouts, lines, queries
from lims.imports.models import HistoryLine, Import, Layout, Staging
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import bringing
from tests.factories.bringing import line, table, value


@pytest.fixture
def waiting(manager):
    bringing.product(by=manager)
    return bringing.received(by=manager)


def test_it_is_one_entry_that_counts_what_came(waiting, manager):
    entries = Entry.objects.count()

    actions.take_in(
        import_of=waiting, tables=[table(line(), line("Q1-25-0378"))], by=manager
    )

    assert Entry.objects.count() == entries + 1
    entry = Entry.objects.first()
    assert (entry.verb, entry.note) == ("file_taken_in", "added: 2, values: 2")
    waiting.refresh_from_db()
    assert (waiting.state, waiting.line_count) == ("taken in", 2)
    assert not Staging.objects.exists()


def test_each_value_remembers_its_cell_its_raw_text_and_its_rule(waiting, manager):
    it = value(
        "280", raw=("280,5", "281"), cells=("D3", "D4"), rule="mean of 2 readings"
    )

    actions.take_in(import_of=waiting, tables=[table(line(values=(it,)))], by=manager)

    kept = HistoryLine.objects.get()
    assert kept.import_of.name == "penbook.csv"
    assert (kept.sheet, kept.row) == ("penbook", 3)
    assert kept.values == [
        {
            "characteristic": "worked-penetration",
            "value": "280",
            "cells": ["D3", "D4"],
            "raw": ["280,5", "281"],
            "rule": "mean of 2 readings",
            "is_words": False,
        }
    ]


def test_nothing_is_taken_in_while_anything_is_asked(waiting, manager):
    entries = Entry.objects.count()

    with pytest.raises(WrongMove, match="1 question about this file wait"):
        actions.take_in(
            import_of=waiting,
            tables=[table(line(), questions=[bringing.question()])],
            by=manager,
        )

    assert Entry.objects.count() == entries
    assert not HistoryLine.objects.exists()


def test_a_file_without_lines_is_not_taken_in(waiting, manager):
    with pytest.raises(WrongMove, match="No line of this file"):
        actions.take_in(import_of=waiting, tables=[table()], by=manager)


def test_one_line_that_cannot_be_written_takes_all_back(waiting, manager):
    entries = Entry.objects.count()

    with pytest.raises(BadInput, match="Row 9: product XX9"):
        actions.take_in(
            import_of=waiting,
            tables=[table(line(), line("Q1-25-0379", code="XX9", row=9))],
            by=manager,
        )

    waiting.refresh_from_db()
    assert waiting.state == "received"
    assert not HistoryLine.objects.exists()
    assert Entry.objects.count() == entries


def test_the_same_values_from_another_file_are_not_added_again(waiting, manager):
    actions.take_in(import_of=waiting, tables=[table(line())], by=manager)
    again = bringing.received(by=manager, content=b"saved anew", name="copy.xlsx")

    actions.take_in(import_of=again, tables=[table(line())], by=manager)

    assert HistoryLine.objects.count() == 1
    assert again.counts["values here already"] == 1
    assert Entry.objects.first().note == "values here already: 1"


def test_a_value_written_with_other_noughts_is_the_same_value(waiting, manager):
    two = line(values=(value("2", "oil-separation"),))
    shown = line(values=(value("2.0", "oil-separation"),))
    actions.take_in(import_of=waiting, tables=[table(two)], by=manager)
    again = bringing.received(by=manager, content=b"saved as text", name="same.csv")

    actions.take_in(import_of=again, tables=[table(shown)], by=manager)

    assert HistoryLine.objects.count() == 1
    assert again.counts["values here already"] == 1


def test_of_an_overlapping_file_only_what_is_new_is_added(waiting, manager):
    actions.take_in(import_of=waiting, tables=[table(line())], by=manager)
    both = (value(), value("202", "dropping-point-block"))
    again = bringing.received(by=manager, content=b"with another column")

    actions.take_in(import_of=again, tables=[table(line(values=both))], by=manager)

    added = HistoryLine.objects.get(import_of=again)
    assert [it["characteristic"] for it in added.values] == ["dropping-point-block"]


def test_another_value_of_the_same_batch_stands_beside_the_first(waiting, manager):
    actions.take_in(import_of=waiting, tables=[table(line())], by=manager)
    again = bringing.received(by=manager, content=b"corrected")

    actions.take_in(
        import_of=again, tables=[table(line(values=(value("281"),)))], by=manager
    )

    assert HistoryLine.objects.count() == 2


def test_a_file_is_taken_in_once(waiting, manager):
    actions.take_in(import_of=waiting, tables=[table(line())], by=manager)

    with pytest.raises(WrongMove, match="is taken in"):
        actions.take_in(import_of=waiting, tables=[table(line())], by=manager)


def test_two_imports_of_the_same_bytes_are_not_both_taken_in(waiting, manager):
    """The second was made before the first was taken in, by somebody else."""
    other = Import.objects.get(pk=waiting.pk)
    actions.take_in(import_of=waiting, tables=[table(line())], by=manager)

    with pytest.raises(WrongMove):
        actions.take_in(import_of=other, tables=[table(line())], by=manager)


def test_who_may_not_bring_in_takes_nothing_in(waiting, person):
    with pytest.raises(NotAllowed):
        actions.take_in(
            import_of=waiting, tables=[table(line())], by=person("technician")
        )


def test_the_layout_is_remembered_with_the_answers_that_hold_again(waiting, manager):
    uses = {"A": {"role": "batch"}}
    actions.map_columns(import_of=waiting, mapping={"penbook!A1:D3": uses}, by=manager)
    said = {"penbook!A1:D3": {"G/unit": "kPa", "D/blank inside": "as proposed"}}
    actions.answer(import_of=waiting, choices=said, instead={}, by=manager)

    actions.take_in(import_of=waiting, tables=[table(line())], by=manager)

    kept = layouts.known("f" * 64, "history")
    assert kept.uses == uses
    assert kept.choices == {"G/unit": "kPa"}
    assert Layout.objects.count() == 1


def test_what_is_withdrawn_stays_and_counts_no_more(waiting, manager):
    actions.take_in(import_of=waiting, tables=[table(line())], by=manager)

    actions.withdraw(import_of=waiting, reason="the wrong year", by=manager)

    assert HistoryLine.objects.count() == 1
    assert not queries.history().exists()
    again = bringing.received(by=manager)
    actions.take_in(import_of=again, tables=[table(line())], by=manager)
    assert queries.history().count() == 1


def test_only_what_was_taken_in_is_withdrawn(waiting, manager):
    with pytest.raises(WrongMove, match="only what was taken in"):
        actions.withdraw(import_of=waiting, reason="the wrong year", by=manager)


@pytest.mark.parametrize("reason", ["", "  ", "no", "x" * 301])
def test_leaving_and_withdrawing_need_a_reason(reason, waiting, manager):
    with pytest.raises(BadInput, match="Say why"):
        actions.leave(import_of=waiting, reason=reason, by=manager)


def test_a_file_that_cannot_be_read_is_refused_by_the_program(waiting):
    actions.refuse(import_of=waiting, reason="It is a picture: choose a table.")

    waiting.refresh_from_db()
    assert (waiting.state, waiting.reason[:7]) == ("refused", "It is a")
    assert Entry.objects.first().printed_name == "Kettlemark"


def test_what_is_longer_than_is_kept_is_refused_and_never_cut(waiting, manager):
    with pytest.raises(BadInput, match="Row 3: the batch has more than 40"):
        actions.take_in(import_of=waiting, tables=[table(line("X" * 41))], by=manager)


def test_the_longest_that_is_taken_is_the_longest_that_the_table_keeps():
    for name, longest in lines.LONGEST.items():
        assert HistoryLine._meta.get_field(name).max_length == longest
