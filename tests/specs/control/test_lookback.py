"""Which results a bias could have carried across a limit."""

from decimal import Decimal
from fractions import Fraction

import pytest

from specs.control.lookback import Standing, margin_of, weigh
from specs.control.reference import ControlRefused

REPORTED = {
    "0430": 281,
    "0431": 272,
    "0432": 288,
    "0433": 268,
    "0434": 279,
    "0435": 291,
    "0436": 274,
    "0437": 284,
    "0438": 277,
}


def grade_two(reported, bias=Fraction(10), uncertainty="2.16"):
    return weigh(
        Decimal(reported),
        lower=Decimal(265),
        upper=Decimal(295),
        bias=bias,
        uncertainty=Decimal(uncertainty),
    )


def suspects(uncertainty, bias=Fraction(10)):
    return [
        number
        for number, reported in REPORTED.items()
        if grade_two(reported, bias, uncertainty).standing is Standing.SUSPECT
    ]


def test_the_margin_is_the_bias_and_its_uncertainty():
    assert float(margin_of(Decimal(10), Decimal("2.16"))) == pytest.approx(13.5532)
    assert margin_of(Decimal(-10), Decimal(0)) == 10


def test_four_of_nine_batches_are_suspect_and_three_by_the_bare_bias():
    assert suspects("2.16") == ["0431", "0433", "0436", "0438"]
    assert suspects("0") == ["0431", "0433", "0436"]


def test_an_instrument_that_reads_too_low_hides_what_lies_above():
    assert suspects("2.16", Fraction(-10)) == ["0432", "0435", "0437"]


def test_what_lies_just_on_the_margin_is_not_suspect():
    assert grade_two("275", Fraction(10), "0").standing is Standing.CLEAR
    assert grade_two("274.9", Fraction(10), "0").standing is Standing.SUSPECT


def test_without_a_bias_nothing_is_cleared():
    assert grade_two("281", None).standing is Standing.NOT_KNOWN


def test_without_a_limit_there_is_nothing_to_carry_across():
    found = weigh(
        Decimal(281), lower=None, upper=None, bias=Fraction(10), uncertainty=Decimal(2)
    )

    assert found.standing is Standing.NO_LIMIT


def test_a_bias_away_from_the_only_limit_leaves_a_result_clear():
    found = weigh(
        Decimal(281),
        lower=None,
        upper=Decimal(282),
        bias=Fraction(10),
        uncertainty=Decimal(2),
    )

    assert (found.standing, found.room) == (Standing.CLEAR, None)


def test_an_uncertainty_is_never_negative():
    with pytest.raises(ControlRefused, match="zero or more"):
        margin_of(Decimal(1), Decimal(-1))
