"""Customers: adding, changing, and what is refused."""

import pytest

from lims.products import actions, queries
from lims.products.models import Customer
from lims.record.models import Entry
from lims.record.refusals import BadInput, ChangedSince, NotAllowed

FERROWICK = {
    "code": "FA",
    "name": "Ferrowick Agri",
    "address": "Loam Road 3",
    "mail": "goods-in@ferrowick.example",
    "language": "de",
}


def test_a_customer_is_added(despatch):
    row = actions.add_customer(**FERROWICK, by=despatch)

    assert queries.customer("FA") == row
    assert Entry.objects.first().about_name == "Ferrowick Agri"


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("code", {"code": " "}, "The code is missing"),
        ("name", {"name": ""}, "The name is missing"),
        ("mail", {"mail": "goods-in"}, "“goods-in” is no mail address"),
        ("language", {"language": "la"}, "“la” is no language: choose one of en, de"),
        ("address", {"address": "x" * 201}, "shorten it to 200"),
    ],
)
def test_a_customer_that_cannot_stand_is_refused(despatch, field, change, sentence):
    with pytest.raises(BadInput, match=sentence) as refused:
        actions.add_customer(**(FERROWICK | change), by=despatch)

    assert refused.value.field == field
    assert not Customer.objects.exists()


def test_a_customer_code_is_used_once(despatch):
    actions.add_customer(**FERROWICK, by=despatch)

    with pytest.raises(BadInput, match="The customer FA stands here already"):
        actions.add_customer(**FERROWICK, by=despatch)


def test_a_customer_changes_all_but_the_code(despatch):
    row = actions.add_customer(**FERROWICK, by=despatch)

    actions.change_customer(
        customer=row, name="Ferrowick", address="", mail="", language="en", by=despatch
    )

    row.refresh_from_db()
    assert (row.code, row.name, row.mail, row.language) == ("FA", "Ferrowick", "", "en")


def test_a_customer_that_somebody_changed_is_not_changed_over(despatch):
    row = actions.add_customer(**FERROWICK, by=despatch)
    seen = row.version
    given = {"address": "", "mail": "", "language": "en", "by": despatch}
    actions.change_customer(customer=row, name="First", **given)

    with pytest.raises(ChangedSince):
        actions.change_customer(
            customer=queries.customer("FA"), name="Second", version=seen, **given
        )

    assert queries.customer("FA").name == "First"


def test_a_technologist_keeps_no_customers(technologist, osprey):
    with pytest.raises(NotAllowed, match="Keeping customers is for"):
        actions.add_customer(**FERROWICK, by=technologist)
    with pytest.raises(NotAllowed):
        actions.change_customer(
            customer=osprey,
            name="x",
            address="",
            mail="",
            language="en",
            by=technologist,
        )
