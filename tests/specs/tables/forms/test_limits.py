"""Limits in one cell: both ends, one end, a mark, words; what could be meant in two ways is refused."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.tables.forms.limits import LimitsRefused, LimitTexts, read_limits


@pytest.mark.parametrize(
    ("text", "lower", "upper"),
    [
        ("265-295", "265", "295"),
        ("265 – 295", "265", "295"),
        ("265 to 295", "265", "295"),
        ("265 bis 295", "265", "295"),
        ("265...295", "265", "295"),
        ("0,5-1,50", "0.5", "1.50"),
        ("-5 to +5", "-5", "5"),
        ("280 ± 15", "265", "295"),
        ("280 +/- 15", "265", "295"),
        ("min 190", "190", ""),
        ("min. 190", "190", ""),
        ("≥ 190", "190", ""),
        (">=190", "190", ""),
        ("at least 190", "190", ""),
        ("mindestens 190", "190", ""),
        ("max 70", "", "70"),
        ("≤ 70", "", "70"),
        ("70 max", "", "70"),
        ("Max. 1b", "", "1b"),
        ("höchstens 0,50", "", "0.50"),
    ],
)
def test_ends_are_read_however_they_are_written(text, lower, upper):
    assert read_limits(text) == LimitTexts(lower, upper)


def test_decimals_that_carry_meaning_stay():
    assert read_limits("max 0.50").upper == "0.50"


def test_anything_else_must_be_met_as_words():
    assert (
        read_limits("smooth, brown,  free of lumps").must
        == "smooth, brown, free of lumps"
    )


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("280", "write “at least 280”, “at most 280”"),
        ("<70", "whether 70 itself is allowed: write “at most 70”"),
        ("> 190", "write “at least 190”"),
        ("295-265", "begins above its end"),
        ("190 min", "a least value or minutes: write “at least 190”"),
    ],
)
def test_what_could_be_meant_in_two_ways_is_refused(text, sentence):
    with pytest.raises(LimitsRefused, match=sentence):
        read_limits(text)


@given(
    st.decimals("-9999", "9999", places=2, allow_nan=False),
    st.decimals("-9999", "9999", places=2, allow_nan=False),
)
def test_what_is_said_back_reads_the_same(first, second):
    low, high = sorted((first, second))
    limits = read_limits(f"{low} to {high}")

    assert (Decimal(limits.lower), Decimal(limits.upper)) == (low, high)
    assert read_limits(limits.in_words) == limits


@pytest.mark.parametrize(
    "text",
    ["mineral smell, none", "maximum smoothness", "minimal film of oil", "max 3 lumps"],
)
def test_words_that_begin_like_an_end_stay_words(text):
    assert read_limits(text).must == text


@given(st.text(max_size=60).filter(str.strip))
def test_any_other_text_is_refused_or_said_back_as_it_is_read(text):
    try:
        limits = read_limits(text)
    except LimitsRefused:
        return
    assert read_limits(limits.in_words) == limits


def test_one_end_is_said_back_with_its_side():
    assert read_limits("min 190").in_words == "at least 190"
    assert read_limits("max 70").in_words == "at most 70"
