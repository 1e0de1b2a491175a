"""A sample gets its number, its word on whether it counts, and the tests it is asked for."""

import pytest

from lims.batches.models import FillLot
from lims.bench.actions import samples
from lims.bench.models import Test
from lims.methods import queries as methods
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import plant


def receive(by, **given):
    lot = plant.lot()
    return samples.receive_sample(
        **{
            "batch": lot.batch,
            "fill_lot": lot,
            "place": "pack",
            "taken_at": plant.at("2026-03-05 07:40"),
            "taken_by": "",
            "by": by,
        }
        | given
    )


def test_a_pack_sample_is_asked_for_every_line_and_its_sources(tech_a):
    asked = set(plant.sample().tests.values_list("characteristic__code", flat=True))

    assert asked == {
        "appearance",
        "unworked-penetration",
        "worked-penetration",
        "prolonged-penetration-100000",
        "penetration-change-100000",
        "dropping-point-block",
        "oil-separation",
        "copper-strip",
    }


def test_report_only_never_stands_in_the_way(tech_a):
    assert not plant.the_test("unworked-penetration").is_required
    assert plant.the_test("prolonged-penetration-100000").is_required


def test_a_sample_within_twelve_hours_does_not_count(tech_a):
    early = receive(tech_a, taken_at=plant.at("2026-03-05 02:00"))

    assert not early.counts
    assert "at least 12 h" in early.why_not
    assert early.tests.count() == 0


def test_a_kettle_sample_is_asked_for_the_worked_penetration_alone(tech_a):
    kettle = receive(tech_a, fill_lot=None, place="kettle")

    assert kettle.number == "Q1-26-0417-K-01"
    assert not kettle.counts
    assert [t.characteristic.code for t in kettle.tests.all()] == ["worked-penetration"]


def test_a_second_sample_does_not_test_everything_twice(tech_a):
    second = receive(tech_a)

    assert second.number == "Q1-26-0417-A-02"
    assert second.tests.count() == 0


def test_a_kettle_sample_of_a_lot_is_refused(tech_a):
    with pytest.raises(BadInput, match="belongs to the batch"):
        receive(tech_a, place="kettle")


def test_a_pack_sample_without_a_lot_is_refused(tech_a):
    with pytest.raises(BadInput, match="belongs to a fill lot"):
        receive(tech_a, fill_lot=None)


@pytest.mark.parametrize(
    "when", ["2026-03-06 07:00", "2026-03-04 14:00", "1988-01-01 08:00"]
)
def test_impossible_times_are_refused(tech_a, when):
    with pytest.raises(BadInput):
        receive(tech_a, taken_at=plant.at(when))


def test_an_unknown_place_is_refused(tech_a):
    with pytest.raises(BadInput):
        receive(tech_a, place="floor")


def test_an_auditor_receives_nothing(aud_1):
    with pytest.raises(NotAllowed):
        receive(aud_1)


def test_a_line_per_batch_is_asked_of_one_lot_only(tech_a):
    story = plant.story("0440", product="LC2", retain="R-12-60", tests={})
    second = {**story["lots"][0], "letter": "B", "retain": "R-12-61"}
    story["lots"].append(second)
    plant.play(story, until="2026-03-05 09:00")

    asked = Test.objects.filter(characteristic__code="oxidation-drop")

    assert [test.sample.fill_lot.letter for test in asked] == ["A"]


def test_a_periodic_test_is_added_by_hand_once(tech_a):
    given = {
        "sample": plant.sample(),
        "characteristic": methods.characteristic("oxidation-drop"),
        "edition": methods.edition("ASTM D942", "19"),
        "by": tech_a,
    }
    samples.add_test(**given)

    with pytest.raises(WrongMove, match="already"):
        samples.add_test(**given)


def test_the_lot_stays_on_test_until_everything_required_is_reported(tech_a):
    plant.play(plant.story("0419", retain="R-12-50"), until="2026-03-09 09:00")

    assert plant.lot("0419").state == FillLot.State.AWAITING_DECISION
    assert plant.lot("0417").state == FillLot.State.ON_TEST
