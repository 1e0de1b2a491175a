"""The first day of a test is the first start or reading behind its value, of a computed value the earliest of its sources."""

import pytest

from lims.bench.actions.entering import record_reading
from lims.bench.models import Determination
from lims.decisions import verdicts
from lims.people.queries import person
from tests.factories import plant


@pytest.fixture
def later(db):
    """Lot 0417 A: the prolonged strokes ran from 5 March, everything else was read on 6 March."""
    late = "2026-03-06 15:00"
    tests = {
        name: readings if name == "prolonged" else [readings, late]
        for name, readings in plant.READY.items()
    }
    plant.open_plant()
    plant.play(plant.story(tests=tests))


def result_of(code):
    return next(
        line.result
        for line in verdicts.held_of(plant.lot())[0].lines
        if line.requirement.characteristic.code == code
    )


def test_a_computed_value_begins_with_the_run_of_its_earliest_source(later):
    prolonged = Determination.objects.get(
        test=plant.the_test("prolonged-penetration-100000")
    )

    change = result_of("penetration-change-100000")

    assert change.first_moment == prolonged.started_at
    assert change.first_moment.date().isoformat() == "2026-03-05"
    assert change.last_moment.date().isoformat() == "2026-03-06"
    assert result_of("worked-penetration").first_moment > plant.at("2026-03-06 15:00")


def strip(text, read_at, **more):
    record_reading(
        test=plant.the_test("copper-strip"),
        slot="strip_1",
        text=text,
        read_at=plant.at(read_at),
        by=person("tech-a"),
        **more,
    )


def test_what_was_read_before_it_was_typed_counts_from_its_reading(db):
    plant.open_plant()
    plant.play(plant.story(tests={}), until="2026-03-07 09:00")

    strip("1a", "2026-03-05 16:00")
    assert result_of("copper-strip").first_moment == plant.at("2026-03-05 16:00")

    strip("1b", "2026-03-06 10:00", reason="the day was a slip")
    assert result_of("copper-strip").first_moment == plant.at("2026-03-06 10:00")
