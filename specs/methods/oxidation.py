"""Oxidation stability in an oxygen vessel (ASTM D942): the determination of one or two.

The value is the mean fall over the vessels in kPa, unrounded, reported once to 1 kPa.
A reading counts for the stated hour only within half an hour of it.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta
from decimal import Decimal

from specs.judging.rounding import mean, round_to_step
from specs.methods.moments import moment
from specs.methods.outcome import (
    Bar,
    Condition,
    Given,
    Outcome,
    Parameter,
    Parameters,
    Procedure,
    Slot,
    setting,
    unanswered,
)
from specs.methods.pressure import REPORTED_TO, Point, fall
from specs.methods.vessels import Vessel, start_bars, start_doubts
from specs.numbers import Number, read, shortened, to_decimal

HOURS = Parameter("hours", "Stated hours", "100")
INTERIM = Parameter("interim", "Hours of the readings between", "24 48 72")
VESSELS = Parameter("vessels", "Vessels", "2", ("1", "2"))
WINDOW = timedelta(minutes=30)
STARTED_AT = Condition("started_at", "Oxygen vessels started", "time")
CAUTION = (
    "Oxygen under pressure feeds fire and the bath is hot: no oil or grease on fittings, "
    "follow local codes and the safety data sheet; work only as the licensed or "
    "competent person directs."
)


def slots(parameters: Parameters) -> tuple[Slot, ...]:
    """Row by row: the maximum, the hours between, the stated hour; a column a vessel."""
    rows = [("maximum", "Maximum", False)]
    rows += [(f"at_{hour}", f"{hour} h", True) for hour in _interim(parameters)]
    rows.append((_last_key(parameters), f"{_hours(parameters)} h", False))
    return tuple(
        Slot(
            f"{key}_{vessel}",
            f"{row}, vessel {vessel}",
            row=row,
            column=f"Vessel {vessel}",
            optional=optional,
        )
        for key, row, optional in rows
        for vessel in _places(parameters)
    )


def conditions(parameters: Parameters) -> tuple[Condition, ...]:
    """The start, and for each vessel which it is and the unit of its gauge."""
    vessels = [
        condition for place in _places(parameters) for condition in _of_vessel(place)
    ]
    return (STARTED_AT, *vessels)


def due_at(started_at: datetime, parameters: Parameters) -> datetime:
    """When the reading of the stated hour is due."""
    seconds = read(_hours(parameters)).value * 3600
    return started_at + timedelta(seconds=int(seconds))


def carry_out(given: Given) -> Outcome:
    """The mean fall of the vessels; None until the stated hour has been read."""
    missing = unanswered(given, conditions(given.parameters))
    vessels = [_vessel(given, place) for place in _places(given.parameters)]
    bars = (
        *_sense_bars(given),
        *_vessel_bars(given),
        *start_bars(vessels),
        *_hour_bars(given),
    )
    falls = [vessel.fall for vessel in vessels if vessel.fall is not None]
    asks = (*missing, *start_doubts(vessels))
    if len(falls) < len(vessels):
        return Outcome(
            complete=False,
            accepted=True,
            bars=bars,
            asks=(*asks, *_due(given)),
            says=f"{len(falls)} of {len(vessels)} vessels read at the stated hour",
            parts=_parts(vessels),
        )
    average = mean([each.drop_kpa for each in falls])
    value = Number.of(to_decimal(average))
    return Outcome(
        complete=not missing,
        accepted=True,
        value=value,
        reported=Number.of(round_to_step(average, REPORTED_TO["kPa"])),
        bars=bars,
        asks=asks,
        says=_says(vessels),
        parts={**_parts(vessels), "mean": value.canonical},
    )


def _of_vessel(place: int) -> tuple[Condition, Condition]:
    return (
        Condition(
            f"vessel_{place}",
            f"Vessel {place}",
            "instrument",
            instrument_kind="oxygen vessel",
        ),
        _gauge(place),
    )


def _gauge(place: int) -> Condition:
    return Condition(
        f"unit_{place}",
        f"Gauge of vessel {place}",
        "choice",
        default="kPa",
        choices=tuple(REPORTED_TO),
    )


def _vessel(given: Given, place: int) -> Vessel:
    unit = given.choice(_gauge(place))
    hours = read(_hours(given.parameters)).value
    rows = [("maximum", Decimal(0))]
    rows += [
        (f"at_{hour}", read(hour).value)
        for hour in (*_interim(given.parameters), _hours(given.parameters))
    ]
    points = tuple(
        Point(hour, number.value)
        for key, hour in rows
        if (number := given.reading(f"{key}_{place}")) and not number.is_censored
    )
    has_ends = {Decimal(0), hours} <= {point.hours for point in points}
    found = fall(unit, points, hours) if has_ends and unit else None
    return Vessel(place, unit or "", points, found)


def _vessel_bars(given: Given) -> tuple[Bar, ...]:
    """One vessel cannot stand for two: each fall is that of its own vessel."""
    names = [given.conditions.get(f"vessel_{it}") for it in _places(given.parameters)]
    named = [name for name in names if isinstance(name, str) and name.strip()]
    if len({name.strip().casefold() for name in named}) == len(named):
        return ()
    sentence = f"Stored, cannot count: {named[0]} is named for both vessels."
    return (Bar("vessels", sentence, "Correct which vessel stood in which place."),)


def _sense_bars(given: Given) -> tuple[Bar, ...]:
    bounds = any(
        number.is_censored
        for slot in slots(given.parameters)
        if (number := given.reading(slot.key))
    )
    sentence = "Stored, cannot count: a pressure is a plain number, not a bound."
    return (Bar("reading", sentence, "Read the gauge again."),) if bounds else ()


def _hour_bars(given: Given) -> tuple[Bar, ...]:
    """A bar for each vessel not read within half an hour of the stated hour."""
    started = given.time(STARTED_AT.key)
    if started is None:
        return ()
    due, hours = due_at(started, given.parameters), _hours(given.parameters)
    bars = []
    for place in _places(given.parameters):
        key = f"{_last_key(given.parameters)}_{place}"
        at = given.read_at(key)
        if given.reading(key) is None or abs(at - due) <= WINDOW:
            continue
        own = shortened(_hours_between(started, at), 1)
        bars.append(
            Bar(
                f"hour_{place}",
                f"Stored, cannot count: vessel {place} was read at {own} h, which does "
                f"not stand for {hours} h ({moment(due)}).",
                "Correct the time if it is wrong; else start a fresh run.",
            )
        )
    return tuple(bars)


def _hours_between(start: datetime, end: datetime) -> Decimal:
    return Decimal((end - start) // timedelta(seconds=1)) / 3600


def _due(given: Given) -> tuple[str, ...]:
    started = given.time(STARTED_AT.key)
    if started is None:
        return ()
    due = moment(due_at(started, given.parameters))
    return (f"The reading at {_hours(given.parameters)} h is due {due}.",)


def _parts(vessels: Sequence[Vessel]) -> dict[str, str]:
    parts: dict[str, str] = {}
    for vessel in vessels:
        if vessel.fall is None:
            continue
        parts[f"start_{vessel.place}"] = f"{vessel.fall.start:f}"
        parts[f"drop_{vessel.place}"] = f"{vessel.fall.drop:f}"
        parts[f"unit_{vessel.place}"] = vessel.unit
        parts[f"drop_kPa_{vessel.place}"] = f"{vessel.fall.drop_kpa:f}"
    return parts


def _says(vessels: Sequence[Vessel]) -> str:
    """A phrase: "mean fall of 86 kPa and 12.2 psi (84.12 kPa); difference 1.88 kPa"."""
    falls = [(vessel.unit, vessel.fall) for vessel in vessels if vessel.fall]
    words = [
        shortened(each.drop)
        + (" kPa" if unit == "kPa" else f" {unit} ({shortened(each.drop_kpa)} kPa)")
        for unit, each in falls
    ]
    says = f"fall of {' and '.join(words)}"
    if len(falls) == 1:
        return says
    apart = abs(falls[0][1].drop_kpa - falls[1][1].drop_kpa)
    return f"mean {says}; difference {shortened(apart)} kPa"


def _hours(parameters: Parameters) -> str:
    return setting(parameters, HOURS)


def _interim(parameters: Parameters) -> tuple[str, ...]:
    last = read(_hours(parameters)).value
    hours = setting(parameters, INTERIM).split()
    return tuple(hour for hour in hours if 0 < read(hour).value < last)


def _last_key(parameters: Parameters) -> str:
    return f"at_{_hours(parameters)}"


def _places(parameters: Parameters) -> range:
    return range(1, int(setting(parameters, VESSELS)) + 1)


OXIDATION = Procedure(
    name="oxidation, pressure vessel",
    kind="number",
    unit="kPa",
    slots=slots,
    conditions=conditions,
    carry_out=carry_out,
    caution=CAUTION,
    parameters=(HOURS, INTERIM, VESSELS),
)
