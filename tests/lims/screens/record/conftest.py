"""The plant with lot 0417 A released on Monday 9 March 2026, and clients of its people."""

import pytest
from django.test import Client

from lims.people.queries import person
from tests.factories import plant


@pytest.fixture
def works(db):
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story(), until="2026-03-09 09:00")
    plant.release(plant.lot())


@pytest.fixture
def as_account(works):
    """`as_account("aud-1")`: a client in which that person is signed in."""

    def sign_in(account: str) -> Client:
        client = Client()
        client.force_login(person(account))
        return client

    return sign_in


@pytest.fixture
def auditor(as_account):
    return as_account("aud-1")
