"""An internal copy made of a lot that is released and has its certificate, and looked into line by line."""

from lims.certificates import actions as certificates
from lims.documents.internal import copy_of_certificate
from lims.people.queries import person
from lims.products.models import Customer
from tests.factories import plant


def issue(lot, customer="TT"):
    """Release a lot and issue a certificate for four packs of it."""
    plant.release(lot)
    desk = person("desk-1")
    allotment = certificates.allot(
        fill_lot=plant.lot(),
        customer=Customer.objects.get(code=customer),
        order="TT-7781",
        pack_count=4,
        by=desk,
    )
    return certificates.issue(allotment=allotment, by=desk)


def copy_of(issued):
    return copy_of_certificate(issued, by=person("mgr-1"))


def line(copy, name):
    return next(it for it in copy.lines if it.title.startswith(name))


def said(copy, name):
    return dict(line(copy, name).said)
