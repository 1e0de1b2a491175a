from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.conformity import ABSOLUTE, PROCEDURES, judge
from specs.judging.precision import single_result_bound
from specs.judging.rules import (
    GUARDED_ACCEPTANCE,
    OWN,
    RECIPIENT,
    REPRODUCIBILITY,
    RULES,
    SIMPLE_ACCEPTANCE,
    SUPPLIER,
    RuleRefused,
    judge_by,
    zone_of,
)
from specs.judging.verdicts import Verdict
from specs.numbers import Number, read
from tests.specs.judging.ruling import STATED, verdict_by

MET, NOT_MET, NOT_EVALUATED = Verdict.MET, Verdict.NOT_MET, Verdict.NOT_EVALUATED
NARROWEST_FIRST = (SUPPLIER, SIMPLE_ACCEPTANCE, RECIPIENT)

VALUES = st.decimals("150", "400", places=2)
LOWER = st.decimals("180", "220", places=1)
UPPER = st.decimals("260", "320", places=1)
SPREADS = st.decimals("0.01", "20", places=2).map(str)
CONFIDENCES = st.sampled_from(["0.6", "0.8", "0.9", "0.95", "0.99"])
SIGNS = st.sampled_from(["", "<", ">"])


def slowly_accepted(value, lower, upper, width, procedure):
    """The obvious twin for plain numbers: round by hand, then look between the moved limits."""

    def compared(limit):
        if procedure == ABSOLUTE:
            return Fraction(value)
        places = len(limit.partition(".")[2])
        return Fraction(round(value, places))

    fits = True
    if lower is not None:
        fits = compared(lower) >= Fraction(lower) + width
    if upper is not None:
        fits = fits and compared(upper) <= Fraction(upper) - width
    return MET if fits else NOT_MET


@given(
    value=VALUES,
    lower=st.none() | LOWER.map(str),
    upper=st.none() | UPPER.map(str),
    procedure=st.sampled_from(PROCEDURES),
    spread=SPREADS,
    rule=st.sampled_from([(GUARDED_ACCEPTANCE, 1), (SUPPLIER, 1), (RECIPIENT, -1)]),
)
def test_plain_numbers_agree_with_the_obvious_twin(
    *, value, lower, upper, procedure, spread, rule
):
    name, sign = rule
    width = sign * Fraction("1.644853627") * Fraction(spread)
    if name != GUARDED_ACCEPTANCE:
        # to ten digits, as it stands in the constants
        width = sign * Fraction("0.5934227022") * Fraction(spread)
    stated = {"uncertainty": spread, "confidence": "0.95"}
    basis = OWN if name == GUARDED_ACCEPTANCE else REPRODUCIBILITY

    found = judge_by(
        name, Number.of(value), lower, upper, procedure, basis=basis, **stated
    )

    if lower is None and upper is None:
        assert found.verdict is NOT_EVALUATED
    else:
        assert found.verdict is slowly_accepted(value, lower, upper, width, procedure)


@given(
    value=VALUES,
    sign=SIGNS,
    lower=LOWER.map(str),
    upper=UPPER.map(str),
    procedure=st.sampled_from(PROCEDURES),
    spread=st.sampled_from(["0.5", "2.16", "13"]),
)
def test_the_zones_of_supplier_limits_and_recipient_nest(
    *, value, sign, lower, upper, procedure, spread
):
    number = Number.of(value, sign)

    verdicts = [
        verdict_by(name, number, lower, upper, procedure, uncertainty=spread)
        for name in NARROWEST_FIRST
    ]

    for narrower, wider in ((0, 1), (1, 2), (0, 2)):
        if verdicts[narrower] is MET:
            assert verdicts[wider] is MET
        if verdicts[wider] is NOT_MET and not sign:
            assert verdicts[narrower] is NOT_MET


@given(
    value=VALUES,
    sign=SIGNS,
    lower=LOWER.map(str),
    upper=UPPER.map(str),
    procedure=st.sampled_from(PROCEDURES),
    spreads=st.tuples(SPREADS, SPREADS),
    confidences=st.tuples(CONFIDENCES, CONFIDENCES),
)
def test_more_uncertainty_or_confidence_never_accepts_more(
    *, value, sign, lower, upper, procedure, spreads, confidences
):
    small, large = sorted(spreads, key=Decimal)
    low, high = sorted(confidences)
    number = Number.of(value, sign)

    def guarded(spread, confidence):
        return judge_by(
            GUARDED_ACCEPTANCE,
            number,
            lower,
            upper,
            procedure,
            uncertainty=spread,
            basis=OWN,
            confidence=confidence,
        ).verdict

    try:
        strict = guarded(large, high)
    except RuleRefused:
        return
    if strict is MET:
        assert guarded(small, low) is MET
        assert judge(number, lower, upper, procedure).verdict is MET


@given(
    VALUES,
    LOWER.map(str),
    UPPER.map(str),
    st.sampled_from(PROCEDURES),
    st.sampled_from([*RULES]),
)
def test_comma_and_point_give_the_same_verdict(value, lower, upper, procedure, name):
    stated = {key: text.replace(".", ",") for key, text in STATED[name].items()}

    with_point = judge_by(
        name, read(f"{value:f}"), lower, upper, procedure, **STATED[name]
    )
    with_comma = judge_by(
        name,
        read(f"{value:f}".replace(".", ",")),
        lower.replace(".", ","),
        upper.replace(".", ","),
        procedure,
        **stated,
    )

    assert with_comma == with_point


@given(
    value=VALUES,
    sign=st.sampled_from("<>"),
    beyond=st.decimals("0.01", "30", places=2),
    lower=st.none() | LOWER.map(str),
    upper=st.none() | UPPER.map(str),
    procedure=st.sampled_from(PROCEDURES),
    name=st.sampled_from([GUARDED_ACCEPTANCE, RECIPIENT, SUPPLIER]),
)
def test_a_decided_bound_is_right_for_every_number_beyond_it(
    *, value, sign, beyond, lower, upper, procedure, name
):
    true_value = Number.of(value + (beyond if sign == ">" else -beyond))

    found = verdict_by(name, Number.of(value, sign), lower, upper, procedure)

    if found is not NOT_EVALUATED:
        assert verdict_by(name, true_value, lower, upper, procedure) is found


@pytest.mark.parametrize("party", ["supplier", "recipient"])
@pytest.mark.parametrize("constants", ["exact", "printed"])
@given(spread=st.decimals("0.01", "20", places=2), confidence=CONFIDENCES)
def test_the_edges_are_the_bounds_of_a_single_result(
    party, constants, spread, confidence
):
    zone = zone_of(
        f"bound of ISO 4259, {party}",
        "100",
        "200",
        uncertainty=str(spread),
        confidence=confidence,
        constants=constants,
    )

    for side, limit, edge in (("lower", 100, zone.lower), ("upper", 200, zone.upper)):
        bound = single_result_bound(
            Decimal(limit),
            side,
            spread,
            party,
            confidence=Decimal(confidence),
            constants=constants,
        )
        assert edge == bound
