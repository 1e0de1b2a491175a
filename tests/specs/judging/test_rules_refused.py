from decimal import Decimal

import pytest

from specs.judging.conformity import ROUNDING
from specs.judging.rules import (
    GUARDED_ACCEPTANCE,
    OWN,
    RECIPIENT,
    REPRODUCIBILITY,
    RULES,
    SUPPLIER,
    RuleRefused,
    in_words,
    judge_by,
    needs_uncertainty,
    zone_of,
)
from specs.judging.verdicts import Verdict
from specs.numbers import read
from tests.specs.judging.ruling import STATED

MET, NOT_MET, NOT_EVALUATED = Verdict.MET, Verdict.NOT_MET, Verdict.NOT_EVALUATED


@pytest.mark.parametrize("name", [GUARDED_ACCEPTANCE, RECIPIENT, SUPPLIER])
def test_every_other_rule_rests_on_an_uncertainty(name):
    assert needs_uncertainty(name)
    with pytest.raises(RuleRefused, match="rests on a stated uncertainty"):
        zone_of(name, "265", "295", basis=REPRODUCIBILITY, confidence="0.95")


@pytest.mark.parametrize(
    ("ask", "args"),
    [
        (judge_by, (read("280"), "265", "295", ROUNDING)),
        (zone_of, ("265", "295")),
        (in_words, ("265", "295")),
        (needs_uncertainty, ()),
    ],
)
def test_an_unknown_rule_is_refused_with_the_known_ones(ask, args):
    with pytest.raises(
        RuleRefused, match="“guarded” is no decision rule: name one of simple acc"
    ):
        ask("guarded", *args)


@pytest.mark.parametrize("name", [*RULES])
def test_every_rule_refuses_a_line_without_a_procedure(name):
    with pytest.raises(ValueError, match="a line must name one"):
        judge_by(name, read("280"), "265", "295", None, **STATED[name])


@pytest.mark.parametrize("name", [*RULES])
@pytest.mark.parametrize(
    ("lower", "upper", "words"),
    [(None, None, "no limit"), ("295", "265", "above the upper"), ("max", None, "max")],
)
def test_limits_without_sense_are_not_evaluated_by_any_rule(name, lower, upper, words):
    found = judge_by(name, read("280"), lower, upper, ROUNDING, **STATED[name])

    assert (found.verdict, found.compared) == (NOT_EVALUATED, None)
    assert words in found.why


def test_nothing_left_to_accept_cannot_be_judged_by():
    stated = {"uncertainty": "20", "basis": REPRODUCIBILITY, "confidence": "0.95"}

    with pytest.raises(RuleRefused) as refused:
        zone_of(GUARDED_ACCEPTANCE, "270", "290", **stated)
    with pytest.raises(RuleRefused):
        judge_by(GUARDED_ACCEPTANCE, read("280"), "270", "290", ROUNDING, **stated)
    with pytest.raises(RuleRefused):
        in_words(GUARDED_ACCEPTANCE, "270", "290", **stated)

    assert refused.value.sentence == (
        "270 to 290 leaves nothing to accept: with R = 20 and 95 % confidence each "
        "limit moves in by 11.87. Widen the limits, or choose another rule."
    )


def test_one_value_left_can_be_judged_by():
    stated = {"uncertainty": "10", "constants": "printed"}

    zone = zone_of(SUPPLIER, "0", "11.8", **stated)

    assert zone.lower == zone.upper == Decimal("5.9")


@pytest.mark.parametrize(
    ("name", "stated", "words"),
    [
        (GUARDED_ACCEPTANCE, {"basis": ""}, "“” is nothing that guarded acceptance rests on: name own uncertainty or reproducibility"),
        (GUARDED_ACCEPTANCE, {"basis": "guess"}, "“guess” is nothing"),
        (GUARDED_ACCEPTANCE, {"uncertainty": ""}, "Guarded acceptance rests on a stated uncertainty: enter u"),
        (GUARDED_ACCEPTANCE, {"uncertainty": "  "}, "rests on a stated uncertainty"),
        (GUARDED_ACCEPTANCE, {"confidence": ""}, "Name the confidence of guarded acceptance"),
        (GUARDED_ACCEPTANCE, {"confidence": "95"}, "95 is no confidence"),
        (GUARDED_ACCEPTANCE, {"uncertainty": "0"}, "of 0 is none"),
        (GUARDED_ACCEPTANCE, {"uncertainty": "-2"}, "of -2 is none"),
        (GUARDED_ACCEPTANCE, {"uncertainty": ">2"}, "only a bound"),
        (GUARDED_ACCEPTANCE, {"uncertainty": "two"}, "“two” is no number"),
        (GUARDED_ACCEPTANCE, {"constants": "rough"}, "names no constants"),
        (SUPPLIER, {"basis": OWN}, "“own uncertainty” is nothing that bound of ISO 4259, supplier rests on: name reproducibility"),
        (SUPPLIER, {"uncertainty": ""}, "enter R"),
    ],
)  # fmt: skip
def test_a_rule_that_is_not_wholly_stated_cannot_be_judged_by(name, stated, words):
    told = {**STATED[name], **stated}

    with pytest.raises(RuleRefused, match=words):
        zone_of(name, "265", "295", **told)
    with pytest.raises(RuleRefused, match=words):
        judge_by(name, read("280"), "265", "295", ROUNDING, **told)
