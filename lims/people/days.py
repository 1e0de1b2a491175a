"""Which day it is where the laboratory stands, and which days it can mean."""

import datetime as dt

from lims.people.queries import site_zone
from lims.record import clock
from lims.record.refusals import BadInput

EARLIEST, LATEST = dt.date(1990, 1, 1), dt.date(2100, 12, 31)


def today() -> dt.date:
    """The present day by the laboratory's clock."""
    return clock.now().astimezone(site_zone()).date()


def day_of(moment: dt.datetime | None) -> str:
    """The day of a moment where the laboratory stands, as 2026-03-05; nothing for none."""
    return moment.astimezone(site_zone()).date().isoformat() if moment else ""


def check_sensible(day: dt.date, *, field: str) -> None:
    """Refuse a year that no laboratory means: it was mistyped."""
    if not EARLIEST <= day <= LATEST:
        raise BadInput("Write a day between 1990 and 2100.", field=field)
