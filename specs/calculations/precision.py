"""The calculations of precision and outliers that known-answer cases may name."""

from collections.abc import Mapping
from dataclasses import asdict
from decimal import Decimal

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
from specs.comparing import CaseRefused, Kind
from specs.judging import assigned, outliers, precision, repeats
from specs.judging.constants import EXACT, PROBABILITY
from specs.judging.interlaboratory import interlaboratory
from specs.numbers import Refused


def _critical_range_factor(given: Given) -> Answers:
    count = _whole(given, "n")
    return {"factor": repeats.critical_range_factor(count, _constants(given))}


def _repeat(given: Given) -> Answers:
    results = numbers(given["results"], "results")
    found = repeats.repeat(
        text_of(given, "school") or "",
        results,
        plain_number(given, "r"),
        route=text_of(given, "route") or "",
        constants=_constants(given),
    )
    return {
        "outcome": found.outcome,
        "value": found.value,
        "statistic": found.statistic or None,
        "set_aside": [results[place] for place in found.set_aside],
        "more": Decimal(found.more),
    }


def _single_result_bound(given: Given) -> Answers:
    confidence = optional_number(given, "confidence")
    bound = precision.single_result_bound(
        plain_number(given, "limit"),
        text_of(given, "side") or "",
        plain_number(given, "R"),
        text_of(given, "party") or "",
        confidence=PROBABILITY if confidence is None else confidence,
        constants=_constants(given),
    )
    return {"bound": bound}


def _mean_reproducibility(given: Given) -> Answers:
    found = precision.mean_reproducibility(
        plain_number(given, "R"),
        plain_number(given, "r"),
        numbers(given["results_per_laboratory"], "results_per_laboratory"),
    )
    return asdict(found)


def _assigned_value(given: Given) -> Answers:
    retest = given.get("retest")
    found = assigned.assigned_value(
        plain_number(given, "R"),
        numbers(given["first"], "first"),
        None if retest is None else numbers(retest, "retest"),
        optional_number(given, "referee"),
        _constants(given),
    )
    return asdict(found)


def _acceptance_bound(given: Given) -> Answers:
    stated = optional_number(given, "laboratories")
    bound = assigned.acceptance_bound(
        plain_number(given, "limit"),
        text_of(given, "side") or "",
        plain_number(given, "R"),
        plain_number(given, "probability"),
        laboratories=2 if stated is None else stated,
        constants=_constants(given),
    )
    return {"bound": bound}


def _interlaboratory(given: Given) -> Answers:
    cells = [numbers(cell, "laboratories") for cell in list_of(given, "laboratories")]
    found = interlaboratory(cells, _constants(given))
    keys = ("mean", "s_r", "s_R", "r", "R")
    return {key: getattr(found, key) for key in keys}


def _grubbs(given: Given) -> Answers:
    alpha, sides = plain_number(given, "alpha"), _whole(given, "sides")
    if given.get("values") is None:
        if given.get("n") is None:
            raise CaseRefused("Give the “values”, or “n” for the critical value alone.")
        critical = outliers.grubbs_critical(_whole(given, "n"), alpha, sides)
        return {"critical": critical}
    values = numbers(given["values"], "values")
    if given.get("n") is not None and _whole(given, "n") != len(values):
        raise CaseRefused(f"“n” is {given['n']}, but there are {len(values)} values.")
    tail = text_of(given, "tail") or "upper"
    found = outliers.grubbs(values, alpha, sides, tail=tail)
    return {
        "statistic": found.statistic,
        "critical": found.critical,
        "suspect": found.suspect,
        "outlying": found.is_outlying,
    }


def _cochran(given: Given) -> Answers:
    critical = outliers.cochran_critical(
        _whole(given, "p"), _whole(given, "n"), plain_number(given, "alpha")
    )
    return {"critical": critical}


def _constants(given: Given) -> str:
    return text_of(given, "constants") or EXACT


def _whole(given: Given, key: str) -> int:
    number = plain_number(given, key)
    if number != int(number):
        raise Refused(f"“{key}” is {number}: a whole number is needed.")
    return int(number)


PRECISION: Mapping[str, Calculation] = {
    "critical_range_factor": Calculation(
        _critical_range_factor,
        "ISO 5725-6, critical range: 95 % quantile of the range of n normal values",
        ("n",),
        {"factor": Kind.NUMBER},
        ("constants",),
    ),
    "repeat": Calculation(
        _repeat,
        "ISO 4259, results farthest from the mean of the others; ISO 5725-6, critical range",
        ("school", "r", "results"),
        {
            "outcome": Kind.TEXT,
            "value": Kind.NUMBER,
            "statistic": Kind.TEXT,
            "set_aside": Kind.NUMBER,
            "more": Kind.ROUNDED,
        },
        ("route", "constants"),
    ),
    "single_result_bound": Calculation(
        _single_result_bound,
        "ISO 4259, single result against a limit: limit ± z R/(1.96 √2)",
        ("limit", "side", "R", "party"),
        {"bound": Kind.NUMBER},
        ("confidence", "constants"),
    ),
    "mean_reproducibility": Calculation(
        _mean_reproducibility,
        "ISO 4259, averages: √(R² − r² (1 − (1/N) Σ 1/k))",
        ("R", "r", "results_per_laboratory"),
        {"reproducibility": Kind.NUMBER, "half_width": Kind.NUMBER},
    ),
    "assigned_value": Calculation(
        _assigned_value,
        "ASTM D3244, assigned test value: two results within R, retests, a referee’s third",
        ("R", "first"),
        {"value": Kind.NUMBER, "basis": Kind.TEXT},
        ("retest", "referee", "constants"),
    ),
    "acceptance_bound": Calculation(
        _acceptance_bound,
        "ASTM D3244, acceptance limit: limit ± z R/(1.96 √(2 n))",
        ("limit", "side", "R", "probability"),
        {"bound": Kind.NUMBER},
        ("laboratories", "constants"),
    ),
    "interlaboratory": Calculation(
        _interlaboratory,
        "ISO 5725-2, one level; ASTM E691 for equal numbers",
        ("laboratories",),
        dict.fromkeys(("mean", "s_r", "s_R", "r", "R"), Kind.NUMBER),
        ("constants",),
    ),
    "grubbs": Calculation(
        _grubbs,
        "Grubbs: www.itl.nist.gov/div898/handbook/eda/section3/eda35h1.htm",
        ("alpha", "sides"),
        {
            "statistic": Kind.NUMBER,
            "critical": Kind.NUMBER,
            "suspect": Kind.NUMBER,
            "outlying": Kind.FLAG,
        },
        ("values", "n", "tail"),
    ),
    "cochran": Calculation(
        _cochran,
        "Cochran, ISO 5725-2: 1/(1 + (p−1)/F)",
        ("p", "n", "alpha"),
        {"critical": Kind.NUMBER},
    ),
}
