"""Quantiles of the distributions behind precision and outliers, to ten digits.

They are computed in binary floats and cut here, once, to DIGITS significant digits, so
that no verdict hangs on a float's last ones.
"""

import math
from collections.abc import Callable
from decimal import Context, Decimal
from functools import cache
from statistics import NormalDist

from specs.numbers import Refused

DIGITS = 10
TEN_DIGITS = Context(prec=DIGITS)

_NORMAL = NormalDist()
_STEP, _REACH = 0.05, 9.0  # of the integral over the smallest of several normal values
_HALVINGS = 60


class QuantileRefused(Refused):
    """A probability, or a count of freedoms, for which there is no quantile."""


@cache
def normal(probability: Decimal) -> Decimal:
    """The z below which a standard normal value falls with this probability."""
    return _cut(_NORMAL.inv_cdf(_float(probability)))


@cache
def student_t(probability: Decimal, freedom: int) -> Decimal:
    """The t below which Student's t of so many degrees of freedom falls."""
    # Imported late: it takes a third of a second and few runs need it.
    from scipy.special import stdtrit

    _check_freedom(freedom)
    return _cut(float(stdtrit(freedom, _float(probability))))


@cache
def fisher_f(probability: Decimal, above: int, below: int) -> Decimal:
    """The F below which a ratio of variances falls, `above` and `below` its freedoms."""
    # Imported late: it takes a third of a second and few runs need it.
    from scipy.special import fdtri

    _check_freedom(above)
    _check_freedom(below)
    return _cut(float(fdtri(above, below, _float(probability))))


@cache
def normal_range(probability: Decimal, count: int) -> Decimal:
    """The w below which the range of `count` standard normal values falls.

    That is the studentised range with infinitely many degrees of freedom: the root of
    n ∫ φ(z) [Φ(z+w) − Φ(z)]ⁿ⁻¹ dz = p.
    """
    if count < 2:
        raise QuantileRefused(f"{count} value has no range: two or more have one.")
    return _cut(_root(_range_within(count), _float(probability), 2 * _REACH))


def _range_within(count: int) -> Callable[[float], float]:
    """The probability, as a function of w, that the range is not above w.

    The sum over a fine grid is exact to the last digits of a float, since φ and its
    company vanish at both ends.
    """
    half = round(_REACH / _STEP)
    grid = [_STEP * place for place in range(-half, half + 1)]
    weights = [count * _STEP * _NORMAL.pdf(z) for z in grid]
    below = [_NORMAL.cdf(z) for z in grid]

    def within(width: float) -> float:
        return math.fsum(
            weight * (_NORMAL.cdf(z + width) - under) ** (count - 1)
            for z, weight, under in zip(grid, weights, below, strict=True)
        )

    return within


def _root(rising: Callable[[float], float], wanted: float, high: float) -> float:
    """Where a rising function of 0 to `high` reaches the wanted value, by halving."""
    low = 0.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if rising(middle) < wanted:
            low = middle
        else:
            high = middle
    return high


def _float(probability: Decimal) -> float:
    share = float(probability) if probability.is_finite() else 0.0
    if not 0 < share < 1:
        raise QuantileRefused(
            f"A probability of {probability} has no quantile: it lies between 0 and 1."
        )
    return share


def _check_freedom(freedom: int) -> None:
    if freedom < 1:
        raise QuantileRefused(
            f"{freedom} degrees of freedom leave nothing to judge by: one is needed."
        )


def _cut(value: float) -> Decimal:
    if not math.isfinite(value):
        raise QuantileRefused("The quantile lies beyond what can be computed.")
    return TEN_DIGITS.create_decimal_from_float(value)
