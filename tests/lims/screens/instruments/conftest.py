"""Two penetrometers: one in service, one that was never checked; and clients of each role."""

import pytest
from django.test import Client

from tests.factories import instruments


@pytest.fixture
def keeper(person):
    return person("laboratory_manager")


@pytest.fixture
def pen(keeper):
    return instruments.in_service(by=keeper, number="PEN-01")


@pytest.fixture
def unchecked(keeper):
    return instruments.instrument(by=keeper, number="PEN-02")


@pytest.fixture
def as_role(person):
    """`as_role("technician")`: a client in which that person is signed in."""

    def sign_in(*roles: str) -> Client:
        client = Client()
        client.force_login(person(*roles))
        return client

    return sign_in
