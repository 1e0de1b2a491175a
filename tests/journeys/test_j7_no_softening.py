"""Journey 7, the edge: a softening within repeatability has no recovery, and the screen, the verdict and the review say why."""

import pytest
from django.urls import reverse

from lims.batches.models import FillLot
from lims.bench.models import Test
from lims.bench.reporting import active_value
from lims.methods import actions as methods_actions
from lims.methods import queries as methods
from lims.methods.figures import Figure, What
from lims.people.queries import person
from lims.record import clock
from specs.judging.verdicts import Verdict
from tests.factories import plant
from tests.factories.people import PASSWORD
from tests.journeys.hands import Hand, sign_release
from tests.journeys.resting import (
    CHANGE,
    LOT,
    NUMBER,
    PERMANENT,
    RECOVERY,
    RESTED,
    RETAINED,
    REWORKED,
    SAMPLE,
    leaf_of,
    line_of,
    reported,
    rests,
    the_test,
    works,
)


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


def test_a_softening_within_repeatability_has_no_recovery(db, client):
    works("289 291 290")
    hand = Hand(client, "tech-b", SAMPLE)
    assert reported(CHANGE) == "9"
    told = rests(hand, RESTED, "07 12:55", "283", "285", "284")
    why = "Not meaningful: softening +9 is within the repeatability 15."
    assert why in told
    rests(hand, REWORKED, "07 13:10", "284", "286", "285", again="13:09:00")

    assert reported(RECOVERY) is None
    assert reported(RETAINED) is None
    assert reported(PERMANENT) == "4"  # a difference says what it says
    leaf = leaf_of(hand.reads_page(), RECOVERY)
    assert "not evaluated" in leaf
    assert why in leaf
    assert "Computed as soon as" not in leaf
    assert "r 15 is from memory and not checked." in leaf
    line = line_of(RECOVERY)
    assert line.verdict == Verdict.NOT_EVALUATED
    assert line.why.startswith(why)
    hand.signs_out()
    refuse_to_release(client, why)


def refuse_to_release(client, why):
    clock.set_to(plant.at("2026-03-09 10:00"))
    Hand(client, "mgr-1", SAMPLE)
    review = client.get(reverse("decisions:lot", args=[LOT])).content.decode()
    assert why in review
    sign_release(client, plant.lot(NUMBER))
    assert plant.lot(NUMBER).state != FillLot.State.RELEASED


def test_a_corrected_cone_gives_the_recovery_its_meaning_again(db, client):
    works("289 291 290")
    hand = Hand(client, "tech-b", SAMPLE)
    rests(hand, RESTED, "07 12:55", "283", "285", "284")
    assert the_test(RECOVERY).asks.startswith("Not meaningful")

    for key, text in (("cone_1", "326"), ("cone_2", "328"), ("cone_3", "327")):
        hand.client.post(
            reverse("bench:reading", args=[SAMPLE, "prolonged-penetration-100000"]),
            {
                "box": key,
                f"{key}-text": text,
                f"{key}-reason": "read again",
                f"{key}-why": "scale misread",
                "set": "1",
            },
            headers={"HX-Request": "true"},
        )

    assert reported(RECOVERY) == "93.5"
    assert the_test(RECOVERY).asks == ""
    assert the_test(RECOVERY).state == Test.State.REPORTED


def test_the_repeatability_is_the_one_that_the_method_states(db, client):
    works("289 291 290")
    state_a_repeatability("8")
    rests(Hand(client, "tech-b", SAMPLE), RESTED, "07 12:55", "283", "285", "284")

    assert reported(RECOVERY) == "66.7"  # 6 of 9
    assert active_value(the_test(RECOVERY)).figures[0]["value"] == "8"


def state_a_repeatability(value):
    """The technologist reads it in the laboratory's own copy and puts it in force."""
    chemist = person("chem-1")
    draft = methods_actions.open_figures_draft(
        edition=methods.edition("ASTM D217", "21a"), note="own copy", by=chemist
    )
    figure = Figure(
        "prolonged-penetration-100000",
        What.REPEATABILITY,
        value,
        "the laboratory's own copy",
        "published",
        level_from="130",
        level_to="475",
    )
    methods_actions.set_figure(revision=draft, figure=figure, by=chemist)
    methods_actions.approve_figures(revision=draft, password=PASSWORD, by=chemist)
