"""One result against one requirement, one verdict; periodic lines while they are valid; what fails is never met."""

import datetime as dt
from contextlib import contextmanager

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from lims.bench.actions.samples import add_test
from lims.decisions import verdicts
from lims.decisions.evidence import ON_BATCH, ON_LOT, PERIODIC
from lims.decisions.queries import awaiting_decision, last_values
from lims.methods import queries as methods
from lims.people import here
from lims.people.queries import person as person_of
from lims.record import clock
from specs.judging.verdicts import Verdict
from tests.factories import plant


def lines(number="0417", held=0):
    return {
        line.requirement.characteristic.code: line
        for line in verdicts.held_of(plant.lot(number))[held].lines
        if line.requirement.kind != "typical"
    }


def test_every_line_of_the_first_journey(works):
    found = {
        code: (line.verdict, line.result.reported if line.result else "", line.evidence)
        for code, line in lines().items()
    }

    assert found == {
        "worked-penetration": ("met", "280", ON_LOT),
        "penetration-change-100000": ("met", "22", ON_LOT),
        "dropping-point-block": ("met", "202", ON_LOT),
        "oil-separation": ("met", "2.8", ON_LOT),
        "copper-strip": ("met", "1a", ON_LOT),
        "appearance": ("met", "met", ON_LOT),
        "oxidation-drop": ("met", "38", PERIODIC),
        "unworked-penetration": (None, "274", ON_LOT),
    }


def test_a_customers_tighter_limits_give_a_verdict_of_their_own(works):
    own, customer = verdicts.held_of(plant.lot())

    assert own.verdict == Verdict.MET
    assert customer.verdict == Verdict.NOT_MET
    assert [line.requirement.characteristic.code for line in customer.blocking] == [
        "penetration-change-100000"
    ]


def test_what_was_not_tested_is_not_met_nor_evaluated(works):
    plant.play(plant.story("0418", retain="R-12-05", tests={}))

    found = {line.verdict for line in lines("0418").values() if line.verdict}

    assert found == {Verdict.NOT_TESTED, Verdict.MET}  # met: the periodic line


def test_readings_that_cannot_count_are_not_evaluated(works):
    plant.play(
        plant.story("0418", retain="R-12-05", tests={"worked": "276 284 279"}),
    )

    line = lines("0418")["worked-penetration"]

    assert line.verdict == Verdict.NOT_EVALUATED
    assert "fresh fill" in line.why


def test_a_check_that_raises_is_not_evaluated(works, monkeypatch):
    def broken(*_given, **_more):
        raise RuntimeError

    monkeypatch.setattr(verdicts.rules, "judge_by", broken)

    found = lines()

    assert found["worked-penetration"].verdict == Verdict.NOT_EVALUATED
    assert awaiting_decision()[0].verdict == Verdict.NOT_EVALUATED


def test_a_periodic_result_is_valid_until_its_month(works):
    line = lines()["oxidation-drop"]

    assert line.valid_until == dt.date(2026, 7, 12)
    assert line.result.lot.batch.number == "Q1-26-0310"


def test_a_periodic_result_out_of_date_is_not_tested(works):
    clock.set_to(plant.at("2026-07-13 09:00"))

    line = lines()["oxidation-drop"]

    assert line.verdict == Verdict.NOT_TESTED
    assert "overdue" in line.why


@pytest.mark.parametrize(
    ("batches_between", "verdict"), [(18, Verdict.MET), (19, Verdict.NOT_TESTED)]
)
def test_a_periodic_result_serves_so_many_batches(works, batches_between, verdict):
    for count in range(batches_between):
        story = plant.story(f"{320 + count:04d}")
        plant.play({**story, "lots": [], "charged": "2026-02-01 06:00"})
    story = plant.story("0499", retain="R-12-99", tests={})
    plant.play({**story, "charged": "2026-03-04 08:00"})

    # 0310, then the batches between, then 0417, then this one
    assert lines("0499")["oxidation-drop"].verdict == verdict


def test_a_line_per_batch_takes_the_other_lots_result_and_says_so(works):
    story = plant.story("0440", product="LC2", retain="R-12-60", tests={})
    story["lots"][0]["tests"] = {
        "oxidation": [
            {
                "vessels": [["OX-1", "kPa"], ["OX-2", "kPa"]],
                "readings": {"0": ["760", "760"], "100": ["720", "722"]},
            },
            "2026-03-05 09:00",
        ]
    }
    story["lots"].append(
        {**story["lots"][0], "letter": "B", "retain": "R-12-61", "tests": {}}
    )
    plant.play(story, until="2026-03-09 20:00")

    line = next(
        line
        for line in verdicts.held_of(plant.lot("0440", "B"))[0].lines
        if line.requirement.characteristic.code == "oxidation-drop"
    )

    assert (line.verdict, line.evidence) == (Verdict.MET, ON_BATCH)
    assert line.result.lot.letter == "A"


def test_a_periodic_test_of_the_lot_itself_stands_before_an_older_one(works):
    add_test(
        sample=plant.sample(),
        characteristic=methods.characteristic("oxidation-drop"),
        edition=methods.edition("ASTM D942", "19"),
        by=person_of("tech-a"),
    )

    line = lines()["oxidation-drop"]

    assert line.evidence == PERIODIC  # nothing read yet: the older one stands


def test_the_queue_shows_the_worst_verdict_first(works):
    bad = plant.READY | {"worked": "297 299 298", "prolonged": "W-1: 305 306 304"}
    plant.play(
        plant.story("0419", retain="R-12-06", tests=bad), until="2026-03-10 09:00"
    )

    waiting = awaiting_decision()

    assert [str(each.lot) for each in waiting] == ["Q1-26-0419 A", "Q1-26-0417 A"]
    assert waiting[0].line.requirement.characteristic.code == "worked-penetration"


def test_the_queue_asks_as_often_for_many_lots_as_for_few(works):
    with CaptureQueriesContext(connection) as few, a_request():
        awaiting_decision()
    for count in range(3):
        plant.play(
            plant.story(f"04{30 + count}", retain=f"R-13-0{count}"),
            until=f"2026-03-1{count} 09:00",
        )

    with CaptureQueriesContext(connection) as many, a_request():
        assert len(awaiting_decision()) == 4

    assert len(many) == len(few)


@contextmanager
def a_request():
    here.open_request()
    yield
    here.close_request()


def test_the_dots_are_the_last_released_lots(works):
    plant.release(plant.lot())
    plant.play(
        plant.story(
            "0420",
            retain="R-12-70",
            tests={},
            filled="2026-03-10 14:00",
            sample=["drum 1 of 30", "2026-03-11 07:30"],
        ),
        until="2026-03-12 09:00",
    )

    worked = methods.characteristic("worked-penetration")

    assert last_values(plant.lot("0420"))[worked.pk] == ["280", "279"]


@pytest.mark.parametrize(
    ("day", "months", "after"),
    [
        (dt.date(2026, 1, 12), 6, dt.date(2026, 7, 12)),
        (dt.date(2026, 8, 31), 6, dt.date(2027, 2, 28)),
        (dt.date(2025, 12, 31), 2, dt.date(2026, 2, 28)),
        (dt.date(2026, 3, 4), 36, dt.date(2029, 3, 4)),
    ],
)
def test_months_after_a_day(day, months, after):
    assert verdicts.months_after(day, months) == after
