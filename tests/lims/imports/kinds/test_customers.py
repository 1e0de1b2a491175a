"""Customers from a table, and where it states them the lines agreed with them."""

import pytest

from lims.products import queries
from lims.products.models import Customer
from lims.record.models import Entry
from lims.record.refusals import NotAllowed
from tests.factories import products

HEADS = ("Customer", "Name", "Address", "E-mail", "Sprache")
LINE = (
    "Product", "Part number", "Characteristic", "Method", "Limits", "Tested",
    "Compared by", "Decision rule",
)  # fmt: skip
OF_OL = (
    "OL",
    "Osprey-Lune Drivetrain",
    "Fen Lane 3, Ely",
    "goods@ospreylune.example",
    "Deutsch",
)
WORKED = (
    "LX2", "44-7100", "worked-penetration", "ASTM D217-21a", "270-290", "per fill lot",
    "rounding", "simple acceptance",
)  # fmt: skip


@pytest.fixture
def despatch(person):
    return person("despatch")


@pytest.fixture
def both(person):
    """Somebody who keeps customers and drafts specifications."""
    return person("quality_manager", "technologist")


def test_customers_are_added_in_one_entry(table, despatch):
    it = table(
        "customers", HEADS, OF_OL, ("TT", "Tallow & Thimble Bearings", "", "", "")
    )
    it.take_in(by=despatch)

    assert list(Customer.objects.order_by("code").values_list("code", "language")) == [
        ("OL", "de"),
        ("TT", "en"),
    ]
    assert Customer.objects.get(code="OL").mail == "goods@ospreylune.example"
    assert Entry.objects.first().note == "added: 2, customers: 2"


@pytest.mark.parametrize(
    ("written", "language"),
    [
        *[("fr", "fr"), ("French", "fr"), ("Français", "fr")],
        *[("es", "es"), ("Spanish", "es"), ("Español", "es")],
        *[("pl", "pl"), ("Polish", "pl"), ("Polski", "pl")],
    ],
)
def test_a_customers_language_is_read_as_it_is_called(
    table, despatch, written, language
):
    row = ("TT", "Tallow & Thimble Bearings", "", "", written)

    table("customers", HEADS, row).take_in(by=despatch)

    assert Customer.objects.get(code="TT").language == language


def test_their_lines_become_a_draft(table, book, technologist, both):
    lx2 = products.product(by=technologist)
    it = table("customers", HEADS + LINE, OF_OL + WORKED)

    it.take_in(by=both)

    draft = queries.draft_of(lx2, queries.customer("OL"))
    assert (draft.number, draft.part_number) == ("1", "44-7100")
    assert [row.limits for row in queries.requirements_of(draft)] == ["270 to 290"]


def test_rows_below_belong_to_the_customer_and_product_above(
    table, book, technologist, both
):
    products.product(by=technologist)
    dropping = (
        "", "", "dropping-point-block", "ASTM D2265-20", "min 190", "per fill lot", "rounding",
        "simple acceptance",
    )  # fmt: skip
    it = table(
        "customers", HEADS + LINE, OF_OL + WORKED, ("", "", "", "", "", *dropping)
    )

    assert [row.values["product"] for row in it.look().rows] == ["LX2", "LX2"]


def test_the_product_of_another_customer_does_not_reach_down(
    table, book, technologist, both
):
    products.product(by=technologist)
    other = ("TT", "Tallow & Thimble Bearings", "", "", "", "", *WORKED[1:])
    it = table("customers", HEADS + LINE, OF_OL + WORKED, other)

    asked = it.asks()

    assert "of which product" in asked["F/does not fit"].sentence
    assert asked["F/does not fit"].cells == ("F3",)


def test_who_keeps_customers_and_drafts_nothing_brings_no_lines(
    table, book, technologist, despatch
):
    products.product(by=technologist)
    it = table("customers", HEADS + LINE, OF_OL + WORKED)

    with pytest.raises(NotAllowed, match="Drafting specifications is for"):
        it.take_in(by=despatch)

    assert not Customer.objects.exists()


@pytest.mark.parametrize(
    ("row", "key", "sentence"),
    [
        (("OL", "", "", "", ""), "B/does not fit", "write the name"),
        (("OL", "Osprey", "", "no mail", ""), "D/does not fit", "no mail address"),
        (("OSPREY-LUNE", "Osprey", "", "", ""), "A/does not fit", "11 characters long"),
        (("OL", "Osprey", "", "", "Latin"), "E/cannot be read", "write one of en, de"),
        (("", "Osprey", "", "", ""), "A/missing", "is missing"),
    ],
)  # fmt: skip
def test_a_customer_that_cannot_stand_is_refused_with_what_to_write(
    table, plant, row, key, sentence
):
    asked = table("customers", HEADS, row).asks()

    assert list(asked) == [key]
    assert sentence in asked[key].sentence


def test_who_is_kept_here_is_not_changed(table, despatch):
    products.customer(by=despatch)
    it = table("customers", HEADS, OF_OL)

    asked = it.asks()

    assert set(asked) == {"C/differs", "D/differs", "E/differs"}
    it.choices = dict.fromkeys(asked, "cells")
    assert it.look().is_ready


def test_an_unknown_product_is_asked_about(table, book, both):
    it = table("customers", HEADS + LINE, OF_OL + WORKED)

    assert "no product that is kept here" in it.asks()["F/cannot be read"].sentence
