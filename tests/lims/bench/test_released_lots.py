"""A released lot takes no reading: the actions look again inside their entry, and the database refuses by itself."""

import pytest
from django.db import Error

from lims.batches.models import Sample
from lims.bench.actions import entering, samples
from lims.bench.models import Condition, Determination, Reading, ReportedValue
from lims.methods import queries as methods
from lims.people.queries import person as person_of
from lims.record.gate import entry
from lims.record.models import Entry
from lims.record.refusals import WrongMove
from tests.factories import plant

WORKED = "worked-penetration"


@pytest.fixture
def tech_a(db):
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story(), until="2026-03-09 09:00")
    return person_of("tech-a")


def _reads(test, by):
    entering.record_reading(
        test=test, slot="cone_1", text="288", reason="read again", by=by
    )


def _notes(test, by):
    entering.record_condition(
        test=test, key="temperature", text="24.9", reason="read again", by=by
    )


def _adds(test, by):
    samples.add_test(
        sample=test.sample,
        characteristic=methods.characteristic("oxidation-drop"),
        edition=methods.edition("ASTM D942", "19"),
        by=by,
    )


def _receives(test, by):
    samples.receive_sample(
        batch=test.sample.batch,
        fill_lot=test.sample.fill_lot,
        place="pack",
        taken_at=plant.at("2026-03-06 07:40"),
        taken_by="",
        by=by,
    )


@pytest.mark.parametrize("act", [_reads, _notes, _adds, _receives])
def test_a_page_opened_before_the_release_writes_nothing_after_it(tech_a, act):
    opened_before = plant.the_test(WORKED)
    plant.release(plant.lot())
    before = Entry.objects.count(), Sample.objects.count()

    with pytest.raises(WrongMove, match="is released; its readings stand"):
        act(opened_before, tech_a)

    assert (Entry.objects.count(), Sample.objects.count()) == before


@pytest.mark.parametrize("kind", [Reading, Condition, ReportedValue])
def test_the_database_refuses_a_row_of_a_released_lot(tech_a, kind):
    plant.release(plant.lot())
    old = _newest(kind)
    before = kind.objects.count()

    with (
        pytest.raises(Error, match="the lot is released"),
        entry(by=tech_a, verb="reading_recorded", about=plant.lot()),
    ):
        _copy(old).save()

    assert kind.objects.count() == before


@pytest.mark.parametrize("kind", [Reading, Condition, ReportedValue])
def test_the_database_takes_the_same_row_before_the_release(tech_a, kind):
    before = kind.objects.count()

    with entry(by=tech_a, verb="reading_recorded", about=plant.lot()):
        _copy(_newest(kind)).save()

    assert kind.objects.count() == before + 1


def test_a_lot_on_hold_takes_readings_again(tech_a):
    plant.release(plant.lot())
    plant.hold(plant.lot())

    _reads(plant.the_test(WORKED), tech_a)

    determination = Determination.objects.get(test=plant.the_test(WORKED))
    assert determination.readings.filter(text="288").exists()


def _newest(kind):
    test = plant.the_test(WORKED)
    of_test = {"test": test} if kind is ReportedValue else {"determination__test": test}
    return kind.objects.filter(**of_test).order_by("pk").last()


def _copy(old):
    """A row such as a correction makes: it names the old one."""
    kept = {f.name: getattr(old, f.name) for f in old._meta.concrete_fields}
    more = {} if isinstance(old, ReportedValue) else {"reason": "by hand"}
    return type(old)(**kept | {"id": None, "replaces": old} | more)
