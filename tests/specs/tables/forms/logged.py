"""Looks at logs for the tests of their times and of their values."""

import datetime as dt

from specs.tables.forms.log_checking import check_log
from specs.tables.forms.log_subjects import Around
from specs.tables.forms.logs import LOG
from specs.tables.forms.proposing import proposed_for
from specs.tables.saying import Answers, Fate
from tests.factories import tables

TODAY = dt.date(2026, 3, 9)
TAKEN = (Fate.TAKEN, Fate.CONVERTED)


def looked(heads, *rows, choices=None, instead=None, units=(), units_row=None, **more):
    sheet = tables.sheet(heads, *rows, **more)
    block = tables.block(sheet, units=units, units_row=units_row)
    mapping = {
        letter: {"role": key} for letter, key in proposed_for(block, LOG).items()
    }
    said = {"B/subject": "heading", **(choices or {})}
    return check_log(sheet, block, mapping, Answers(said, instead or {}), Around(TODAY))


def minutes(it, letter="A"):
    return [said.value for said in it.said[letter] if said.fate in TAKEN]


def pressure(*times, heads=("Time", "P (kPa)"), **more):
    rows = [(time, str(758 - place)) for place, time in enumerate(times)]
    return looked(heads, *rows, units={"B": "kPa", **more.pop("units", {})}, **more)


def keys(it):
    return [one.key for one in it.questions]
