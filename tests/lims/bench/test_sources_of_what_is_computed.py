"""What is computed asks for its sources, each by an edition that measures it."""

import pytest

from lims.bench.actions.samples import add_test
from lims.methods import queries as methods
from lims.people.queries import person
from lims.products.lines import Line
from tests.factories import plant, products

HOUSE = ("QG-S1", "1")
RECOVERY = "structure-recovery-24h"
ISO_2137 = ("ISO 2137", "2020")
LIMIT = {"comparing": "rounding", "rule": "simple acceptance"}
OF_RECOVERY = (RECOVERY, HOUSE, {"lower": "50"})
OF_WORKED = ("worked-penetration", ISO_2137, {"lower": "265", "upper": "295"})


def line(code, edition, limits):
    return Line(
        characteristic=methods.characteristic(code),
        edition=methods.edition(*edition),
        **LIMIT | limits,
    )


def sampled(*asked):
    """A lot of a product that asks for these lines alone, with its sample received."""
    plant.open_plant()
    made = products.product(by=person("chem-1"), code="PX2", family="polyurea")
    products.in_force(
        made,
        by=person("chem-1"),
        approver=person("qm-1"),
        number="1",
        lines=[line(*each) for each in asked],
    )
    plant.play(plant.story("0500", product="PX2", tests={}), until="2026-03-05 08:00")
    return plant.sample("0500")


def editions(sample):
    """By characteristic the designation of the method that its test is carried out by."""
    tests = sample.tests.select_related("characteristic", "edition__method")
    return {it.characteristic.code: it.edition.method.designation for it in tests.all()}


def test_a_source_that_the_edition_does_not_measure_is_measured_by_one_that_does(db):
    sample = sampled(OF_RECOVERY)

    found = editions(sample)
    assert found[RECOVERY] == found["rested-penetration-24h"] == "QG-S1"
    assert found["worked-penetration"] == "ASTM D217"
    assert found["prolonged-penetration-100000"] == "ASTM D217"
    assert all(it.is_required for it in sample.tests.all())


@pytest.mark.parametrize("is_first", [True, False])
def test_a_line_of_its_own_says_how_a_source_is_measured(db, is_first):
    lines = [OF_RECOVERY, OF_WORKED]

    found = editions(sampled(*(lines if is_first else reversed(lines))))

    assert found["worked-penetration"] == "ISO 2137"
    assert found["prolonged-penetration-100000"] == "ISO 2137"


def test_an_added_test_takes_the_editions_that_the_sample_knows(db):
    sample = sampled(OF_WORKED)

    add_test(
        sample=sample,
        characteristic=methods.characteristic(RECOVERY),
        edition=methods.edition(*HOUSE),
        by=person("tech-a"),
    )

    found = editions(sample)
    assert found["prolonged-penetration-100000"] == "ISO 2137"
    assert found["rested-penetration-24h"] == "QG-S1"
