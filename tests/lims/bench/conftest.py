"""The invented plant with its first lot received, and the clock on Thursday 5 March 2026, 08:53."""

import pytest

from lims.people.queries import person as person_of
from tests.factories import plant


@pytest.fixture
def works(db):
    plant.open_plant()
    plant.play(plant.story(tests={}), until="2026-03-05 08:53")


@pytest.fixture
def tech_a(works):
    return person_of("tech-a")


@pytest.fixture
def aud_1(works):
    return person_of("aud-1")
