"""Results in their order, bounds among them: what of a rank is determined, and what is only bounded."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from specs.numbers import Number, to_decimal

# A value and whether it is itself excluded; none: no end.
Edge = tuple[Decimal, bool] | None


@dataclass(frozen=True)
class Ordered:
    """The lowest and the highest that each result can be, each in its own order.

    The k-th smallest result lies between the k-th of the one and the k-th of the other.
    """

    lows: tuple[Edge, ...]
    highs: tuple[Edge, ...]

    def quantile(self, share: Fraction) -> str:
        """What is known at 1 + (n − 1) share: a number, a bound, or nothing."""
        place = (len(self.lows) - 1) * share
        return self._known(int(place), place - int(place))

    def step(self, share: Fraction) -> str:
        """The same without a value between two neighbours: the lower of them stands."""
        return self._known(int((len(self.lows) - 1) * share), Fraction(0))

    def _known(self, at: int, rest: Fraction) -> str:
        low = _between(self.lows, at, rest)
        high = _between(self.highs, at, rest)
        if low is not None and high is not None:
            return _text(low[0]) if low == high else ""
        if low is not None:
            return f"{'>' if low[1] else '≥'}{_text(low[0])}"
        return f"{'<' if high[1] else '≤'}{_text(high[0])}" if high is not None else ""


def ordered(values: Sequence[Number]) -> Ordered:
    """The results in order. A result known as >x may be anything above x, without end."""
    lows = [_low(it) for it in values]
    highs = [_high(it) for it in values]
    endless = lows.count(None), highs.count(None)
    low = sorted(it for it in lows if it is not None)
    # of equal ends below which a result lies, the excluded one is the smaller
    high = sorted(
        (it for it in highs if it is not None), key=lambda it: (it[0], not it[1])
    )
    return Ordered(
        (*[None] * endless[0], *low),
        (*high, *[None] * endless[1]),
    )


def _low(number: Number) -> Edge:
    return None if number.sign == "<" else (number.value, number.sign == ">")


def _high(number: Number) -> Edge:
    return None if number.sign == ">" else (number.value, number.sign == "<")


def _between(
    edges: Sequence[Edge], at: int, rest: Fraction
) -> tuple[Fraction, bool] | None:
    """The share between two neighbours; no end where one of them has none."""
    first = edges[at]
    if first is None:
        return None
    if not rest:
        return Fraction(first[0]), first[1]
    second = edges[at + 1]
    if second is None:
        return None
    value = Fraction(first[0]) + rest * (Fraction(second[0]) - Fraction(first[0]))
    return value, first[1] or second[1]


def _text(value: Fraction) -> str:
    return Number.of(to_decimal(value)).canonical
