"""Journey 4, an instrument found off: overdue and barred, read on the reference grease and taken out, and the look-back over nine batches."""

import datetime as dt

import pytest
from django.urls import reverse

from lims.bench.actions import entering
from lims.bench.models import Determination
from lims.bench.reporting import active_value
from lims.certificates.lookback import looked_back
from lims.certificates.models import Allotment, Certificate
from lims.instruments import actions as instruments
from lims.instruments.actions_on_references import (
    add_reference_material,
    read_reference,
)
from lims.instruments.failures import failure_of
from lims.instruments.models import Instrument
from lims.instruments.queries import state_in_words
from lims.people.days import today
from lims.people.queries import person
from lims.products.models import Customer
from lims.record import clock, verify
from lims.record.gate import entry
from lims.record.refusals import WrongMove
from specs.control.lookback import Standing
from tests.factories import plant
from tests.factories.methods import characteristic

WORKED, PROLONGED, CHANGE = (
    "worked-penetration",
    "prolonged-penetration-100000",
    "penetration-change-100000",
)
REPORTED = {
    "0430": 281,
    "0431": 272,
    "0432": 288,
    "0433": 268,
    "0434": 279,
    "0435": 291,
    "0436": 274,
    "0437": 284,
    "0438": 277,
}
SUSPECT = ["0433", "0431", "0436", "0438"]  # the nearest to the limit first
OVERDUE = "0439"


def pen_02():
    return Instrument.objects.get(number="PEN-02")


@pytest.fixture
def works(db):
    """Ten lots received and none tested; the reference grease read on PEN-02 on Tuesday 24 March: 287.3."""
    plant.open_plant()
    stories = [
        plant.story(number, retain=f"R-13-{place:02d}", tests={})
        for place, number in enumerate([*REPORTED, OVERDUE], 1)
    ]
    plant.play(*stories, until="2026-03-24 07:00")
    grease = add_reference_material(
        name="reference grease",
        lot="RG-7",
        kind="penetrometer",
        characteristic=characteristic(WORKED),
        assigned="286",
        basis="round robin of 12 laboratories",
        deviation="2.53",
        deviation_basis="chart of 2025",
        expires_on=dt.date(2026, 12, 31),
        by=person("mgr-1"),
    )
    on_reference(grease, "287 288 287")
    return grease


def on_reference(grease, texts, account="tech-b"):
    return read_reference(
        instrument=pen_02(), material=grease, readings=texts.split(), by=person(account)
    )


def measure(number, at, reported, code=WORKED, penetrometer="PEN-02"):
    """Strokes, then three cone readings around the value."""
    clock.set_to(plant.at(at))
    by = person("tech-b")
    given = {"penetrometer": penetrometer, "temperature": "25.0"}
    if code == PROLONGED:
        given |= {"worker": "W-1", "started_at": "2026-03-24 05:00"}
    given["strokes_end"] = at.split()[1] + ":00"
    for key, text in given.items():
        entering.record_condition(
            test=plant.the_test(code, number), key=key, text=text, by=by
        )
    clock.set_to(clock.now() + dt.timedelta(seconds=50))
    for place, value in enumerate((reported - 1, reported + 1, reported), 1):
        entering.record_reading(
            test=plant.the_test(code, number),
            slot=f"cone_{place}",
            text=str(value),
            by=by,
        )


def measure_nine():
    for place, (number, reported) in enumerate(REPORTED.items()):
        measure(number, f"2026-03-{25 + place % 6} 09:{10 + place}", reported)
        value = active_value(plant.the_test(WORKED, number))
        assert value.reported == str(reported)


def weighed(code=WORKED):
    rows = looked_back(failure_of(pen_02()))
    return [it for it in rows if it.test.characteristic.code == code]


def numbers(rows, standing):
    return [
        it.test.sample.fill_lot.number[6:10] for it in rows if it.standing == standing
    ]


def test_overdue_two_days_it_is_barred(works):
    clock.set_to(plant.at("2026-04-02 09:00"))
    assert state_in_words(pen_02(), today()) == "overdue 2 days"

    measure(OVERDUE, "2026-04-02 09:05", 280)

    (kept,) = Determination.objects.filter(test=plant.the_test(WORKED, OVERDUE))
    assert (kept.reported, kept.state) == ("280", "begun")
    assert kept.bars[0]["sentence"] == "PEN-02 was overdue when it was used."
    assert active_value(plant.the_test(WORKED, OVERDUE)) is None


def test_ten_above_takes_it_out_and_asks_for_four_of_nine_again(works):
    measure_nine()
    clock.set_to(plant.at("2026-04-02 09:20"))

    found = on_reference(works, "296 297 295")

    assert (found.mean, found.bias) == ("296", "10")
    assert found.instrument_state == "overdue"
    assert pen_02().state == Instrument.State.OUT_OF_SERVICE
    assert pen_02().state_reason == (
        "reference grease 296.0, assigned 286, bias +10.0 beyond ±7.6"
    )
    failure = failure_of(pen_02())
    assert failure.before.words == (
        "reference grease 287.3, assigned 286, bias +1.3 within ±7.6"
    )
    rows = weighed()
    assert len(rows) == 9
    assert numbers(rows, Standing.SUSPECT) == SUSPECT
    assert numbers(rows, Standing.CLEAR) == ["0434", "0430", "0437", "0432", "0435"]
    assert [bool(it.tighter) for it in rows[4:]] == [True, True, False, False, False]
    assert {str(it.uncertainty) for it in rows} == {"2.16"}
    assert {it.limits for it in rows} == {"265 to 295"}
    assert rows[0].retains[0].place == "R-13-04"
    for number, reported in REPORTED.items():  # nothing is corrected
        assert active_value(plant.the_test(WORKED, number)).reported == str(reported)
    assert verify.verify().holds


def test_the_page_names_the_four_where_their_retains_stand_and_what_to_do(
    works, client
):
    measure_nine()
    clock.set_to(plant.at("2026-04-02 09:20"))
    on_reference(works, "296 297 295")
    client.force_login(person("aud-1"))

    page = client.get(
        reverse("instruments:look-back", args=["PEN-02"])
    ).content.decode()

    assert "9 results used it since it was last found right; 4 may lie beyond" in page
    assert "10.0 + 1.645 × 2.16 = 13.55" in page
    assert page.count("<b>suspect</b>") == 4
    assert "R-13-04" in page
    assert "in doubt for OL 270 to 290" in page


def test_a_lot_that_left_is_told_with_its_certificate(
    works, client, settings, tmp_path
):
    settings.MEDIA_ROOT = tmp_path
    measure("0433", "2026-03-25 09:10", 268)
    clock.set_to(plant.at("2026-04-02 09:20"))
    on_reference(works, "296 297 295")
    lot, customer = plant.lot("0433"), Customer.objects.get(code="TT")
    with entry(by=person("desk-1"), verb="packs_allotted", about=lot):
        allotment = Allotment(
            fill_lot=lot,
            customer=customer,
            order="4711",
            pack_count=6,
            allotted_at=clock.now(),
            allotted_by=person("desk-1"),
        )
        allotment.save()
        Certificate(
            number="Q1-C-2026-00244",
            site="Q1",
            year=2026,
            sequence=244,
            fill_lot=lot,
            customer=customer,
            allotment=allotment,
        ).save()

    (row,) = weighed()

    assert row.is_suspect
    assert [(str(it), it.customer.code) for it in row.papers] == [
        ("Q1-C-2026-00244", "TT")
    ]


def test_what_was_read_before_the_last_good_reading_is_not_asked_for_again(works):
    measure("0430", "2026-03-24 06:30", 281)  # the clock of a test may go back
    clock.set_to(plant.at("2026-04-02 09:20"))
    on_reference(works, "296 297 295")

    assert weighed() == []


def test_a_change_measured_wholly_on_it_is_lower_risk_and_partly_is_not(works):
    measure("0430", "2026-03-25 09:10", 281)
    measure("0430", "2026-03-26 11:10", 303, PROLONGED)
    measure("0431", "2026-03-25 10:10", 281, penetrometer="PEN-01")
    measure("0431", "2026-03-26 12:10", 303, PROLONGED)
    clock.set_to(plant.at("2026-04-02 09:20"))
    on_reference(works, "296 297 295")

    rows = weighed(CHANGE)

    assert numbers(rows, Standing.LOWER_RISK) == ["0430"]
    assert len(rows) == 2
    assert numbers(weighed(), Standing.CLEAR) == ["0430"]


def test_it_comes_back_after_a_check_and_a_good_reading(works):
    clock.set_to(plant.at("2026-04-02 09:20"))
    on_reference(works, "296 297 295")
    clock.set_to(plant.at("2026-04-03 09:00"))
    instruments.record_check(
        instrument=pen_02(),
        done_on=today(),
        due_on=dt.date(2026, 6, 30),
        found="right shaft fitted, moving mass 150.0 g",
        is_fit=True,
        by=person("tech-b"),
    )
    with pytest.raises(WrongMove, match="good reading of a reference material"):
        back()

    on_reference(works, "286 287 286")
    back()

    assert state_in_words(pen_02(), today()) == "in service, next check by 2026-06-30"
    assert len(looked_back(failure_of(pen_02()))) == 0


def back():
    instruments.put_back(instrument=pen_02(), reason="Shaft.", by=person("qm-1"))
