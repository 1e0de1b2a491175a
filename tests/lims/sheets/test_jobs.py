"""Looking and taking in as jobs: however they end, the file can be gone on with, and the program is as it was."""

import gc
from pathlib import Path

import pytest
from django.core.files.storage import default_storage

from lims.imports import actions
from lims.imports.models import HistoryLine, Import, Staging
from lims.record.refusals import BadInput, ChangedSince, WrongMove
from lims.sheets import jobs, looking
from lims.sheets.reading import FileRefused
from tests.factories import bringing

CONTENT = (
    b"Batch;Date;Product;Worked penetration (0.1 mm)\nQ1-25-0391;2025-12-03;LX2;281\n"
)


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def manager(person):
    return person("laboratory_manager")


@pytest.fixture
def waiting(manager):
    row = bringing.received(by=manager, content=CONTENT)
    jobs.look(row)
    return row


def stage_of(row):
    return Staging.objects.get(import_of=row).stage


@pytest.mark.parametrize("was_on", [True, False])
def test_no_garbage_is_looked_for_while_a_table_is_checked(
    was_on, waiting, monkeypatch
):
    seen = []
    monkeypatch.setattr(looking, "look", lambda *_: seen.append(gc.isenabled()))
    try:
        gc.enable() if was_on else gc.disable()
        jobs.look(waiting)

        assert seen == [False]
        assert gc.isenabled() is was_on
    finally:
        gc.enable()


def test_it_is_looked_for_again_whatever_happens(waiting, manager, monkeypatch):
    def fail(*_):
        assert not gc.isenabled()
        raise MemoryError

    monkeypatch.setattr(looking, "look", fail)
    monkeypatch.setattr(looking, "tables_anew", fail)
    with pytest.raises(MemoryError):
        jobs.look(waiting)
    assert gc.isenabled()

    with pytest.raises(MemoryError):
        jobs.take(waiting, by=manager)
    assert gc.isenabled()


def test_taking_in_that_fails_leaves_nothing_at_work(waiting, manager, monkeypatch):
    def fail(*_):
        raise RuntimeError

    monkeypatch.setattr(looking, "tables_anew", fail)
    with pytest.raises(RuntimeError):
        jobs.take(waiting, by=manager)

    assert stage_of(waiting) == "failed"
    assert not HistoryLine.objects.exists()


def test_a_file_that_can_be_read_no_more_is_a_refusal(waiting, manager, monkeypatch):
    def fail(*_):
        raise FileRefused("Reading it broke off.")

    monkeypatch.setattr(looking, "tables_anew", fail)
    with pytest.raises(WrongMove, match="Reading it broke off"):
        jobs.take(waiting, by=manager)

    assert stage_of(waiting) == "looked at"


def test_a_kept_file_that_was_altered_leaves_nothing_at_work(waiting, manager):
    Path(default_storage.path(waiting.stored_as)).write_bytes(b"something else")

    with pytest.raises(BadInput, match="not as it was received"):
        jobs.take(waiting, by=manager)

    assert stage_of(waiting) == "looked at"


def answered_by_another(row, manager):
    """Somebody with a page that was opened earlier answers once more."""
    late = Import.objects.get(pk=row.pk)
    actions.answer(
        import_of=late, choices={}, instead={"x": {"A2": "0392"}}, by=manager
    )


def test_what_was_answered_since_is_confirmed_by_nobody(waiting, manager):
    answered_by_another(waiting, manager)

    with pytest.raises(ChangedSince, match="Somebody answered anew"):
        jobs.take(waiting, by=manager)

    assert not HistoryLine.objects.exists()


def test_a_worker_takes_in_what_was_seen_and_nothing_later(
    waiting, manager, monkeypatch
):
    seen = waiting.version
    answered_by_another(waiting, manager)

    jobs.take_later.call(waiting.pk, manager.pk, seen)

    staging = Staging.objects.get(import_of=waiting)
    assert "Somebody answered anew" in staging.words
    assert not HistoryLine.objects.exists()
