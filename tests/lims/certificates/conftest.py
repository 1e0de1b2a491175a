"""The plant with lot 0417 A released on Monday 9 March 2026."""

import pytest

from lims.people.queries import person as person_of
from tests.factories import plant


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def works(db):
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story(), until="2026-03-09 09:00")
    plant.release(plant.lot())


@pytest.fixture
def desk(works):
    return person_of("desk-1")
