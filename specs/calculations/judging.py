"""The calculations from a value to its verdict that known-answer cases may name.

Each takes the given of a case and calls the functions that the screens call.
"""

from collections.abc import Mapping

from specs.calculations.given import (
    Answers,
    Calculation,
    Given,
    plain_number,
    read_number,
    text_of,
)
from specs.comparing import Kind
from specs.judging.conformity import judge
from specs.judging.constants import EXACT
from specs.judging.grades import nlgi
from specs.judging.rounding import round_to_step
from specs.judging.zones import (
    USUAL_CONFIDENCE,
    acceptance_zone,
    probability_of_conformity,
)
from specs.numbers import Number


def _round(given: Given) -> Answers:
    value, step = plain_number(given, "value"), plain_number(given, "step")
    return {"rounded": round_to_step(value, step, str(given["tie"]))}


def _judge(given: Given) -> Answers:
    judgement = judge(
        read_number(given["value"], "value"),
        text_of(given, "lower"),
        text_of(given, "upper"),
        text_of(given, "procedure"),
        tie=text_of(given, "tie") or "even",
        step=text_of(given, "step"),
    )
    compared = judgement.compared
    return {
        "verdict": judgement.verdict.value,
        "compared": None if compared is None else Number.stored(compared),
    }


def _nlgi(given: Given) -> Answers:
    found = nlgi(plain_number(given, "worked"))
    return {"grade": found.grade, "between": found.between}


def _probability_of_conformity(given: Given) -> Answers:
    probability = probability_of_conformity(
        read_number(given["value"], "value"),
        _text(given, "u"),
        text_of(given, "lower"),
        text_of(given, "upper"),
    )
    return {"probability": probability}


def _acceptance_zone(given: Given) -> Answers:
    zone = acceptance_zone(
        text_of(given, "lower"),
        text_of(given, "upper"),
        u=text_of(given, "u"),
        R=text_of(given, "R"),
        confidence=text_of(given, "confidence") or USUAL_CONFIDENCE,
        constants=text_of(given, "constants") or EXACT,
    )
    return {"lower": zone.lower, "upper": zone.upper, "empty": zone.is_empty}


def _text(given: Given, key: str) -> str:
    return text_of(given, key) or ""


JUDGING: Mapping[str, Calculation] = {
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
    "nlgi": Calculation(
        _nlgi,
        "ASTM D217, table of NLGI numbers",
        ("worked",),
        {"grade": Kind.TEXT, "between": Kind.TEXT},
    ),
    "probability_of_conformity": Calculation(
        _probability_of_conformity,
        "JCGM 106:2012 (ISO/IEC Guide 98-4), probability of conformity, normal",
        ("value", "u"),
        {"probability": Kind.NUMBER},
        ("lower", "upper"),
    ),
    "acceptance_zone": Calculation(
        _acceptance_zone,
        "JCGM 106:2012, guarded acceptance: z u, or z R/(1.96 √2) as ISO 4259-2",
        (),
        {"lower": Kind.NUMBER, "upper": Kind.NUMBER, "empty": Kind.FLAG},
        ("lower", "upper", "u", "R", "confidence"),
    ),
}
