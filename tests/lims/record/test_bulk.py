"""Many rows in one entry: told together, and every one of them bound by the record."""

import datetime as dt

import pytest
from django.db import connection

from lims.imports.models import HistoryLine, Import
from lims.record import verify
from lims.record.bulk import add_prepared, claim_of, prepared
from lims.record.gate import GateError, entry
from lims.record.models import Entry
from tests.factories import bringing

MAY = dt.date(2025, 5, 1)


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def brought(person, morning):
    return bringing.taken_in(by=person("laboratory_manager"))


def rows_of(brought, count):
    return [
        bringing.history_row(brought, batch=f"Q1-25-{number:04}", day=MAY)
        for number in range(1, count + 1)
    ]


def add(brought, count, by):
    with entry(by=by, verb="file_taken_in", about=brought):
        rows = rows_of(brought, count)
        add_prepared(prepared(rows, name=f"{count} lines"))
    return rows


def test_many_rows_make_one_difference_of_one_entry(brought, person):
    before = Entry.objects.count()

    add(brought, 5000, person("laboratory_manager"))

    assert HistoryLine.objects.count() == 5001
    assert Entry.objects.count() == before + 1
    told = Entry.objects.first().changes
    assert [it["name"] for it in told] == ["5000 lines"]
    assert claim_of(told[0]).number == 5000


def test_the_record_holds_with_them(brought, person):
    add(brought, 30, person("laboratory_manager"))

    report = verify.verify()

    assert report.holds
    assert "Rows added together: 31, as they were added" in report.lines


@pytest.mark.parametrize("what", ["altered", "gone", "slipped in"])
@pytest.mark.django_db(transaction=True)
def test_a_row_that_is_not_as_added_is_found(what, brought, person):
    rows = add(brought, 30, person("laboratory_manager"))
    past_the_triggers(what, rows[7].pk)

    report = verify.verify()

    assert "imports.HistoryLine" in " ".join(report.lines)
    assert not report.holds


def past_the_triggers(what, pk):
    """Somebody with the keys of the database."""
    table = HistoryLine._meta.db_table
    names = [f"{table}_gate_{it}" for it in ("insert", "update", "delete")]
    with connection.cursor() as cursor:
        for name in names:
            on = f' ON "{table}"' if connection.vendor == "postgresql" else ""
            cursor.execute(f'DROP TRIGGER "{name}"{on}')
        if what == "altered":
            cursor.execute(f"UPDATE {table} SET kettle = 'K9' WHERE id = %s", [pk])
        elif what == "gone":
            cursor.execute(f"DELETE FROM {table} WHERE id = %s", [pk])
        else:
            cursor.execute(f"UPDATE {table} SET id = id + 1000 WHERE id = %s", [pk])


def test_rows_that_may_change_later_are_not_added_so(brought, person):
    with (
        pytest.raises(GateError, match="save each in its own right"),
        entry(by=person("laboratory_manager"), verb="file_taken_in", about=brought),
    ):
        add_prepared(prepared([Import(name="other.csv")], name="one"))


def test_outside_an_entry_nothing_is_added(brought):
    with pytest.raises(GateError, match="no record, no write"):
        add_prepared(prepared(rows_of(brought, 1), name="one"))


def test_no_rows_tell_nothing(brought, person):
    with entry(
        by=person("laboratory_manager"), verb="file_taken_in", about=brought, note="-"
    ):
        add_prepared(prepared([], name="none"))

    assert Entry.objects.first().changes == []
