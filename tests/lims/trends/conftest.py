"""A plant with one lot, its kettle sample, and files of the tests' own."""

import pytest

from lims.people.queries import person as person_of
from tests.factories import plant

UNTIL = "2026-03-09 09:00"
KETTLE = {
    "taken": "2026-03-04 11:20",
    "by": "Kettle house",
    "tests": {"worked": "283 285 284"},
}


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def works(db):
    """The works with no batch yet; limits in force since 1 December 2025."""
    plant.open_plant()


@pytest.fixture
def lot(works):
    """Lot Q1-26-0417 A of LX2, tested, awaiting its decision: worked penetration 280."""
    plant.play(plant.story(), until=UNTIL)
    return plant.lot()


@pytest.fixture
def released(works):
    """An earlier lot, 0310 A, released with 279, beside 0417 A."""
    plant.play(plant.periodic_pass(), plant.story(), until=UNTIL)
    if plant.lot("0310").state != plant.FillLot.State.RELEASED:
        plant.release(plant.lot("0310"))
    return plant.lot("0310")


@pytest.fixture
def kettle(works):
    """The same batch with a sample from its kettle, which gave 284."""
    plant.play(plant.story() | {"kettle_sample": KETTLE}, until=UNTIL)
    return plant.lot()


@pytest.fixture
def manager(works):
    return person_of("mgr-1")
