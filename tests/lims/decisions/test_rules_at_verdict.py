"""A requirement's decision rule decides its verdict: with its zone, for every kind of result; a rule that cannot be carried out is not evaluated."""

from decimal import Decimal

import pytest

from lims.decisions import rulings, verdicts
from lims.decisions.nearness import nearness
from lims.decisions.queries import awaiting_decision
from lims.decisions.rulings import ruling_of
from lims.decisions.verdicts import Line
from lims.methods.models import Characteristic
from lims.products.models import Requirement
from specs.judging.verdicts import Verdict
from tests.factories import plant
from tests.lims.decisions.agreed import GUARDED, RECIPIENT, agree, lot_with

MET, NOT_MET, NOT_EVALUATED = Verdict.MET, Verdict.NOT_MET, Verdict.NOT_EVALUATED
LADDER = "load of a ladder"
PAIR = "pair of rated bearings"
FINDING = "pass or fail as found"


@pytest.fixture
def opened(db):
    plant.open_plant()
    plant.play(plant.periodic_pass())


def penetration(number="0417", customer="BM"):
    return next(
        line
        for held in verdicts.held_of(plant.lot(number))
        for line in held.lines
        if line.requirement.characteristic.code == "worked-penetration"
        and str(held.revision.specification).partition(" ")[0] == customer
    )


def requirement(kind="number", procedure="number as read", **fields):
    """A requirement that no database holds, with its characteristic."""
    fields = {"rule": "simple acceptance", "comparing": "rounding"} | fields
    characteristic = Characteristic(kind=kind, procedure=procedure)
    return Requirement(characteristic=characteristic, **fields)


def judged(of, value):
    return verdicts.judgement(of, of.characteristic, value)


@pytest.mark.parametrize(
    ("readings", "verdict", "why"),
    [
        ("279 281 280", MET, ""),
        ("268 269 270", MET, ""),
        (
            "291 293 292",
            NOT_MET,
            "inside the limits, outside the acceptance zone 268.55 to 291.45",
        ),
        ("296 297 298", NOT_MET, ""),
    ],
)
def test_guarded_acceptance_refuses_what_lies_too_near_a_limit(
    opened, readings, verdict, why
):
    agree(**GUARDED)
    lot_with(readings)

    line = penetration()

    assert (line.verdict, line.why) == (verdict, why)


def test_the_plants_own_line_keeps_its_own_rule(opened):
    agree(**GUARDED)
    lot_with("291 293 292")

    assert penetration(customer="LX2").verdict == MET
    assert penetration(customer="BM").verdict == NOT_MET


def test_the_recipients_bound_lets_pass_what_the_limit_alone_would_not(opened):
    agree(**RECIPIENT)
    lot_with("299 301 300")

    line = penetration()

    assert line.verdict == MET
    assert line.why.startswith("outside the limits, inside the acceptance zone 253.13")


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"uncertainty": ""}, "rests on a stated uncertainty: enter u"),
        ({"uncertainty": "20"}, "265 to 295 leaves nothing to accept"),
        ({"rule": "whatever"}, "“whatever” is no decision rule"),
        ({"confidence": ""}, "Name the confidence"),
    ],
)
def test_a_rule_that_cannot_be_carried_out_is_not_evaluated(fields, sentence):
    of = requirement(lower="265", upper="295", **GUARDED | fields)

    verdict, compared, why = judged(of, "280")

    assert (verdict, compared) == (NOT_EVALUATED, "")
    assert sentence in why
    assert ruling_of(of) is None


@pytest.mark.parametrize(
    ("value", "limits", "verdict"),
    [
        ("250", {"lower": "200"}, MET),
        (">800", {"lower": "200"}, MET),
        ("160", {"lower": "200"}, NOT_MET),
        (">800", {"upper": "800"}, NOT_EVALUATED),
        ("<126", {"lower": "200"}, NOT_MET),
    ],
)
def test_a_load_of_a_ladder_is_held_against_its_limit(value, limits, verdict):
    of = requirement("ladder", LADDER, **limits)

    assert judged(of, value)[0] == verdict


@pytest.mark.parametrize(
    ("value", "verdict", "compared"),
    [("0/1", MET, "1"), ("1/2", NOT_MET, "2"), ("0/3/1/1", NOT_MET, "3")],
)
def test_a_pair_of_bearings_is_judged_by_the_worse(value, verdict, compared):
    of = requirement("rating", PAIR, upper="1")

    assert judged(of, value)[:2] == (verdict, compared)


def test_a_mark_that_is_not_on_the_scale_is_not_evaluated():
    verdict, _, why = judged(requirement("rating", PAIR, upper="1"), "7")

    assert verdict == NOT_EVALUATED
    assert "is not on the scale" in why


@pytest.mark.parametrize(
    ("value", "verdict"), [("pass", MET), ("fail", NOT_MET), ("", NOT_EVALUATED)]
)
def test_what_must_pass_is_met_only_when_it_passed(value, verdict):
    of = requirement("pass or fail", FINDING, must="pass")

    assert judged(of, value)[0] == verdict


def test_words_are_met_or_not_as_they_were_found():
    of = requirement("words", "appearance", must="smooth")

    assert judged(of, "met")[0] == MET
    assert judged(of, "not met")[0] == NOT_MET
    assert judged(of, "amber")[0] == NOT_EVALUATED


@pytest.mark.parametrize("kind", ["report only", "typical"])
def test_what_has_no_limit_has_no_verdict_whatever_its_rule(kind):
    of = requirement(kind=kind, upper="295")
    of.kind = kind

    assert judged(of, "300") == (None, "", "")
    assert ruling_of(of) is None


def test_a_ruling_holds_the_figures_that_page_and_paper_say():
    ruling = ruling_of(requirement(lower="265", upper="295", **GUARDED))

    assert (ruling.lower, ruling.upper, ruling.factor) == ("268.55", "291.45", "1.645")
    assert (ruling.basis, ruling.confidence) == ("own uncertainty", "0.95")
    assert "268.55 to 291.45" in ruling.words
    assert "u = 2.16" in ruling.words


def test_a_zone_of_one_limit_has_one_end_with_two_further_decimals():
    ruling = ruling_of(requirement(upper="5.0", **GUARDED | {"uncertainty": "0.12"}))

    assert ruling.accepts == (None, "4.803")
    assert ruling.factor == "1.645"


def test_simple_acceptance_has_no_zone_of_its_own():
    assert ruling_of(requirement(lower="265", upper="295")) is None


def test_a_value_at_the_end_of_the_zone_is_as_near_as_can_be(opened):
    agree(**GUARDED)
    lot_with("290 292 291")

    guarded, plain = penetration(), penetration(customer="LX2")

    assert guarded.verdict == MET
    assert Decimal(0) < nearness(guarded) < Decimal("0.03")
    assert nearness(plain) > Decimal("0.1")


def test_what_has_no_result_or_no_number_is_far_from_everything():
    assert nearness(Line(requirement(upper="295"), None)) == 1
    assert nearness(Line(requirement("rating", PAIR, upper="1"), None)) == 1


def test_a_customers_rule_never_stands_in_the_way_of_the_plants_own(opened):
    agree(**GUARDED)
    lot_with("291 293 292")

    [waiting] = awaiting_decision()

    assert waiting.verdict == MET
    assert {held.verdict for held in waiting.held} == {MET, NOT_MET}


def test_an_end_on_a_whole_number_is_printed_to_the_limits_place():
    assert rulings._end(Decimal("4"), 1) == "4.0"
    assert rulings._end(Decimal("268.5469"), 0) == "268.55"
    assert rulings._end(None, 2) == ""
