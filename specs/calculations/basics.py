"""The calculations of readings and the record that known-answer cases may name.

Each takes the given of a case and calls the functions that the screens call.
"""

from collections.abc import Mapping

from specs.calculations.given import (
    Answers,
    Calculation,
    Given,
    list_of,
    numbers,
    optional_number,
    plain_number,
    text_of,
)
from specs.chain import heads
from specs.comparing import CaseRefused, Kind
from specs.methods import drops, penetration, pressure
from specs.methods.separation import mass_percent
from specs.methods.strokes import strokes_seconds


def _penetration(given: Given) -> Answers:
    cones = penetration.from_cones(
        numbers(given["readings"], "readings"),
        text_of(given, "scale") or "full",
        optional_number(given, "spread_limit"),
    )
    return {
        "mean": cones.mean,
        "reported": cones.reported,
        "spread": cones.spread,
        "accepted": cones.accepted,
    }


def _strokes_time(given: Given) -> Answers:
    strokes, rate = plain_number(given, "strokes"), plain_number(given, "per_minute")
    return {"seconds": strokes_seconds(strokes, rate)}


def _dropping_point(given: Given) -> Answers:
    pairs = [_pair(each) for each in list_of(given, "pairs")]
    heater = "block" if given["method"] == drops.BLOCK else "bath"
    drops.check_order(pairs, heater)
    found = drops.from_pairs(str(given["method"]), pairs)
    return {
        "determinations": list(found.determinations),
        "mean": found.mean,
        "reported": found.reported,
    }


def _pair(given: object) -> drops.Pair:
    if not isinstance(given, dict) or set(given) != {"observed", "block"}:
        raise CaseRefused("Each of the pairs has the keys “observed” and “block”.")
    return drops.Pair(optional_number(given, "observed"), plain_number(given, "block"))


def _pressure_drop(given: Given) -> Answers:
    found = pressure.fall(
        str(given["unit"]),
        [_point(each) for each in list_of(given, "log")],
        plain_number(given, "hours"),
        optional_number(given, "reference_c"),
        optional_number(given, "atmosphere"),
    )
    return {
        "start": found.start,
        "drop": found.drop,
        "drop_kPa": found.drop_kpa,
        "reported": found.reported,
        "corrected_drop": found.corrected_drop,
    }


def _point(given: object) -> pressure.Point:
    if not isinstance(given, list) or len(given) not in (2, 3):
        raise CaseRefused("Each line of the “log” is hours, pressure and perhaps °C.")
    return pressure.Point(*numbers(given, "log"))


def _mass_percent(given: Given) -> Answers:
    taken = plain_number(given, "taken")
    found, remaining = (
        optional_number(given, "found"),
        optional_number(given, "remaining"),
    )
    return {"percent": mass_percent(taken, found=found, remaining=remaining)}


def _record_chain(given: Given) -> Answers:
    return {"heads": heads(list_of(given, "records"))}


BASICS: Mapping[str, Calculation] = {
    "penetration": Calculation(
        _penetration,
        "ASTM D217, ISO 2137; reduced cones ASTM D1403",
        ("readings",),
        {
            "mean": Kind.NUMBER,
            "reported": Kind.ROUNDED,
            "spread": Kind.NUMBER,
            "accepted": Kind.FLAG,
        },
        ("scale", "spread_limit"),
    ),
    "strokes_time": Calculation(
        _strokes_time,
        "ASTM D217: 60 ± 10 double strokes a minute",
        ("strokes", "per_minute"),
        {"seconds": Kind.NUMBER},
    ),
    "dropping_point": Calculation(
        _dropping_point,
        "ASTM D2265; ASTM D566 and ISO 2176",
        ("method", "pairs"),
        {
            "determinations": Kind.NUMBER,
            "mean": Kind.NUMBER,
            "reported": Kind.ROUNDED,
        },
    ),
    "pressure_drop": Calculation(
        _pressure_drop,
        "ASTM D942; correction by the ideal gas at constant volume",
        ("unit", "log", "hours"),
        {
            "start": Kind.NUMBER,
            "drop": Kind.NUMBER,
            "drop_kPa": Kind.NUMBER,
            "reported": Kind.ROUNDED,
            "corrected_drop": Kind.NUMBER,
        },
        ("reference_c", "atmosphere"),
    ),
    "mass_percent": Calculation(
        _mass_percent,
        "mass fraction by weighing, in percent",
        ("taken",),
        {"percent": Kind.NUMBER},
        ("found", "remaining"),
    ),
    "record_chain": Calculation(
        _record_chain,
        "SHA-256 over the head before and the canonical JSON of the record",
        ("records",),
        {"heads": Kind.TEXT},
    ),
}
