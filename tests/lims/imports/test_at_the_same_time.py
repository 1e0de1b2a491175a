"""Two people at once: the same file sent twice, taken in twice, another withdrawn meanwhile. Each comes out as if one had come after the other."""

import threading

import pytest
from django.core.files.storage import default_storage
from django.db import connection

from lims.imports import actions, lines
from lims.imports.models import HistoryLine, Import, Staging
from lims.record.models import Entry
from lims.record.refusals import BadInput, Refusal
from tests.factories import bringing
from tests.factories.bringing import line, table

in_threads = pytest.mark.skipif(
    connection.vendor != "postgresql",
    reason="a database in memory does not wait for its turn",
)
CONTENT = b"Batch;Pen\nQ1-25-0377;281\n"


def at_once(*acts):
    """Do them in threads of their own, begun together; what each gave or raised."""
    ready = threading.Barrier(len(acts))
    came = [None] * len(acts)

    def run(place, act):
        try:
            ready.wait(10)
            came[place] = act()
        except Refusal as refusal:
            came[place] = refusal
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=it) for it in enumerate(acts)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(30)
    return came


def test_the_same_bytes_that_came_while_these_were_stored_are_that_import(
    manager, monkeypatch
):
    """The first look for them found nothing: the other was recorded just after it."""
    save, first = default_storage.save, []

    def save_slowly(name, content):
        if not first:
            first.append(None)
            first[0] = bringing.received(by=manager, content=CONTENT)
        return save(name, content)

    monkeypatch.setattr(default_storage, "save", save_slowly)
    row = bringing.received(by=manager, content=CONTENT)

    assert row == first[0]
    assert Import.objects.count() == Staging.objects.count() == 1
    assert Entry.objects.filter(verb="file_received").count() == 1
    assert len(default_storage.listdir("imports")[1]) == 1


def test_bytes_that_were_taken_in_while_these_were_stored_are_refused(
    manager, monkeypatch
):
    save, first = default_storage.save, []

    def save_slowly(name, content):
        if not first:
            first.append(None)
            bringing.taken_in(by=manager, content=CONTENT)
        return save(name, content)

    monkeypatch.setattr(default_storage, "save", save_slowly)
    with pytest.raises(BadInput, match="taken in on"):
        bringing.received(by=manager, content=CONTENT)

    assert Import.objects.count() == 1
    assert len(default_storage.listdir("imports")[1]) == 1


@in_threads
@pytest.mark.django_db(transaction=True)
def test_one_file_sent_twice_at_once_is_one_import(manager):
    def send():
        return bringing.received(by=manager, content=CONTENT)

    one, other = at_once(send, send)

    assert one == other
    assert Import.objects.count() == 1


@in_threads
@pytest.mark.django_db(transaction=True)
def test_two_people_who_take_it_in_at_once_take_it_in_once(manager):
    bringing.product(by=manager)
    row = bringing.received(by=manager, content=CONTENT)

    def take():
        own = Import.objects.get(pk=row.pk)
        return actions.take_in(import_of=own, tables=[table(line())], by=manager)

    came = at_once(take, take)

    assert sum(isinstance(it, Refusal) for it in came) == 1
    assert sum(isinstance(it, Import) for it in came) == 1
    assert HistoryLine.objects.count() == 1


def test_what_stands_moves_when_one_file_is_withdrawn_and_another_comes(manager):
    """As many files as before, and no line after the last: still another laboratory."""
    first = bringing.taken_in(by=manager, content=b"1")
    stood = lines._stand()
    last = HistoryLine.objects.count()
    second = bringing.received(by=manager, content=b"2")
    actions.take_in(import_of=second, tables=[table(line())], by=manager)
    assert HistoryLine.objects.count() == last

    actions.withdraw(import_of=first, reason="the wrong book", by=manager)

    assert lines._stand() != stood
