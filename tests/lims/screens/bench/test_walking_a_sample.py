"""Journey J1 at the bench by figures alone: each box is sent as it is left, and the outcome comes back."""

import datetime as dt

import pytest

from lims.batches.models import FillLot
from lims.bench.models import Test
from lims.record import clock
from tests.lims.screens.bench.walking import conditions, cones, readings, send, told

WORKED = "worked-penetration"
PROLONGED = "prolonged-penetration-100000"


def at(text):
    """A time of the laboratory in March 2026: "05 08:52:10"."""
    clock.set_to(dt.datetime.fromisoformat(f"2026-03-{text}+01:00"))


def worked(client, sample, *texts):
    at("05 08:53:05")
    conditions(
        client,
        sample,
        WORKED,
        penetrometer="PEN-01",
        temperature="25.1",
        strokes_end="085210",
    )
    return cones(client, sample, WORKED, *texts)


def test_the_verdict_comes_with_the_third_reading(bench, sample):
    early = told(worked(bench, sample, "279", "281"))
    full = told(cones(bench, sample, WORKED, "279", "281", "280"))

    assert "2 of 3 cone readings" in early.casefold()
    assert "met</span>" not in early
    assert 'id="h-' not in full
    assert "met</span>" in full
    assert '<span class="fig">280<span class="unit">×\u00a00.1\u00a0mm</span>' in full
    assert "mean of 279, 281 and 280; spread 2" in full.casefold()
    assert "NLGI number 2" in full


def test_a_box_says_what_was_understood_and_when_it_was_read(bench, sample):
    answer = told(worked(bench, sample, "27,9"))

    assert "type the value again" in answer.casefold()

    answer = told(worked(bench, sample, "279,0"))

    assert "= 279.0 × 0.1 mm" in answer
    assert "read 55 s after the strokes ended" in answer
    assert "Saved 08:53 by" in answer


def test_the_whole_sample_is_walked_and_the_lot_awaits_its_decision(bench, sample, lot):
    at("05 08:30:00")
    conditions(
        bench, sample, "unworked-penetration", penetrometer="PEN-01", temperature="25.1"
    )
    unworked = told(cones(bench, sample, "unworked-penetration", "272", "274", "275"))
    worked(bench, sample, "279", "281", "280")
    at("05 09:00:00")
    conditions(bench, sample, PROLONGED, worker="W-2", started_at="0900")
    at("06 14:29:00")
    conditions(
        bench,
        sample,
        PROLONGED,
        penetrometer="PEN-01",
        temperature="25,0",
        strokes_end="142830",
    )
    at("06 14:30:00")
    change = told(cones(bench, sample, PROLONGED, "301", "303", "302"))
    conditions(bench, sample, "dropping-point-block", apparatus="DP-01")
    dropping = told(
        readings(
            bench,
            sample,
            "dropping-point-block",
            {
                "observed_1": "186",
                "block_1": "232",
                "observed_2": "188",
                "block_2": "232",
            },
        )
    )
    masses = {"sample": "10.02", "oil": "0.28"}
    oil = told(readings(bench, sample, "oil-separation", masses))
    copper = told(readings(bench, sample, "copper-strip", {"strip_1": "1a"}))

    assert "no verdict: report only" in unworked
    assert '<span class="fig">274<' in unworked
    assert "#outcome-penetration-change-100000" in change
    assert '<span class="fig">+22<' in change
    assert '<span class="fig">202<' in dropping
    assert "met</span>" in dropping
    assert '<span class="fig">2.8<' in oil
    assert "met</span>" in copper
    lot.refresh_from_db()
    assert lot.state == FillLot.State.AWAITING_DECISION
    assert not Test.objects.filter(sample=sample, state="due").exists()


def test_readings_before_the_strokes_can_have_ended_are_kept_and_barred(bench, sample):
    at("05 09:00:00")
    conditions(bench, sample, PROLONGED, worker="W-2", started_at="09:00")
    at("06 08:00:00")
    answer = told(cones(bench, sample, PROLONGED, "301", "303", "302"))

    assert "cannot have ended before" in answer
    assert "Let the strokes end" in answer
    assert "Saved 08:00" in answer


def test_the_counter_is_asked_for_while_it_alone_can_show_the_end(bench, sample):
    at("05 09:00:00")
    conditions(bench, sample, PROLONGED, worker="W-2", started_at="09:00")
    at("06 10:00:00")
    asked = told(cones(bench, sample, PROLONGED, "301"))

    assert f'hx-swap-oob="innerHTML:#asked-{PROLONGED}"' in asked
    assert "Counter at the end" in asked


@pytest.mark.parametrize(
    ("code", "typed", "sentence"),
    [
        (f"{WORKED} cone_1", "28O", "has a letter among its digits"),
        (f"{WORKED} cone_1", "1.234,5", "grouping"),
        (f"{WORKED} cone_1", "Q1-26-0417-A", "looks like a label"),
        ("copper-strip strip_1", "5z", "is no rating"),
    ],
)
def test_text_that_is_no_value_gets_its_sentence(bench, sample, code, typed, sentence):
    answer = send(bench, sample, *code.split(), typed)

    assert answer.status_code == 422
    assert sentence in told(answer)
