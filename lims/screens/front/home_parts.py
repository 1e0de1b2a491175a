"""What the first page is made of: parts with a few lines each, and where to go on."""

import datetime as dt
from dataclasses import dataclass

from lims.record import clock
from lims.screens.zone import zone
from lims.wording import dates

MOST = 6  # lines of a part; the place itself shows all


@dataclass(frozen=True)
class Line:
    """One thing of a part: what, more about it, its state, and where it stands."""

    words: str
    note: str = ""
    address: str = ""
    mark: str = ""
    aside: str = ""


@dataclass(frozen=True)
class Part:
    """One section of the page."""

    heading: str
    about: str
    lines: tuple[Line, ...]
    empty: str
    link: str
    link_words: str
    answer: str = ""


def near(moment: dt.datetime) -> str:
    return dates.near(moment, clock.now(), zone())
