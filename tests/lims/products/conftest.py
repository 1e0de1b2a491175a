"""Who drafts, who approves, and the grease of the examples."""

import pytest

from lims.products import actions
from tests.factories import methods, products
from tests.factories.published import BOTH, FIRST, SECOND


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


@pytest.fixture
def book(lx2):
    methods.with_reference()
    actions.load_published(data=[FIRST, SECOND, BOTH], by=None)


@pytest.fixture
def draft(book, technologist, lx2):
    return products.draft(lx2, by=technologist, lines=[])
