import math
from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.zones import (
    Zone,
    ZoneRefused,
    acceptance_zone,
    guard_width,
    probability_of_conformity,
    zone_drawn_in,
)
from specs.numbers import Number, read

LIMITS = st.decimals("-300", "300", places=1)
SPREADS = st.decimals("0.01", "20", places=2)
CONFIDENCES = st.sampled_from(["0.6", "0.8", "0.9", "0.95", "0.975", "0.99", "0.999"])

# Φ(z) as a table of the standard normal prints it
TABLE = (
    ("0.00", "0.5000"),
    ("0.67", "0.7486"),
    ("1.00", "0.8413"),
    ("1.28", "0.8997"),
    ("1.64", "0.9495"),
    ("1.96", "0.9750"),
    ("2.33", "0.9901"),
    ("2.58", "0.9951"),
    ("3.00", "0.9987"),
    ("3.49", "0.9998"),
)


def slowly_inside(value, u, lower, upper, strips=4000):
    """The obvious twin: the area under the bell between the limits, by Simpson's rule."""
    low = max(float(lower), float(value) - 12 * float(u))
    high = min(float(upper), float(value) + 12 * float(u))
    if low >= high:
        return 0.0
    width = (high - low) / strips
    heights = [
        math.exp(-(((low + width * place - float(value)) / float(u)) ** 2) / 2)
        for place in range(strips + 1)
    ]
    area = heights[0] + heights[-1] + 4 * sum(heights[1::2]) + 2 * sum(heights[2:-1:2])
    return area * width / 3 / (float(u) * math.sqrt(2 * math.pi))


@given(LIMITS, SPREADS, LIMITS, LIMITS)
def test_a_probability_is_the_area_under_the_bell(value, u, one, other):
    lower, upper = sorted((one, other))

    found = probability_of_conformity(value, u, lower, upper)

    assert float(found) == pytest.approx(
        slowly_inside(value, u, lower, upper), abs=1e-9
    )


@pytest.mark.parametrize(("z", "printed"), TABLE)
def test_a_probability_agrees_with_the_printed_table(z, printed):
    above = probability_of_conformity(z, "1", lower="0")
    below = probability_of_conformity(f"-{z}", "1", upper="0")

    assert above == below
    assert round(above, 4) == Decimal(printed)


@pytest.mark.parametrize(
    ("value", "told"), [("287", "0.918"), ("289", "0.678"), ("291", "0.322")]
)
def test_what_lies_near_the_edge_is_uncertain(value, told):
    found = probability_of_conformity(read(value), "2.16", "270", "290")

    assert str(round(found, 3)) == told


def test_in_the_middle_nearly_all_lies_inside():
    found = probability_of_conformity(Fraction(280), "2.16", "270", "290")

    assert Decimal("0.9999") < found < 1
    assert found.as_tuple().exponent == -12


@given(LIMITS, SPREADS, LIMITS)
def test_inside_and_outside_make_one(value, u, limit):
    above = probability_of_conformity(value, u, lower=limit)
    below = probability_of_conformity(value, u, upper=limit)

    assert above + below == pytest.approx(Decimal(1), abs=Decimal("1e-11"))
    assert 0 <= above <= 1


def test_a_window_far_away_holds_nothing_and_never_less():
    assert probability_of_conformity("1000", "1", "0", "1") == 0
    assert probability_of_conformity("-1000", "1", "0", "1") == 0


@pytest.mark.parametrize(
    ("value", "u", "lower", "upper", "words"),
    [
        (">288", "2", "250", None, "only a bound"),
        (Number.stored("<2"), "2", None, "5", "only a bound"),
        ("two", "2", "250", None, "The value: “two” is no number"),
        (Decimal("NaN"), "2", "250", None, "not finite"),
        ("280", "0", "250", None, "lies above zero"),
        ("280", Decimal("-1"), "250", None, "of -1 is none"),
        ("280", "", "250", None, "The standard uncertainty: Nothing was typed"),
        ("280", "2", None, None, "no limit"),
        ("280", "2", "", "", "no limit"),
        ("280", "2", "295", "265", "The lower limit 295 is above the upper limit 265"),
        ("280", "2", "max", None, "A limit: “max”"),
    ],
)
def test_what_makes_no_sense_has_no_probability(value, u, lower, upper, words):
    with pytest.raises(ZoneRefused, match=words):
        probability_of_conformity(value, u, lower, upper)


def test_a_stated_uncertainty_draws_both_limits_in():
    zone = acceptance_zone("265", "295", u="2.16")

    assert zone.told() == "268.55 to 291.45"
    assert zone.upper == 295 - Decimal("1.644853627") * Decimal("2.16")
    assert not zone.is_empty


def test_the_reproducibility_draws_them_in_by_0_59_of_it():
    assert acceptance_zone("265", "295", R="20").told(1) == "276.9 to 283.1"
    printed = acceptance_zone("265", "295", R="20", constants="printed")
    assert (printed.lower, printed.upper) == (Decimal("276.8"), Decimal("283.2"))


def test_the_ends_cross_when_nothing_is_left():
    crossed = acceptance_zone("270", "290", R="20")

    assert crossed.is_empty
    assert not Zone(Decimal(280), Decimal(280)).is_empty
    assert Zone(Decimal("280.1"), Decimal(280)).is_empty


@pytest.mark.parametrize(
    ("lower", "upper", "told"),
    [
        ("180", None, "183.55 and above"),
        (None, "180", "176.45 and below"),
        ("", "180", "176.45 and below"),
    ],
)
def test_a_lone_limit_gives_a_zone_open_at_the_other_end(lower, upper, told):
    zone = acceptance_zone(lower, upper, u="2.16")

    assert zone.told() == told
    assert not zone.is_empty


@given(LIMITS, LIMITS, SPREADS, CONFIDENCES)
def test_an_end_lies_inside_its_limit_with_the_confidence(one, other, u, confidence):
    lower, upper = sorted((one, other))
    zone = acceptance_zone(lower, upper, u=u, confidence=confidence)

    at_low = probability_of_conformity(zone.lower, u, lower=lower)
    at_high = probability_of_conformity(zone.upper, u, upper=upper)

    assert at_low == pytest.approx(Decimal(confidence), abs=Decimal("1e-8"))
    assert at_high == pytest.approx(Decimal(confidence), abs=Decimal("1e-8"))


@given(SPREADS, SPREADS, CONFIDENCES, CONFIDENCES)
def test_a_larger_uncertainty_or_confidence_never_widens(u, more, sure, surer):
    low, high = sorted((sure, surer))

    wide = guard_width(u=u, confidence=low)

    assert wide <= guard_width(u=u + more, confidence=low)
    assert wide <= guard_width(u=u, confidence=high)
    assert guard_width(R=u, confidence=low) <= guard_width(R=u + more, confidence=high)


@given(SPREADS, CONFIDENCES)
def test_r_stands_for_2_77_times_the_uncertainty(u, confidence):
    by_r = guard_width(R=Decimal("2.771807649") * u, confidence=confidence)

    assert float(by_r) == pytest.approx(float(guard_width(u=u, confidence=confidence)))


def test_the_ends_do_not_hang_on_the_context():
    usual = acceptance_zone("265", "295", R="19.7")
    with localcontext() as context:
        context.prec = 3
        assert acceptance_zone("265", "295", R="19.7") == usual


def test_a_width_below_nought_lays_the_ends_outside():
    zone = zone_drawn_in("180", "200", Fraction(-5))

    assert (zone.lower, zone.upper) == (175, 205)


@pytest.mark.parametrize(
    ("given_", "words"),
    [
        ({}, "either"),
        ({"u": "2", "R": "20"}, "either"),
        ({"u": "0"}, "A standard uncertainty of 0 is none"),
        ({"R": "-1"}, "A reproducibility of -1 is none"),
        ({"u": "<2"}, "only a bound"),
        ({"u": "2", "confidence": "0.5"}, "0.5 is no confidence"),
        ({"u": "2", "confidence": "1"}, "1 is no confidence"),
        ({"u": "2", "confidence": "95"}, "such as 0.95"),
        ({"u": "2", "confidence": "sure"}, "The confidence: “sure”"),
    ],
)
def test_what_gives_no_width_is_refused(given_, words):
    with pytest.raises(ZoneRefused, match=words):
        guard_width(**given_)


def test_unknown_constants_are_refused():
    with pytest.raises(ValueError, match="names no constants"):
        guard_width(R="20", constants="rough")
