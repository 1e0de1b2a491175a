"""Who drafts, who approves, and the grease of the examples."""

import pytest

from tests.factories import products


@pytest.fixture
def technologist(person):
    return person("technologist")


@pytest.fixture
def quality_manager(person):
    return person("quality_manager")


@pytest.fixture
def despatch(person):
    return person("despatch")


@pytest.fixture
def technician(person):
    return person("technician")


@pytest.fixture
def lx2(technologist):
    return products.product(by=technologist)


@pytest.fixture
def osprey(despatch):
    return products.customer(by=despatch)
