"""A later sample hides no bad one, who set a determination aside does not release, and the signature holds the decision's own words."""

import json

import pytest

from lims.bench.actions import entering
from lims.bench.actions.samples import add_test, receive_sample
from lims.bench.models import Determination, Test
from lims.decisions import rules, verdicts
from lims.methods import queries as methods
from lims.people.queries import person as person_of
from lims.products.models import Requirement
from lims.record.refusals import NotAllowed, WrongMove
from specs.judging.verdicts import Verdict
from tests.factories import plant

COPPER = "copper-strip"


def second_strip(text):
    """A second counting sample of the lot, with its own copper strip."""
    lot = plant.lot()
    sample = receive_sample(
        batch=lot.batch,
        fill_lot=lot,
        place="pack",
        taken_at=plant.at("2026-03-09 08:00"),
        taken_by="",
        by=person_of("tech-a"),
    )
    add_test(
        sample=sample,
        characteristic=methods.characteristic(COPPER),
        edition=methods.edition("ASTM D4048", "22"),
        by=person_of("tech-a"),
    )
    test = Test.objects.get(sample=sample, characteristic__code=COPPER)
    entering.record_reading(
        test=test, slot="strip_1", text=text, by=person_of("tech-a")
    )


def copper_line():
    return next(
        line
        for line in verdicts.held_of(plant.lot())[0].lines
        if line.requirement.characteristic.code == COPPER
    )


def test_of_two_samples_the_worse_verdict_stands(works):
    second_strip("4c")

    assert copper_line().verdict == Verdict.NOT_MET
    assert copper_line().result.reported == "4c"
    with pytest.raises(WrongMove, match="not met"):
        plant.release(plant.lot())


def test_a_second_good_sample_changes_nothing(works):
    second_strip("1a")

    assert copper_line().verdict == Verdict.MET


def test_whoever_set_a_determination_aside_does_not_release(works):
    plant.play(
        plant.story("0418", retain="R-12-05", tests={"appearance": "not met: lumps"}),
    )
    test = plant.the_test("worked-penetration", "0418")
    entering.record_reading(
        test=test, slot="cone_1", text="276", by=person_of("tech-a")
    )
    begun = Determination.objects.get(test=test)

    entering.set_aside(
        determination=begun, reason="cup was dented", by=person_of("mgr-1")
    )

    with pytest.raises(NotAllowed):
        rules.check_is_somebody_else(
            plant.lot("0418"), person_of("mgr-1"), alone_reason=""
        )


def test_the_signature_holds_disposition_and_remark(works):
    decision = plant.hold(plant.lot(), remark="seal of three drums found open")

    signed = json.loads(decision.signature.content)["signed"]
    assert signed["disposition"] == "hold"
    assert signed["remark"] == "seal of three drums found open"
    assert signed["seen"]["fill lot"] == "Q1-26-0417-A"


def test_a_periodic_line_that_is_only_reported_stands_in_nobodys_way(works):
    requirement = Requirement(
        kind=Requirement.Kind.REPORT_ONLY,
        scope=Requirement.Scope.PERIODIC,
        characteristic=methods.characteristic("dropping-point-bath"),
        every_batches=20,
    )

    line = verdicts.line_of(plant.lot(), requirement, verdicts.Evidence())

    assert line.verdict is None
