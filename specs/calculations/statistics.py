"""The calculations of many results that known-answer cases may name."""

from collections.abc import Mapping
from decimal import Decimal

from specs.calculations.given import (
    Answers,
    Calculation,
    Given,
    list_of,
    numbers,
    optional_number,
    read_number,
)
from specs.comparing import Kind
from specs.numbers import Number, to_decimal
from specs.statistics.comparison import compared
from specs.statistics.intervals import CONFIDENCE
from specs.statistics.line import line_of
from specs.statistics.moving import moving_of
from specs.statistics.summary import summary_of

FIVE = ("minimum", "lower_quartile", "median", "upper_quartile", "maximum")


def _summary(given: Given) -> Answers:
    found = summary_of(_with_bounds(given, "values"))
    return {
        "count": Decimal(found.count),
        "censored": Decimal(found.censored),
        "mean": found.mean,
        "s": found.s,
        **{name: _known(getattr(found, name)) for name in FIVE},
    }


def _known(text: str) -> Number | str | None:
    """A number or a bound; words (≥300) where the bound itself may be reached."""
    return text if text[:1] in {"≥", "≤"} else Number.stored(text) if text else None


def _two_groups(given: Given) -> Answers:
    groups = _with_bounds(given, "first"), _with_bounds(given, "second")
    found = compared(*groups, optional_number(given, "confidence") or CONFIDENCE)
    means, spreads = found.means, found.spreads
    return {
        "difference": means and means.value,
        "lower": means and means.lower,
        "upper": means and means.upper,
        "freedom": found.freedom,
        "medians": found.medians,
        "ratio": spreads and spreads.value,
        "ratio_lower": spreads and spreads.lower,
        "ratio_upper": spreads and spreads.upper,
    }


def _straight_line(given: Given) -> Answers:
    confidence = optional_number(given, "confidence") or CONFIDENCE
    found = line_of(numbers(given["x"], "x"), numbers(given["y"], "y"), confidence)
    at = optional_number(given, "at")
    mean = None if at is None else found.at(at, confidence)
    one = None if at is None else found.one_more_at(at, confidence)
    return {
        "intercept": found.intercept,
        "slope": found.slope.value,
        "slope_lower": found.slope.lower,
        "slope_upper": found.slope.upper,
        "s": found.s,
        "r_squared": found.r_squared,
        "mean": mean and mean.value,
        "mean_lower": mean and mean.lower,
        "mean_upper": mean and mean.upper,
        "one_lower": one and one.lower,
        "one_upper": one and one.upper,
    }


def _moving(given: Given) -> Answers:
    values = numbers(given["y"], "y")
    places = numbers(given["x"], "x") if given.get("x") else list(range(len(values)))
    found = moving_of(
        places, values, optional_number(given, "confidence") or CONFIDENCE
    )
    slope = found.slope
    return {
        "S": Decimal(found.S),
        "variance": to_decimal(found.variance),
        "z": found.z,
        "p": found.p,
        "slope": slope and slope.value,
        "slope_lower": slope and slope.lower,
        "slope_upper": slope and slope.upper,
    }


def _with_bounds(given: Given, key: str) -> list[Number]:
    return [read_number(it, key) for it in list_of(given, key)]


STATISTICS: Mapping[str, Calculation] = {
    "summary": Calculation(
        _summary,
        "mean, s of n − 1; quartiles of type 7, Hyndman and Fan, The American Statistician 50, 1996",
        ("values",),
        dict.fromkeys(("count", "censored", "mean", "s", *FIVE), Kind.NUMBER),
    ),
    "two_groups": Calculation(
        _two_groups,
        "Welch and Satterthwaite; F for the spreads: NIST/SEMATECH e-Handbook 1.3.5.3 and 1.3.5.9",
        ("first", "second"),
        dict.fromkeys(
            (
                *("difference", "lower", "upper", "freedom", "medians"),
                *("ratio", "ratio_lower", "ratio_upper"),
            ),
            Kind.NUMBER,
        ),
        ("confidence",),
    ),
    "straight_line": Calculation(
        _straight_line,
        "ordinary least squares: NIST/SEMATECH e-Handbook 4.1.4.1",
        ("x", "y"),
        dict.fromkeys(
            (
                *("intercept", "slope", "slope_lower", "slope_upper", "s"),
                *("r_squared", "mean", "mean_lower", "mean_upper"),
                *("one_lower", "one_upper"),
            ),
            Kind.NUMBER,
        ),
        ("at", "confidence"),
    ),
    "moving": Calculation(
        _moving,
        "Mann and Kendall; Theil and Sen: Gilbert, Statistical Methods for Environmental Pollution Monitoring, 1987",
        ("y",),
        dict.fromkeys(
            ("S", "variance", "z", "p", "slope", "slope_lower", "slope_upper"),
            Kind.NUMBER,
        ),
        ("x", "confidence"),
    ),
}
