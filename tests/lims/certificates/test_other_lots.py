"""Whoever is refused one lot for a customer learns which released lots would do."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from lims.certificates import actions, figures, rules
from lims.people.queries import person
from lims.products.models import Customer, Requirement
from lims.record.refusals import WrongMove
from tests.factories import plant

GENTLE = plant.READY | {"prolonged": "W-2: 295 297 296"}  # a change of +16


@pytest.fixture
def gentle(works):
    """`gentle("0406")`: released lots that meet the tighter limit of OL, where lot 0417 A does not."""

    def make(*numbers):
        plant.play(
            *(
                plant.story(number, retain=f"R-20-{number}", tests=GENTLE)
                for number in numbers
            ),
            until="2026-03-10 09:00",
        )
        for number in numbers:
            plant.release(plant.lot(number))

    return make


def refused(lot):
    release = rules.check_is_released(lot)
    revision = rules.revision_for(lot, Customer.objects.get(code="OL"))
    with pytest.raises(WrongMove) as refusal:
        rules.check_met_for(release, revision)
    return str(refusal.value)


def allot(number, count):
    actions.allot(
        fill_lot=plant.lot(number),
        customer=Customer.objects.get(code="OL"),
        order="OL-4401",
        pack_count=count,
        by=person("desk-1"),
    )


def test_a_lot_that_meets_it_is_named_with_what_is_left(gentle):
    gentle("0406", "0407")
    allot("0406", 12)
    allot("0407", 30)

    told = refused(plant.lot())

    assert told.endswith("Choose another lot: Q1-26-0406 A meets it, 18 packs left.")


def test_at_most_three_lots_are_named_and_asked_for_at_once(gentle):
    gentle("0405")
    with CaptureQueriesContext(connection) as few:
        refused(plant.lot())
    gentle("0406", "0407", "0408")

    with CaptureQueriesContext(connection) as many:
        told = refused(plant.lot())

    assert told.count("meets it") == 3
    assert len(many) == len(few)


@pytest.mark.parametrize(
    ("lower", "upper", "words"),
    [
        ("-20", "20", "−20 to +20 × 0.1 mm"),
        ("", "+30", "at most +30 × 0.1 mm"),
        ("0", "", "at least 0 × 0.1 mm"),
        ("", "", "no limit"),
    ],
)
def test_limits_are_written_with_sign_and_unit(db, lower, upper, words):
    plant.open_plant()
    line = Requirement.objects.filter(
        characteristic__code="penetration-change-100000"
    ).first()
    line.lower, line.upper = lower, upper

    assert figures.limits_in_sentence(line) == words
