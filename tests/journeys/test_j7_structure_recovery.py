"""Journey 7, first half: a polyurea grease is worked, prolonged, rested, and worked again; each share of the softening is named, and the certificate prints the one that is asked for."""

import json
import re

import pytest

from lims.batches.models import FillLot
from lims.bench.models import Determination
from lims.bench.reporting import active_value
from lims.record import clock, verify
from specs.judging.verdicts import Verdict
from tests.factories import plant
from tests.journeys.hands import Hand, issue, rows_of, sign_release
from tests.journeys.resting import (
    CHANGE,
    NUMBER,
    PERMANENT,
    RECOVERY,
    RECOVERY_7D,
    RESTED,
    RETAINED,
    REWORKED,
    SAMPLE,
    WEEK,
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


def test_a_polyurea_grease_takes_up_its_structure_again(db, client):
    works("326 328 327")
    hand = Hand(client, "tech-b", SAMPLE)
    assert reported("worked-penetration") == "281"
    assert reported("prolonged-penetration-100000") == "327"
    assert reported(CHANGE) == "46"
    assert reported(RECOVERY) is None
    read_too_early(hand)
    read_after_a_day(hand)
    assert line_of(RECOVERY).verdict == Verdict.MET
    assert line_of(PERMANENT).verdict == Verdict.MET
    assert line_of(CHANGE).verdict == Verdict.MET
    read_after_a_week(hand)
    name_each_index(hand)
    hand.signs_out()
    release_and_print(client)


def read_too_early(hand):
    """Saturday 08:00: 19 h 13 min of 24 h. Stored, barred, and the rest goes on in other cups."""
    told = rests(hand, RESTED, "07 08:00", "300", "302", "301")
    assert "Stored, cannot count: rested 19 h 13 min of 24 h" in told
    assert "the rest ends Sat 7 March 12:47" in told
    assert reported(RESTED) is None
    assert reported(RECOVERY) is None
    assert line_of(RECOVERY).verdict == Verdict.NOT_TESTED
    early = the_test(RESTED).determinations.get()
    assert (early.reported, early.readings.count()) == ("301", 3)
    assert early.state == Determination.State.BEGUN
    assert (
        hand.puts_aside(RESTED, 1, "read before the rest was over").status_code == 303
    )


def read_after_a_day(hand):
    told = rests(hand, RESTED, "07 12:55", "295", "297", "296")
    assert reported(RESTED) == "296"
    assert "67.4" in told  # the share is computed with the saving
    rests(hand, REWORKED, "07 13:10", "308", "310", "309", again="13:09:00")
    assert reported(REWORKED) == "309"
    assert reported(RECOVERY) == "67.4"
    assert reported(PERMANENT) == "28"
    assert reported(RETAINED) == "39.1"
    figure = active_value(the_test(RECOVERY)).figures[0]
    assert (figure["what"], figure["value"]) == ("repeatability", "15")
    assert figure["edition"].startswith("ASTM D217")
    assert active_value(the_test(PERMANENT)).figures == []  # it rests on none


def read_after_a_week(hand):
    rests(hand, WEEK, "13 13:00", "288", "290", "289")
    assert reported(WEEK) == "289"
    assert reported(RECOVERY_7D) == "82.6"


def name_each_index(hand):
    """Two recoveries and the softening that stays: no two headings are the same."""
    page = hand.reads_page()
    heads = {
        code: (
            re.search(r"<h2[^>]*>([^<]*)</h2>", leaf_of(page, code))[1],
            re.search(r'<ul class="about"><li[^>]*>([^<]*)</li>', leaf_of(page, code))[
                1
            ],
        )
        for code in (RECOVERY, RECOVERY_7D, RETAINED, PERMANENT, RESTED, REWORKED, WEEK)
    }
    assert heads[RECOVERY] == ("Structure recovery", "24 h at rest, undisturbed")
    assert heads[RECOVERY_7D] == ("Structure recovery", "7 d at rest, undisturbed")
    assert heads[RETAINED] == (
        "Retained recovery",
        "24 h at rest, then 60 double strokes",
    )
    assert len(set(heads.values())) == len(heads)
    assert "+28" in leaf_of(page, PERMANENT)
    assert "+31 of the softening +46 taken back by 24 h of rest" in leaf_of(
        page, RECOVERY
    )
    assert "+18 of the softening +46 taken back by 24 h of rest and 60 strokes" in (
        leaf_of(page, RETAINED)
    )


def release_and_print(client):
    """The certificate prints the one that the requirement names, and no other."""
    clock.set_to(plant.at("2026-03-13 15:00"))
    assert plant.lot(NUMBER).state == FillLot.State.AWAITING_DECISION
    manager = Hand(client, "mgr-1", SAMPLE)
    answer = sign_release(client, plant.lot(NUMBER))
    assert answer.status_code in {302, 303}, answer.content.decode()
    manager.signs_out()
    desk = Hand(client, "desk-1", SAMPLE)
    data = issue(client, plant.lot(NUMBER))
    desk.signs_out()
    rows = rows_of(data)
    assert rows["Structure recovery"]["result"] == "67.4"
    assert rows["Structure recovery"]["conditions"] == "24 h at rest, undisturbed"
    assert rows["Structure recovery"]["verdict"] == "met"
    assert rows["Permanent softening"]["result"] == "+28"
    assert rows["Change of penetration"]["result"] == "+46"
    assert "Retained recovery" not in rows
    assert not [it for it in ("39.1", "82.6") if it in json.dumps(rows)]
    assert verify.verify().holds
