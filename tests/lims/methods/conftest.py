"""Who keeps methods, and who does not."""

import pytest


@pytest.fixture
def manager(person):
    return person("laboratory_manager")


@pytest.fixture
def technician(person):
    return person("technician")
