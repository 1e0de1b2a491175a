from decimal import Decimal

import pytest

from specs.judging.conformity import ABSOLUTE, ROUNDING, judge
from specs.judging.rules import (
    GUARDED_ACCEPTANCE,
    OWN,
    RECIPIENT,
    REPRODUCIBILITY,
    RULES,
    SIMPLE_ACCEPTANCE,
    SUPPLIER,
    in_words,
    judge_by,
    needs_uncertainty,
    zone_of,
)
from specs.judging.verdicts import Verdict
from specs.numbers import read
from tests.specs.judging.ruling import GUARD, STATED, verdict_by

MET, NOT_MET, NOT_EVALUATED = Verdict.MET, Verdict.NOT_MET, Verdict.NOT_EVALUATED


@pytest.mark.parametrize(
    ("value", "procedure", "verdict"),
    [
        (">268", ABSOLUTE, NOT_EVALUATED),
        (">268.55288383432", ABSOLUTE, MET),
        ("<268.55288383432", ABSOLUTE, NOT_MET),
        ("<268.55288383433", ABSOLUTE, NOT_EVALUATED),
        (">269", ROUNDING, MET),
        (">268.6", ROUNDING, MET),
        (">268.5", ROUNDING, NOT_EVALUATED),
        ("<268", ROUNDING, NOT_MET),
        ("<268.4", ROUNDING, NOT_MET),
        ("<268.6", ROUNDING, NOT_EVALUATED),
    ],
)
def test_a_bound_is_held_against_the_edge_of_a_minimum(value, procedure, verdict):
    assert (
        verdict_by(GUARDED_ACCEPTANCE, read(value), "265", None, procedure) is verdict
    )


@pytest.mark.parametrize(
    ("value", "uncertainty", "procedure", "verdict"),
    [
        (">288", "2.16", ROUNDING, NOT_EVALUATED),
        (">291.46", "2.16", ABSOLUTE, NOT_MET),
        (">291.46", "2.16", ROUNDING, NOT_EVALUATED),
        (">292", "2.16", ROUNDING, NOT_MET),
        ("<291.4", "2.16", ABSOLUTE, MET),
        ("<291.4", "2.16", ROUNDING, MET),
        ("<292", "2.16", ROUNDING, NOT_EVALUATED),
        ("<291.6", "2", ABSOLUTE, MET),
        ("<291.6", "2", ROUNDING, NOT_EVALUATED),
    ],
)
def test_a_bound_is_held_against_the_edge_of_a_maximum(
    value, uncertainty, procedure, verdict
):
    stated = {"uncertainty": uncertainty}

    found = verdict_by(
        GUARDED_ACCEPTANCE, read(value), None, "295", procedure, **stated
    )

    assert found is verdict


@pytest.mark.parametrize(
    ("worked", "verdict"),
    [("280", MET), ("288", MET), ("292", NOT_MET), ("271", MET), ("281", MET)],
)
def test_a_customer_with_a_guard_band_takes_all_but_the_softest(worked, verdict):
    found = judge_by(GUARDED_ACCEPTANCE, read(worked), "265", "295", ROUNDING, **GUARD)

    assert found.verdict is verdict
    assert found.compared == worked
    if verdict is NOT_MET:
        assert found.why == (
            "inside the limits, outside the acceptance zone 268.55 to 291.45"
        )
        assert found.limit == "295"


@pytest.mark.parametrize(
    ("value", "procedure", "verdict", "compared"),
    [
        ("268.5", ROUNDING, NOT_MET, "268"),
        ("268.51", ROUNDING, MET, "269"),
        ("268.51", ABSOLUTE, NOT_MET, "268.51"),
        ("268.56", ABSOLUTE, MET, "268.56"),
        ("291.49", ROUNDING, MET, "291"),
        ("291.5", ROUNDING, NOT_MET, "292"),
        ("291.49", ABSOLUTE, NOT_MET, "291.49"),
    ],
)
def test_a_value_is_rounded_as_its_limit_and_then_held_against_the_edge(
    value, procedure, verdict, compared
):
    found = judge_by(GUARDED_ACCEPTANCE, read(value), "265", "295", procedure, **GUARD)

    assert (found.verdict, found.compared) == (verdict, compared)


def test_tie_and_step_reach_the_comparison():
    odd = judge_by(
        GUARDED_ACCEPTANCE, read("268.5"), "265", None, ROUNDING, tie="up", **GUARD
    )
    wide = judge_by(
        GUARDED_ACCEPTANCE, read("266"), "265", None, ROUNDING, step="10", **GUARD
    )

    assert (odd.verdict, odd.compared) == (MET, "269")
    assert (wide.verdict, wide.compared) == (MET, "270")


@pytest.mark.parametrize(
    ("name", "told", "verdicts"),
    [
        (SUPPLIER, "187.71 and above", (NOT_MET, NOT_MET, NOT_MET, MET)),
        (SIMPLE_ACCEPTANCE, "180 and above", (NOT_MET, NOT_MET, MET, MET)),
        (RECIPIENT, "172.29 and above", (NOT_MET, MET, MET, MET)),
    ],
)
def test_supplier_and_recipient_move_a_limit_in_opposite_ways(name, told, verdicts):
    zone = zone_of(name, "180", None, **STATED[name])

    found = [
        verdict_by(name, read(it), "180", None) for it in ("172", "173", "187", "188")
    ]

    assert zone.told() == told
    assert tuple(found) == verdicts


@pytest.mark.parametrize(
    ("name", "told"),
    [(SUPPLIER, "172.29 and below"), (RECIPIENT, "187.71 and below")],
)
def test_a_maximum_is_the_mirror_of_a_minimum(name, told):
    assert zone_of(name, None, "180", uncertainty="13").told() == told


def test_the_printed_constants_give_0_59():
    zone = zone_of(SUPPLIER, "180", None, uncertainty="13", constants="printed")
    found = judge_by(
        SUPPLIER,
        read("187.68"),
        "180",
        None,
        ABSOLUTE,
        uncertainty="13",
        constants="printed",
    )

    assert zone.lower == Decimal("187.67")
    assert found.verdict is MET
    assert verdict_by(SUPPLIER, read("187.68"), "180", None, ABSOLUTE) is NOT_MET


def test_two_limits_need_both():
    stated = {"uncertainty": "10"}

    found = [
        verdict_by(SUPPLIER, read(it), "180", "200", **stated)
        for it in ("185", "186", "194", "195")
    ]

    assert found == [NOT_MET, MET, MET, NOT_MET]


@pytest.mark.parametrize(
    ("name", "value", "lower", "upper", "why"),
    [
        (RECIPIENT, "175", "180", None, "outside the limits, inside the acceptance zone 172.29 and above"),
        (RECIPIENT, ">179", "180", None, "perhaps outside the limits, inside the acceptance zone 172.29 and above"),
        (SUPPLIER, ">181", "180", None, "inside the limits, perhaps outside the acceptance zone 187.71 and above"),
        (SUPPLIER, "<185", "180", None, "perhaps outside the limits, outside the acceptance zone 187.71 and above"),
        (SUPPLIER, "190", "180", None, ""),
        (SUPPLIER, "170", "180", None, ""),
        (SUPPLIER, ">170", "180", None, ""),
        (SUPPLIER, "187.0", "180.0", None, "inside the limits, outside the acceptance zone 187.714 and above"),
    ],
)  # fmt: skip
def test_the_reason_names_the_zone_where_the_rule_decides(
    name, value, lower, upper, why
):
    found = judge_by(name, read(value), lower, upper, ROUNDING, **STATED[name])

    assert found.why == why


def test_simple_acceptance_compares_with_the_limits_themselves():
    found = judge_by(SIMPLE_ACCEPTANCE, read("280"), "265", "295", ROUNDING)

    assert found == judge(read("280"), "265", "295", ROUNDING)
    assert found.verdict is MET
    zone = zone_of(SIMPLE_ACCEPTANCE, "265", "295")
    assert (zone.lower, zone.upper) == (265, 295)


def test_simple_acceptance_asks_for_nothing_and_minds_nothing():
    assert not needs_uncertainty(SIMPLE_ACCEPTANCE)
    assert (
        verdict_by(SIMPLE_ACCEPTANCE, read("294"), "265", "295", uncertainty="20")
        is MET
    )


def test_four_rules_are_kept():
    assert [*RULES] == [SIMPLE_ACCEPTANCE, GUARDED_ACCEPTANCE, RECIPIENT, SUPPLIER]
    assert all(kept.name == name for name, kept in RULES.items())


def test_the_bounds_of_iso_4259_mean_95_per_cent_where_nothing_else_is_stated():
    assert zone_of(SUPPLIER, "180", None, uncertainty="13") == zone_of(
        SUPPLIER,
        "180",
        None,
        uncertainty="13",
        basis=REPRODUCIBILITY,
        confidence="0.95",
    )
    surer = zone_of(SUPPLIER, "180", None, uncertainty="13", confidence="0.99")
    assert surer.told() == "190.91 and above"


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        (SIMPLE_ACCEPTANCE, "Simple acceptance, without a guard band: the limits themselves decide."),
        (GUARDED_ACCEPTANCE, "Guarded acceptance accepts 268.55 to 291.45: 3.55 inside each limit (u = 2.16), so that an accepted value has its true value inside it with 95 % confidence or more."),
        (SUPPLIER, "Bound of ISO 4259, supplier, accepts 272.71 to 287.29: 7.71 inside each limit (R = 13), so that an accepted value has its true value inside it with 95 % confidence or more."),
        (RECIPIENT, "Bound of ISO 4259, recipient, accepts 257.29 to 302.71: 7.71 outside each limit (R = 13), so that a refused value has its true value outside it with 95 % confidence or more."),
    ],
)  # fmt: skip
def test_a_rule_is_told_in_one_sentence_with_its_figures(name, sentence):
    assert in_words(name, "265", "295", **STATED[name]) == sentence


def test_a_guard_by_the_method_names_its_r_and_its_confidence():
    told = in_words(
        GUARDED_ACCEPTANCE,
        "0.50",
        None,
        uncertainty="0.08",
        basis=REPRODUCIBILITY,
        confidence="0.975",
    )

    assert "accepts 0.5566 and above: 0.0566 inside the limit (R = 0.08)" in told
    assert "(R = 0.08)" in told
    assert "97.5 % confidence" in told


def test_an_edge_keeps_the_decimals_of_its_limit():
    guard = {"basis": OWN, "uncertainty": "0.60797", "confidence": "0.95"}

    assert "accepts 4.00 and below: 1 inside" in in_words(
        GUARDED_ACCEPTANCE, None, "5.00", **guard
    )
    assert "accepts 4 and below: 1 inside" in in_words(
        GUARDED_ACCEPTANCE, None, "5", **guard
    )


def test_the_reason_keeps_the_decimals_of_the_limit():
    found = judge_by(
        GUARDED_ACCEPTANCE,
        read("4.5"),
        None,
        "5.0",
        ROUNDING,
        basis=OWN,
        uncertainty="0.60797",
        confidence="0.95",
    )

    assert found.why == "inside the limits, outside the acceptance zone 4.0 and below"
