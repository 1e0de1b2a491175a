"""Browsers signed in as the people of a plant that a folder's own `opened` has opened."""

import pytest
from django.test import Client

from lims.people.queries import person


@pytest.fixture
def as_(opened):
    """`as_("chem-1")`: a client signed in as somebody."""

    def sign_in(account):
        client = Client()
        client.force_login(person(account))
        return client

    return sign_in
