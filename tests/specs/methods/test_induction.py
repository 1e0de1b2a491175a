from dataclasses import replace
from decimal import Decimal

import pytest

from specs.methods.catalogue import procedure
from specs.numbers import read
from tests.specs.methods.bench import bar_keys
from tests.specs.methods.bench import given as given_readings

NAME = "oxidation induction time, pressure DSC"
# level until minute 30, then 2 a minute
CURVE = [(Decimal(it), Decimal(max(0, 2 * (it - 30)))) for it in range(61)]
CONDITIONS = {
    "calorimeter": "DSC-1",
    "temperature": "180",
    "admitted": read("5"),
    "baseline_from": read("8"),
    "baseline_to": read("25"),
    "curve": "accepted",
}


def carried_out(trace=CURVE, settings=None, **changes):
    conditions = {**CONDITIONS, **changes}
    conditions = {key: it for key, it in conditions.items() if it is not None}
    given = given_readings({}, conditions=conditions, **(settings or {}))
    return procedure(NAME).carry_out(replace(given, trace=trace))


def test_the_time_counts_from_the_admission_of_oxygen():
    outcome = carried_out()

    assert outcome.value.value == Decimal(25)
    assert outcome.reported.canonical == "25.0"
    assert outcome.can_count
    assert outcome.asks == ()
    assert outcome.says == (
        "onset at 30 min of the curve, oxygen admitted at 5 min; baseline 8 to 25 min, "
        "tangent through five points from 30 min"
    )


def test_the_value_is_not_rounded_but_the_reported_one_is():
    outcome = carried_out(admitted=read("5.25"))

    assert outcome.value.value == Decimal("24.75")
    assert outcome.reported.canonical == "24.8"


def test_both_lines_are_there_to_be_drawn():
    parts = carried_out().parts

    assert Decimal(parts["onset"]) == 30
    assert float(parts["baseline_slope"]) == float(parts["baseline_intercept"]) == 0
    assert float(parts["tangent_slope"]) == pytest.approx(2)
    assert float(parts["tangent_intercept"]) == pytest.approx(-60)
    assert parts["five_minutes"] == "30 31 32 33 34"
    assert parts["five_signals"] == "0 2 4 6 8"


def test_nothing_is_typed_but_a_curve_is_taken():
    assert procedure(NAME).takes_trace
    assert procedure(NAME).slots({}) == ()
    assert not procedure("cone penetration").takes_trace


def test_without_a_curve_it_is_asked_for():
    outcome = carried_out(trace=())

    assert outcome.asks == ("The curve is still to be read in.",)
    assert (outcome.complete, outcome.value) == (False, None)


@pytest.mark.parametrize("missing", list(CONDITIONS))
def test_each_missing_condition_is_asked_for(missing):
    outcome = carried_out(**{missing: None})

    assert not outcome.complete
    assert not outcome.can_count
    assert len(outcome.asks) == 1


def test_the_onset_is_there_before_a_person_has_seen_it_but_does_not_count():
    outcome = carried_out(curve=None)

    assert outcome.reported.canonical == "25.0"
    assert outcome.asks == (
        "Look at the curve with both lines, then accept or reject it.",
    )
    assert not outcome.can_count


def test_a_curve_that_a_person_rejects_cannot_count():
    outcome = carried_out(curve="rejected")

    assert bar_keys(outcome) == ["curve"]
    assert outcome.value is not None
    assert not outcome.can_count


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"baseline_to": read("35")}, "end the baseline before the rise"),
        ({"baseline_from": read("26")}, "ends where it begins or before"),
        ({"baseline_from": read("-1")}, "lies outside the curve"),
        ({"admitted": read("30")}, "30 min comes after the onset at 30 min"),
        ({"admitted": read("31")}, "comes after the onset"),
        (
            {"admitted": read("-0.1")},
            "oxygen admitted at -0.1 min lies outside the curve",
        ),
        ({"admitted": read("60.1")}, "lies outside the curve"),
        ({"admitted": read("<5")}, "a time on the curve is a plain number"),
        ({"trace": [(t, -y) for t, y in CURVE]}, "there is no rise after the baseline"),
        ({"trace": CURVE[:6]}, "the curve has 6 points"),
    ],
)
def test_what_gives_no_onset_is_stored_and_barred_in_words(changes, words):
    outcome = carried_out(**changes)

    assert bar_keys(outcome) == ["onset"]
    assert words in outcome.bars[0].sentence
    assert outcome.bars[0].sentence.endswith(".")
    assert not outcome.bars[0].sentence.endswith("..")
    assert outcome.value is None
    assert not outcome.can_count


def test_oxygen_at_the_first_point_of_the_curve_counts():
    assert carried_out(admitted=read("0")).reported.canonical == "30.0"


def test_a_curve_that_points_down_is_a_setting():
    outcome = carried_out([(t, -y) for t, y in CURVE], {"exotherm": "down"})

    assert outcome.reported.canonical == "25.0"
    assert float(outcome.parts["tangent_slope"]) == pytest.approx(-2)


@pytest.mark.parametrize(
    ("temperature", "bars"), [("180", []), ("155", ["temperature"]), ("", [])]
)
def test_a_run_at_another_temperature_than_the_characteristic_s_cannot_count(
    temperature, bars
):
    outcome = carried_out(settings={"temperature": temperature})

    assert bar_keys(outcome) == bars
    if bars:
        assert "held at 180 °C, this characteristic is at 155 °C" in (
            outcome.bars[0].sentence
        )


@pytest.mark.parametrize(
    ("admitted", "reported", "is_asked"),
    [
        ("21", "9.0", False),
        ("21.04", "9.0", False),
        ("21.06", "8.9", True),
        ("0", "30.0", False),
    ],
)
def test_below_its_range_the_method_states_no_precision(admitted, reported, is_asked):
    outcome = carried_out(admitted=read(admitted), baseline_from=read("22"))

    assert outcome.reported.canonical == reported
    assert outcome.can_count
    assert bool(outcome.asks) is is_asked
    if is_asked:
        assert (
            "8.9 min is outside 9.0 to 45.3 min: the method states no precision"
            in (outcome.asks[0])
        )


@pytest.mark.parametrize(("admitted", "is_asked"), [("4.7", False), ("4.6", True)])
def test_above_its_range_the_method_states_no_precision(admitted, is_asked):
    curve = [(t + 20, y) for t, y in CURVE]
    curve[0] = (Decimal(0), Decimal(0))

    outcome = carried_out(curve, admitted=read(admitted), baseline_to=read("45"))

    assert outcome.reported.value == 50 - read(admitted).value
    assert bool(outcome.asks) is is_asked


def test_a_baseline_that_begins_before_oxygen_is_questioned():
    outcome = carried_out(baseline_from=read("4.9"))

    assert outcome.can_count
    assert "begins at 4.9 min, before oxygen was admitted at 5 min" in outcome.asks[0]
    assert carried_out(baseline_from=read("5")).asks == ()


@pytest.mark.parametrize(("end", "is_asked"), [("600", False), ("601", True)])
def test_a_curve_that_looks_like_seconds_is_questioned(end, is_asked):
    outcome = carried_out([*CURVE, (Decimal(end), Decimal(60))])

    assert bool(outcome.asks) is is_asked
    if is_asked:
        assert "see whether its times are seconds" in outcome.asks[0]
