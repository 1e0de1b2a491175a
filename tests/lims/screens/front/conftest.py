"""Clients of people who are signed in, and of a stranger."""

import pytest
from django.test import Client


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def browsing(person):
    """`browsing("technician")`: a client in which that person is signed in."""

    def sign_in(*given: str) -> Client:
        client = Client()
        client.force_login(person(*given))
        return client

    return sign_in


@pytest.fixture
def stranger(plant) -> Client:
    return Client()
