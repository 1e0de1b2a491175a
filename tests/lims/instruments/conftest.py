"""Who keeps instruments, who checks them, and who does neither."""

import pytest


@pytest.fixture
def manager(person):
    return person("laboratory_manager")


@pytest.fixture
def technician(person):
    return person("technician")


@pytest.fixture
def despatch(person):
    return person("despatch")
