"""The calculations that known-answer cases may name, each with its keys and source.

Each takes the given of a case and calls the functions that the screens call.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from specs.chain import heads
from specs.comparing import CaseRefused, Kind, number
from specs.judging.conformity import judge
from specs.judging.grades import nlgi
from specs.judging.rounding import round_to_step
from specs.methods import dropping_point, penetration, pressure
from specs.methods.separation import mass_percent
from specs.methods.strokes import strokes_seconds
from specs.numbers import Number, Refused, read

Given = Mapping[str, Any]
Answers = dict[str, Any]


@dataclass(frozen=True)
class Calculation:
    """A function from given to answers, the source of its formula, and its keys."""

    function: Callable[[Given], Answers]
    source: str
    required: tuple[str, ...]
    gives: Mapping[str, Kind]
    optional: tuple[str, ...] = ()


def _round(given: Given) -> Answers:
    value, step = _plain(given, "value"), _plain(given, "step")
    return {"rounded": round_to_step(value, step, str(given["tie"]))}


def _judge(given: Given) -> Answers:
    judgement = judge(
        _read(given["value"], "value"),
        _text(given, "lower"),
        _text(given, "upper"),
        _text(given, "procedure"),
        tie=_text(given, "tie") or "even",
        step=_text(given, "step"),
    )
    compared = judgement.compared
    return {
        "verdict": judgement.verdict.value,
        "compared": None if compared is None else Number.stored(compared),
    }


def _penetration(given: Given) -> Answers:
    cones = penetration.from_cones(
        _numbers(given["readings"], "readings"),
        _text(given, "scale") or "full",
        _optional(given, "spread_limit"),
    )
    return {
        "mean": cones.mean,
        "reported": cones.reported,
        "spread": cones.spread,
        "accepted": cones.accepted,
    }


def _nlgi(given: Given) -> Answers:
    found = nlgi(_plain(given, "worked"))
    return {"grade": found.grade, "between": found.between}


def _strokes_time(given: Given) -> Answers:
    strokes, rate = _plain(given, "strokes"), _plain(given, "per_minute")
    return {"seconds": strokes_seconds(strokes, rate)}


def _dropping_point(given: Given) -> Answers:
    pairs = [_pair(each) for each in _list(given, "pairs")]
    heater = "block" if given["method"] == dropping_point.BLOCK else "bath"
    dropping_point.check_order(pairs, heater)
    drops = dropping_point.from_pairs(str(given["method"]), pairs)
    return {
        "determinations": list(drops.determinations),
        "mean": drops.mean,
        "reported": drops.reported,
    }


def _pair(given: object) -> dropping_point.Pair:
    if not isinstance(given, dict) or set(given) != {"observed", "block"}:
        raise CaseRefused("Each of the pairs has the keys “observed” and “block”.")
    return dropping_point.Pair(_optional(given, "observed"), _plain(given, "block"))


def _pressure_drop(given: Given) -> Answers:
    found = pressure.fall(
        str(given["unit"]),
        [_point(each) for each in _list(given, "log")],
        _plain(given, "hours"),
        _optional(given, "reference_c"),
        _optional(given, "atmosphere"),
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
    return pressure.Point(*_numbers(given, "log"))


def _mass_percent(given: Given) -> Answers:
    taken = _plain(given, "taken")
    found, remaining = _optional(given, "found"), _optional(given, "remaining")
    return {"percent": mass_percent(taken, found=found, remaining=remaining)}


def _record_chain(given: Given) -> Answers:
    return {"heads": heads(_list(given, "records"))}


def _read(value: object, key: str) -> Number:
    """A number read as the screens read what is typed; a whole JSON number as it is."""
    return read(value) if isinstance(value, str) else number(value, key)


def _numbers(values: object, key: str) -> list[Decimal]:
    """A list of plain numbers. Raises Refused for a bound among them."""
    if not isinstance(values, list):
        raise CaseRefused(f"“{key}” is {values!r}: write a list.")
    numbers = [_read(value, key) for value in values]
    if any(number.is_censored for number in numbers):
        raise Refused(f"“{key}” holds a bound: a plain number is needed.")
    return [number.value for number in numbers]


def _plain(given: Given, key: str) -> Decimal:
    return _numbers([given[key]], key)[0]


def _optional(given: Given, key: str) -> Decimal | None:
    return None if given.get(key) is None else _plain(given, key)


def _text(given: Given, key: str) -> str | None:
    """A text, or None where there is none. Raises CaseRefused for anything else."""
    value = given.get(key)
    if value is None or isinstance(value, str):
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        return str(value)
    raise CaseRefused(f"“{key}” is {value!r}: write it as text in quotes.")


def _list(given: Given, key: str) -> list[Any]:
    if not isinstance(given[key], list):
        raise CaseRefused(f"“{key}” is {given[key]!r}: write a list.")
    return list(given[key])


CALCULATIONS: Mapping[str, Calculation] = {
    "round": Calculation(
        _round,
        "ASTM E29; ISO 80000-1 Annex B",
        ("value", "step", "tie"),
        {"rounded": Kind.ROUNDED},
    ),
    "judge": Calculation(
        _judge,
        "ASTM E29, absolute and rounding procedures",
        ("value",),
        {"verdict": Kind.TEXT, "compared": Kind.ROUNDED},
        ("lower", "upper", "procedure", "tie", "step"),
    ),
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
    "nlgi": Calculation(
        _nlgi,
        "ASTM D217, table of NLGI numbers",
        ("worked",),
        {"grade": Kind.TEXT, "between": Kind.TEXT},
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
