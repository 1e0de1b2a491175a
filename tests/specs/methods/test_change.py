from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.change import PENETRATION_CHANGE, derive
from specs.methods.penetration import from_cones
from specs.numbers import Number, read, to_decimal
from tests.specs.methods.bench import given as given_readings

CONES = st.lists(
    st.integers(85, 475).map(lambda half: Decimal(half) / 2), min_size=3, max_size=3
)


def values(worked, prolonged):
    return {"worked": read(worked), "prolonged": read(prolonged)}


@pytest.mark.parametrize(
    ("worked", "prolonged", "signed", "canonical"),
    [
        ("280", "302", "+22", "22"),
        ("281", "327", "+46", "46"),
        ("268", "250", "-18", "-18"),
        ("280", "280", "0", "0"),
        ("280.5", "281", "0", "0"),
        ("280.5", "280.1", "0", "0"),
        ("280", "281.5", "+2", "2"),
    ],
)
def test_the_change_is_signed_and_rounded_once(worked, prolonged, signed, canonical):
    outcome = derive(values(worked, prolonged), {})

    assert outcome.reported.canonical == canonical
    assert outcome.reported.text == outcome.parts["signed"] == signed
    assert outcome.can_count


def test_the_change_says_from_what_it_came():
    outcome = derive(values("280", "302"), {})

    assert outcome.says == "prolonged 302 less worked 280 is +22"
    assert outcome.value.canonical == "22"


@given(CONES, CONES)
def test_the_change_is_that_of_the_exact_means(worked, prolonged):
    before, after = from_cones(worked).mean, from_cones(prolonged).mean
    stored = {
        "worked": Number.of(to_decimal(before)),
        "prolonged": Number.of(to_decimal(after)),
    }

    assert derive(stored, {}).reported.value == round(after - before)


@pytest.mark.parametrize("missing", ["worked", "prolonged"])
def test_a_missing_penetration_leaves_it_incomplete(missing):
    given_values = values("280", "302")
    del given_values[missing]

    outcome = derive(given_values, {})

    assert (outcome.complete, outcome.can_count, outcome.value) == (False, False, None)
    assert outcome.asks == (f"The {missing} penetration is still to be read.",)


@pytest.mark.parametrize(("worked", "prolonged"), [(">475", "302"), ("280", "<300")])
def test_a_change_from_a_bound_cannot_count(worked, prolonged):
    outcome = derive(values(worked, prolonged), {})

    assert [bar.key for bar in outcome.bars] == ["bound"]
    assert not outcome.can_count


def test_nothing_is_read_for_a_change():
    assert PENETRATION_CHANGE.slots({}) == ()
    assert PENETRATION_CHANGE.conditions({}) == ()
    assert not PENETRATION_CHANGE.carry_out(given_readings({})).can_count
