"""The plant of the first journey with its lot 0417 A, and browsers signed in as its people."""

import html
import re

import pytest
from django.test import Client
from django.urls import reverse

from lims.batches.models import FillLot
from lims.decisions.review import review_of
from lims.people.queries import person
from lims.record.queries import tail
from tests.factories import plant
from tests.factories.people import PASSWORD


@pytest.fixture
def opened(db):
    plant.open_plant()


@pytest.fixture
def lot(opened):
    """Every requirement met, oxidation by batch 0310, a retain kept: awaiting decision."""
    plant.play(plant.periodic_pass(), plant.story())
    return plant.lot()


@pytest.fixture
def signed_in():
    """`signed_in("mgr-1")`: a client signed in as somebody."""

    def sign_in(account):
        client = Client()
        client.force_login(person(account))
        return client

    return sign_in


@pytest.fixture
def review(signed_in):
    """`review(lot, "aud-1")`: the page's text as that person reads it."""

    def read(lot, account="mgr-1"):
        page = signed_in(account).get(reverse("decisions:lot", args=[lot.number]))
        assert page.status_code == 200
        return text_of(page)

    return read


@pytest.fixture
def sign(signed_in):
    """Send the form of a review as it stands now; anything may be given otherwise."""

    def send(lot, account="mgr-1", **given):
        sent = {
            "disposition": "release",
            "remark": "",
            "password": PASSWORD,
            "seen": review_of(FillLot.objects.get(pk=lot.pk)).seen,
            "stood": tail().seq,
        } | given
        return signed_in(account).post(
            reverse("decisions:sign", args=[lot.number]), sent
        )

    return send


def text_of(page):
    """What a reader sees: no markup, single spaces."""
    bare = re.sub(r"<[^>]*>", " ", page.content.decode())
    return " ".join(html.unescape(bare).split())
