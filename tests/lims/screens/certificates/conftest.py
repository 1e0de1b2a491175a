"""A released lot with packs left, and clients of the people who see to its papers."""

import pytest
from django.test import Client

from lims.certificates import actions
from lims.documents.printing import print_one
from lims.people.queries import person
from lims.products.models import Customer
from tests.factories import plant


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def works(db):
    """Lot 0310 A is released: 30 drums of 180 kg, change +21. The clock stands on Monday 9 March 2026."""
    plant.open_plant()
    told = plant.periodic_pass()
    told["lots"][0].pop("papers", None)
    plant.play(told)


@pytest.fixture
def browsing(works):
    """`browsing("desk-1")`: a client in which that person is signed in."""

    def sign_in(account: str) -> Client:
        client = Client()
        client.force_login(person(account))
        return client

    return sign_in


@pytest.fixture
def desk(browsing):
    return browsing("desk-1")


@pytest.fixture
def lot(works):
    return plant.lot("0310")


@pytest.fixture
def allotted(lot):
    """`allotted("TT", packs=4)`: packs allotted by despatch."""

    def allot(customer="TT", order="TT-7781", packs=4):
        return actions.allot(
            fill_lot=lot,
            customer=Customer.objects.get(code=customer),
            order=order,
            pack_count=packs,
            by=person("desk-1"),
        )

    return allot


@pytest.fixture
def issued(allotted):
    """`issued("TT")`: a certificate issued by despatch; printed where asked."""

    def issue(customer="TT", order="TT-7781", packs=4, *, is_printed=False):
        made = actions.issue(
            allotment=allotted(customer, order, packs), by=person("desk-1")
        )
        return print_one(made, by=person("desk-1")) if is_printed else made

    return issue
