"""What narrows a chart: kettle, fill lot, instrument, person, days."""

import datetime as dt
from collections.abc import Callable, Iterable

from lims.trends.asked import Asked
from lims.trends.own import Found


def narrowed(found: Iterable[Found], asked: Asked) -> list[Found]:
    """The values that fit everything that is asked, in order of time."""
    tests = _tests(asked)
    kept = [it for it in found if all(fits(it) for fits in tests)]
    return sorted(kept, key=lambda it: it.at)


def _tests(asked: Asked) -> list[Callable[[Found], bool]]:
    tests: list[Callable[[Found], bool]] = []
    if asked.kettle:
        tests.append(lambda it: it.kettle == asked.kettle)
    if asked.lot:
        wanted = plain(asked.lot)
        tests.append(
            lambda it: wanted in {plain(it.lot_number), plain(it.batch)} - {""}
        )
    if asked.instrument:
        tests.append(lambda it: asked.instrument in it.instruments)
    if asked.person:
        tests.append(lambda it: it.person == asked.person)
    if asked.since or asked.until:
        tests.append(_within(asked.since or dt.date.min, asked.until or dt.date.max))
    return tests


def _within(first: dt.date, last: dt.date) -> Callable[[Found], bool]:
    """Both days belong to it, on the laboratory's calendar."""
    return lambda it: first <= it.day <= last


def plain(number: str) -> str:
    """A number of a lot or a batch without what people write between its parts: Q1-26-0417 A and q1-26-0417-A are one."""
    return "".join(it for it in number.casefold() if it.isalnum())
