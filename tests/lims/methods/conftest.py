"""Who keeps methods, who approves their figures, and who does neither."""

import pytest


@pytest.fixture
def manager(person):
    return person("laboratory_manager")


@pytest.fixture
def technologist(person):
    return person("technologist")


@pytest.fixture
def technician(person):
    return person("technician")
