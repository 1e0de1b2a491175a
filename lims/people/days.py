"""Which day it is where the laboratory stands."""

import datetime as dt

from lims.people.queries import site_zone
from lims.record import clock


def today() -> dt.date:
    """The present day by the laboratory's clock."""
    return clock.now().astimezone(site_zone()).date()
