"""What the story of the invented plant shows of a polyurea grease: its structure recovered, and a curve that waits for a person."""

import datetime as dt

import pytest

from lims.batches.models import FillLot
from lims.bench.actions.traces import judge_curve
from lims.bench.evaluation import held, picture_of
from lims.bench.models import Determination
from lims.bench.reporting import active_value
from lims.decisions.verdicts import held_of
from lims.instruments.models import Instrument
from lims.management import plant as demo
from lims.management.plant.changes import changes_of
from lims.people.queries import person
from lims.record import clock, verify
from specs.judging.verdicts import Verdict
from tests.factories import plant

pytestmark = pytest.mark.django_db

BEFORE, WITH = "0408", "0412"
INDUCTION, RECOVERY = "oxidation-induction-180", "structure-recovery-24h"


@pytest.fixture
def mid_shift():
    """The two lots of PU2 in mid-shift: one filled before its third revision, one after."""
    plant.open_plant()
    story = demo.told()
    lots = [it for it in story["lots"] if it["batch"][-4:] in {BEFORE, WITH}]
    demo.play(
        lots,
        plant.PASSWORDS,
        until=demo.NOW,
        besides=changes_of(story, plant.PASSWORDS),
    )
    clock.set_to(demo.NOW)


def the_test(code):
    return plant.the_test(code, WITH)


def lines_of(number):
    own = next(held for held in held_of(plant.lot(number)) if held.is_own)
    return {it.requirement.characteristic.code: it for it in own.lines}


def test_a_lot_is_held_against_the_revision_of_its_day(mid_shift):
    assert plant.lot(BEFORE).state == FillLot.State.AWAITING_DECISION
    assert RECOVERY not in lines_of(BEFORE)
    assert RECOVERY in lines_of(WITH)


def test_the_polyurea_grease_has_taken_up_its_structure_again(mid_shift):
    reported = {
        code: active_value(the_test(code)).reported
        for code in (
            "rested-penetration-24h",
            "reworked-penetration-24h",
            RECOVERY,
            "permanent-softening-24h",
            "penetration-change-100000",
        )
    }
    assert list(reported.values()) == ["296", "309", "67.4", "28", "46"]
    assert lines_of(WITH)[RECOVERY].verdict == Verdict.MET


def test_the_second_curve_waits_to_be_seen(mid_shift):
    first, second = the_test(INDUCTION).determinations.all()
    assert (first.state, first.reported) == (Determination.State.ACCEPTED, "23.0")
    assert (second.state, second.reported) == (Determination.State.BEGUN, "24.3")
    assert "onset" in second.parts  # both lines are drawn
    assert active_value(the_test(INDUCTION)) is None
    assert lines_of(WITH)[INDUCTION].verdict == Verdict.NOT_EVALUATED
    assert plant.lot(WITH).state == FillLot.State.ON_TEST


def test_accepted_it_gives_the_mean_of_both_and_the_lot_is_ready(mid_shift):
    run = the_test(INDUCTION).determinations.last()
    seen = picture_of(run.test.characteristic, held(run))
    judge_curve(determination=run, answer="accepted", seen=seen, by=person("tech-b"))

    assert active_value(the_test(INDUCTION)).reported == "23.6"
    assert lines_of(WITH)[INDUCTION].verdict == Verdict.MET
    assert plant.lot(WITH).state == FillLot.State.AWAITING_DECISION
    assert verify.verify().holds


def test_the_calorimeter_came_while_the_story_ran(mid_shift):
    calorimeter = Instrument.objects.get(number="DSC-1")
    assert calorimeter.kind == "pressure DSC"
    assert calorimeter.state_on(dt.date(2026, 3, 5)) == Instrument.State.IN_SERVICE
    assert calorimeter.checks.get().done_on == dt.date(2026, 2, 23)
