"""Looking at a file and taking it in: small ones at once, large ones in the background, where they can be left and found again."""

import gc
import logging
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from django.conf import settings
from django_tasks import task

from lims.imports import actions, rules
from lims.imports.models import Import, Staging
from lims.people.models import Person
from lims.record import clock
from lims.record.clock import now
from lims.record.refusals import ChangedSince, Refusal, WrongMove
from lims.sheets import looking
from lims.sheets.reading import FileRefused

log = logging.getLogger("lims.sheets")

AT_ONCE = 300_000  # bytes; a larger file waits for the worker
TROUBLE = (
    "The program failed on this file; nothing was taken in. Try again, or leave the file "
    "and send it to whoever looks after the program."
)
ANSWERED_ANEW = (
    "Somebody answered anew since you opened this page: look at what would be taken in now, "
    "then take it in."
)
Stage = Staging.Stage


def look(import_of: Import, *, here: bool = False) -> None:
    """Have the file looked at, now or as soon as a worker is free; `here` never waits."""
    _tell(import_of.pk, Stage.WAITING, "")
    if here or import_of.size <= AT_ONCE:
        look_at(import_of.pk)
    else:
        look_later.enqueue(import_of.pk)


def take(import_of: Import, *, by: Person, here: bool = False) -> None:
    """Have the file taken in as the person saw it. A refusal is raised where it is small, else it stands in the staging."""
    rules.check_may(by, import_of.kind)
    rules.check_waits(import_of)
    if here or import_of.size <= AT_ONCE:
        take_in(import_of.pk, by, import_of.version)
        return
    _tell(import_of.pk, Stage.WAITING, "waits to be taken in")
    take_later.enqueue(import_of.pk, by.pk, import_of.version)


@task()
def look_later(pk: int) -> None:
    """In the worker: look at a file."""
    _by_the_right_clock()
    look_at(pk)


@task()
def take_later(pk: int, person: int, version: int) -> None:
    """In the worker: take a file in; a refusal is told where the person finds it."""
    _by_the_right_clock()
    try:
        take_in(pk, Person.objects.get(pk=person), version)
    except Refusal as refusal:
        _tell(pk, Stage.LOOKED_AT, refusal.sentence[:300])
    except Exception:
        _tell(pk, Stage.FAILED, TROUBLE)
        raise


def _by_the_right_clock() -> None:
    """A worker of the demo goes by the demo's clock, as the pages do."""
    if settings.WORK == "worker" and settings.MODE == "demo":
        clock.resume_demo()


def look_at(pk: int) -> None:
    """Look at a file; one that cannot be read is refused with its sentence."""
    import_of = Import.objects.get(pk=pk)
    if import_of.state != Import.State.RECEIVED:
        return

    def tell(words: str, done: int, total: int) -> None:
        _tell(pk, Stage.READING, words, done, total)

    try:
        with _no_collecting():
            looking.look(import_of, tell)
    except FileRefused as refusal:
        if import_of.reading:  # a way of reading that was chosen may be chosen anew
            _tell(pk, Stage.FAILED, f"Read so, it fails. {refusal}"[:300])
        else:
            actions.refuse(import_of=import_of, reason=str(refusal), by=None)
    except Refusal as refusal:
        _tell(pk, Stage.FAILED, refusal.sentence[:300])
    except Exception:
        log.exception("Import %s could not be looked at", pk)
        _tell(pk, Stage.FAILED, TROUBLE)
        if settings.WORK == "at once":
            raise


def take_in(pk: int, by: Person, version: int) -> Import:
    """Check the file once more and take it in, in one entry; however that fails, the file waits as before.

    `version` is the one that the person saw: what was answered since, nobody has confirmed.
    """
    import_of = Import.objects.get(pk=pk)
    rules.check_waits(import_of)
    try:
        if import_of.version != version:
            raise ChangedSince(ANSWERED_ANEW)
        return _taken_in(import_of, by)
    except Refusal:
        _tell(pk, Stage.LOOKED_AT, "")
        raise
    except FileRefused as refusal:
        _tell(pk, Stage.LOOKED_AT, "")
        raise WrongMove(str(refusal)) from refusal
    except Exception:
        _tell(pk, Stage.FAILED, TROUBLE)
        raise


def _taken_in(import_of: Import, by: Person) -> Import:
    actions.content_of(import_of)  # the kept file is still the one that came
    _tell(import_of.pk, Stage.TAKING, "checking once more")
    with _no_collecting():
        tables = looking.tables_anew(import_of.pk)
    _tell(import_of.pk, Stage.TAKING, "writing")
    return actions.take_in(
        import_of=import_of, tables=tables, version=import_of.version, by=by
    )


@contextmanager
def _no_collecting() -> Iterator[None]:
    """A large table makes objects by the million and no cycles: looking for those takes nearly half of the time."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _tell(pk: int, stage: str, words: str, done: int = 0, total: int = 0) -> None:
    told: dict[str, Any] = {"stage": stage, "words": words, "done": done}
    Staging.objects.filter(import_of=pk).update(**told, total=total, changed_at=now())
