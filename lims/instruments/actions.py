"""What is done to instruments and their checks. Only these functions write them."""

import datetime as dt

from lims.instruments import rules
from lims.instruments.models import Check, Instrument
from lims.people.days import today
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record import clock
from lims.record.filled import check_filled, check_free
from lims.record.gate import entry


def add_instrument(*, number: str, kind: str, note: str = "", by: Person) -> Instrument:
    """Add an instrument; it is overdue until its first check is recorded."""
    check(by, Permission.KEEP_INSTRUMENTS)
    row = drawn_up(number=number, kind=kind, note=note)
    with entry(by=by, verb="instrument_added", about=row):
        check_free(row, "number")
        row.save()
    return row


def drawn_up(*, number: str, kind: str, note: str = "") -> Instrument:
    """An instrument that may be added, checked and not saved yet. Raises BadInput naming the field."""
    row = Instrument(number=number.strip(), kind=kind.strip(), note=note.strip())
    check_filled(row)
    rules.check_number(row.number)
    check_free(row, "number")
    return row


def record_check(
    *,
    instrument: Instrument,
    done_on: dt.date,
    due_on: dt.date | None,
    found: str,
    is_fit: bool,
    version: int | None = None,
    by: Person,
) -> Check:
    """Record a dated check and what was found; an instrument found unfit is out of service.

    `due_on` is when the next check is due; an unfit instrument has none.
    """
    check(by, Permission.CHECK_INSTRUMENTS)
    row = check_of(
        instrument, done_on=done_on, due_on=due_on, found=found, is_fit=is_fit, by=by
    )
    with entry(by=by, verb="instrument_checked", about=instrument, note=row.found):
        follow(instrument, row, version)
    return row


def check_of(
    instrument: Instrument,
    *,
    done_on: dt.date,
    due_on: dt.date | None,
    found: str,
    is_fit: bool,
    by: Person | None,
) -> Check:
    """A check that may be recorded, looked over and not saved yet. Raises WrongMove and BadInput."""
    rules.check_not_retired(instrument)
    rules.check_days(done_on, due_on, is_fit=is_fit, today=today())
    rules.check_found(found)
    row = Check(
        instrument=instrument,
        done_on=done_on,
        due_on=due_on if is_fit and due_on else done_on,
        found=found.strip(),
        is_fit=is_fit,
        recorded_at=clock.now(),
        recorded_by=by,
    )
    check_filled(row)
    return row


def follow(instrument: Instrument, row: Check, version: int | None = None) -> None:
    """Save a check inside the open entry; the instrument is what its latest check says."""
    row.save()
    if rules.is_latest(row):
        _follow(instrument, row)
    _save(instrument, version)


def take_out_of_service(
    *, instrument: Instrument, reason: str, version: int | None = None, by: Person
) -> Instrument:
    """Say that the instrument may not be used, and why."""
    check(by, Permission.KEEP_INSTRUMENTS)
    rules.check_in_service(instrument)
    rules.check_reason(reason)
    return _move(
        instrument=instrument,
        state=Instrument.State.OUT_OF_SERVICE,
        verb="instrument_taken_out",
        reason=reason,
        version=version,
        by=by,
    )


def put_back(
    *, instrument: Instrument, reason: str, version: int | None = None, by: Person
) -> Instrument:
    """Put the instrument back in service, after a check that found it fit and is in date."""
    check(by, Permission.KEEP_INSTRUMENTS)
    rules.check_may_come_back(instrument, today=today())
    rules.check_reason(reason)
    return _move(
        instrument=instrument,
        state=Instrument.State.IN_SERVICE,
        verb="instrument_put_back",
        reason=reason,
        version=version,
        by=by,
    )


def retire(
    *, instrument: Instrument, reason: str, version: int | None = None, by: Person
) -> Instrument:
    """Take the instrument out of use for good; its number and checks stay readable."""
    check(by, Permission.KEEP_INSTRUMENTS)
    rules.check_not_retired(instrument)
    rules.check_reason(reason)
    return _move(
        instrument=instrument,
        state=Instrument.State.RETIRED,
        verb="instrument_retired",
        reason=reason,
        version=version,
        by=by,
    )


def _move(
    *,
    instrument: Instrument,
    state: str,
    verb: str,
    reason: str,
    version: int | None,
    by: Person,
) -> Instrument:
    with entry(by=by, verb=verb, about=instrument, reason=reason.strip()):
        if state == Instrument.State.OUT_OF_SERVICE:
            rules.put_out(instrument, reason.strip())
        else:
            instrument.state, instrument.state_reason = state, reason.strip()
        _save(instrument, version)
    return instrument


def _follow(instrument: Instrument, latest: Check) -> None:
    """Bring the instrument to what its latest check says."""
    if latest.is_fit:
        instrument.due_on = latest.due_on
    else:
        rules.put_out(instrument, latest.found)


def _save(instrument: Instrument, version: int | None) -> None:
    instrument.save_if_version(instrument.version if version is None else version)
