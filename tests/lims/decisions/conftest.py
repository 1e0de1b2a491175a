"""The plant on Monday 9 March 2026: lot 0417 A tested and awaiting its decision, oxidation by batch 0310."""

import pytest

from lims.people.queries import person as person_of
from tests.factories import plant


@pytest.fixture
def works(db):
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story())


@pytest.fixture
def mgr_1(works):
    return person_of("mgr-1")
