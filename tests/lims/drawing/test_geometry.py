"""Where values, limits and ticks stand on a ruler 300 units long."""

from decimal import Decimal

import pytest

from lims.drawing.geometry import beyond, coordinate, number, scale, tick_step, ticks


@pytest.mark.parametrize(
    ("value", "x"),
    [("265", 62), ("295", 242), ("280", 152), ("281", 158), ("300", 272)],
)
def test_two_limits_stand_at_a_fifth_and_at_four_fifths(value: str, x: float) -> None:
    assert scale("265", "295").x(value) == x


@pytest.mark.parametrize(("value", "x"), [("0", 2), ("5.0", 242), ("2.5", 122)])
def test_an_upper_limit_of_an_amount_has_nought_at_the_left_end(
    value: str, x: float
) -> None:
    assert scale(None, "5.0").x(value) == x


@pytest.mark.parametrize(("value", "x"), [("0", 62), ("30", 242), ("-10", 2)])
def test_an_upper_limit_of_a_change_has_nought_at_a_fifth(value: str, x: float) -> None:
    assert scale(None, "30", signed=True).x(value) == x


@pytest.mark.parametrize(("value", "x"), [("190", 62), ("215", 242), ("202", 148.4)])
def test_a_lower_limit_stands_at_a_fifth_and_the_span_says_the_rest(
    value: str, x: float
) -> None:
    assert scale("190", None, span="25").x(value) == pytest.approx(x)


def test_a_lower_limit_without_a_span_takes_a_round_one() -> None:
    assert scale("190", None).x("240") == 242
    assert scale("0", None).x("1") == 242


@pytest.mark.parametrize(("lower", "upper"), [("5", "5"), (None, "0"), (None, "-3")])
def test_limits_that_span_nothing_still_have_a_ruler(
    lower: str | None, upper: str
) -> None:
    assert scale(lower, upper).x(upper) == 242


def test_a_ruler_without_any_limit_is_refused() -> None:
    with pytest.raises(ValueError, match="needs a limit"):
        scale(None, None)


@pytest.mark.parametrize(
    ("units", "step"),
    [
        ("50", "1"),
        ("66.667", "1"),
        ("70", "2"),
        ("6.25", "0.1"),
        ("300", "5"),
        ("87.5", "2"),
    ],
)
def test_ticks_stand_at_least_four_and_four_tenths_apart(units: str, step: str) -> None:
    assert tick_step(Decimal(units)) == Decimal(step)


def test_every_fifth_tick_is_long_and_none_leaves_the_ruler() -> None:
    short, long = ticks(scale("265", "295"))

    assert long == [2, 32, 62, 92, 122, 152, 182, 212, 242, 272, 302]
    assert len(short) == 40
    assert min(short) >= 2
    assert max(short) <= 302


@pytest.mark.parametrize(
    ("value", "figure", "sign"),
    [
        (">288", "288", ">"),
        ("<0.5", "0.5", "<"),
        ("≥316", "316", ">"),
        ("27,9", "27.9", ""),
        ("−3", "-3", ""),
        (Decimal("279.67"), "279.67", ""),
        (32.4, "32.4", ""),
    ],
)
def test_a_bound_is_read_as_its_figure_and_its_side(
    value: str | Decimal | float, figure: str, sign: str
) -> None:
    assert number(value) == Decimal(figure)
    assert beyond(value) == sign


@pytest.mark.parametrize(
    ("place", "text"), [(62.0, "62"), (148.44, "148.4"), (-0.04, "0"), (-3.0, "-3")]
)
def test_a_place_is_written_with_one_decimal_at_most(place: float, text: str) -> None:
    assert coordinate(place) == text
