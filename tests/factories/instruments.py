"""Instruments for tests, made and checked by the actions."""

import datetime as dt

from lims.instruments import actions
from lims.people.days import today


def instrument(*, by, number="PEN-01", kind="penetrometer"):
    """An instrument that was never checked."""
    return actions.add_instrument(number=number, kind=kind, by=by)


def checked(row, *, by, due_in_days=30, is_fit=True, done_days_ago=0):
    """The instrument after a check made today, or so many days ago."""
    done_on = today() - dt.timedelta(days=done_days_ago)
    actions.record_check(
        instrument=row,
        done_on=done_on,
        due_on=today() + dt.timedelta(days=due_in_days),
        found="286.7 on the reference grease, assigned 286",
        is_fit=is_fit,
        by=by,
    )
    return row


def in_service(*, by, number="PEN-01", kind="penetrometer"):
    """An instrument that may be used today."""
    return checked(instrument(by=by, number=number, kind=kind), by=by)
