import datetime as dt
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.strokes import (
    FASTEST,
    StrokesRefused,
    fastest_end,
    nominal_end,
    strokes_seconds,
)
from tests.specs.methods.bench import at


def test_a_hundred_thousand_strokes_at_sixty_a_minute_end_friday_before_one():
    assert nominal_end(at("2026-03-05 09:00"), 100_000) == at("2026-03-06 12:46:40")


def test_a_hundred_thousand_strokes_cannot_end_before_friday_eight_forty_eight():
    end = fastest_end(at("2026-03-05 09:00"), 100_000)

    assert at("2026-03-06 08:48:34") < end < at("2026-03-06 08:48:35")


def test_sixty_strokes_take_a_minute():
    assert strokes_seconds(60, 60) == 60
    assert strokes_seconds(100_000, FASTEST) == Fraction(600_000, 7)


@given(st.integers(1, 200_000), st.integers(50, 70))
def test_no_end_is_earlier_than_the_fastest(strokes, per_minute):
    start = at("2026-03-05 09:00")

    end = nominal_end(start, strokes, per_minute)

    assert end >= fastest_end(start, strokes)
    seconds = strokes_seconds(strokes, per_minute)
    late = Fraction((end - start) // dt.timedelta(microseconds=1), 10**6) - seconds
    assert 0 <= late < Fraction(1, 10**6)


@pytest.mark.parametrize(("strokes", "rate"), [(0, 60), (60, 0), (-1, 60), (60, -60)])
def test_strokes_and_rate_lie_above_nought(strokes, rate):
    with pytest.raises(StrokesRefused, match="above zero"):
        strokes_seconds(Decimal(strokes), Decimal(rate))
