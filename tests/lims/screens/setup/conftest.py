"""A founded plant with its administrator, and clients of its people."""

import pytest
from django.test import Client


@pytest.fixture
def as_role(person):
    """`as_role("technician")`: a client in which that person is signed in."""

    def sign_in(*roles: str) -> Client:
        client = Client()
        client.force_login(person(*roles))
        return client

    return sign_in


@pytest.fixture
def keeper(plant):
    """A client in which the first administrator is signed in."""
    client = Client()
    client.force_login(plant)
    return client
