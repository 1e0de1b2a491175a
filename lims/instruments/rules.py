"""When an instrument may be checked, taken out, put back or retired; each refusal says what to do."""

import datetime as dt
import re

from lims.instruments.models import Check, Instrument
from lims.instruments.reference_queries import materials_for
from lims.people.days import check_sensible
from lims.record import clock
from lims.record.refusals import BadInput, WrongMove

NUMBER = re.compile(r"(?=.*\d)[A-Za-z0-9][A-Za-z0-9.-]*")


def check_number(number: str) -> None:
    """Refuse a number that could not stand in an address."""
    if not NUMBER.fullmatch(number):
        raise BadInput(
            "An instrument's number has letters, digits, full stops and hyphens, "
            "with a digit among them: write it like PEN-02.",
            field="number",
        )


def check_reason(reason: str) -> None:
    """Refuse a move without a reason, or with one that does not fit its place."""
    if not reason.strip() or not reason.strip().isprintable():
        raise BadInput("Say why, in a few words.", field="reason")
    longest = 200
    if len(reason.strip()) > longest:
        raise BadInput(
            f"The reason is {len(reason.strip())} characters long: "
            f"shorten it to {longest}.",
            field="reason",
        )


def check_found(found: str) -> None:
    """Refuse a check that does not tell what was found."""
    if not found.strip():
        raise BadInput("Say what was found.", field="found")


def check_days(
    done_on: dt.date, due_on: dt.date | None, *, is_fit: bool, today: dt.date
) -> None:
    """Refuse a check on a day to come, and a fit one that does not say when the next is due."""
    check_sensible(done_on, field="done_on")
    if done_on > today:
        raise BadInput(
            f"{done_on.isoformat()} is still to come: enter the day of the check.",
            field="done_on",
        )
    if not is_fit:
        return
    if due_on is None:
        raise BadInput("Say when the next check is due.", field="due_on")
    check_sensible(due_on, field="due_on")
    if due_on <= done_on:
        raise BadInput(
            "The next check is due after this one was done: correct one of the days.",
            field="due_on",
        )


def check_not_retired(instrument: Instrument) -> None:
    """Refuse whatever is done to a retired instrument."""
    if instrument.state == Instrument.State.RETIRED:
        raise WrongMove(
            f"{instrument} is retired: use another instrument, or add it under a "
            "new number."
        )


def check_in_service(instrument: Instrument) -> None:
    """Refuse taking out what is out already."""
    check_not_retired(instrument)
    if instrument.state == Instrument.State.OUT_OF_SERVICE:
        raise WrongMove(
            f"{instrument} is out of service already: {instrument.state_reason}."
        )


def check_may_come_back(instrument: Instrument, *, today: dt.date) -> None:
    """Refuse putting back without a check since, that found it fit and is in date."""
    check_not_retired(instrument)
    if instrument.state == Instrument.State.IN_SERVICE:
        raise WrongMove(f"{instrument} is in service already.")
    latest, since = instrument.checks.first(), instrument.out_since
    is_fit = latest is not None and latest.is_fit and latest.due_on >= today
    if latest is None or not is_fit or (since and latest.recorded_at < since):
        raise WrongMove(
            f"{instrument} comes back only after a check since, that found it fit and "
            "is in date: check it and record what was found."
        )
    _check_reference_since(instrument, today=today)


def _check_reference_since(instrument: Instrument, *, today: dt.date) -> None:
    """Where its kind has a reference material, the last reading since it went out must be a good one."""
    material = materials_for(instrument.kind, on=today).first()
    if material is None:
        return
    since, last = instrument.out_since, instrument.reference_readings.first()
    if last is None or not last.is_good or (since and last.read_at < since):
        raise WrongMove(
            f"{instrument} comes back only after a good reading of a reference material "
            f"since: read {material} on it."
        )


def put_out(instrument: Instrument, reason: str) -> None:
    """Set it out of service; the caller saves it. What brings it back must be later."""
    instrument.state = Instrument.State.OUT_OF_SERVICE
    instrument.state_reason, instrument.out_since = reason, clock.now()


def is_latest(check: Check) -> bool:
    """Whether no later check of the instrument stands in the record."""
    return check.instrument.checks.first() == check
