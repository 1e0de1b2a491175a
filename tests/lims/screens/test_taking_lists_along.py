"""Each list leaves as a workbook or as CSV: the rows that it shows, typed, with its filter and its order, on all its pages."""

import csv
import datetime as dt
import io

import openpyxl
import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from lims.batches.models import Batch, FillLot, Sample
from lims.certificates import actions as certificates
from lims.instruments import actions as instruments
from lims.instruments.queries import instrument
from lims.people import actions as accounts
from lims.people.queries import person
from lims.products import queries as products
from lims.products.models import Customer, Requirement
from tests.factories import plant

LOT = "Q1-26-0417-A"
LISTS = [  # the place, what it is asked for, and the keys of what leaves
    ("specifications:product", ("LX2",), ("revisions",)),
    ("batches:list", (), ("batches", "fill-lots", "samples")),
    ("batches:retains", (), ("retains",)),
    ("batches:lot", (LOT,), ("results", "requirements")),
    ("decisions:list", (), ("awaiting-decision", "on-hold")),
    ("certificates:list", (), ("certificates",)),
    ("certificates:can-leave", (), ("allotments", "packs-left")),
    ("specifications:list", (), ("products", "requirements")),
    ("specifications:customer-list", (), ("customers",)),
    ("specifications:published-list", (), ("published-specifications", "lines")),
    ("specifications:revision", ("REVISION",), ("requirements",)),
    ("methods:list", (), ("methods", "figures")),
    ("methods:figures", ("FIGURES",), ("figures",)),
    ("methods:characteristic-list", (), ("characteristics",)),
    ("instruments:list", (), ("instruments", "checks")),
    ("instruments:one", ("PEN-01",), ("checks",)),
    ("record:list", (), ("record",)),
    ("setup:people", (), ("people",)),
]
ADDRESSES = [(name, args, key) for name, args, keys in LISTS for key in keys]
# Verdicts are reckoned anew and the record tells names: more queries, not more with the rows.
STORED = [
    it
    for it in ADDRESSES
    if it[0] not in {"decisions:list", "record:list"} and it[2] != "requirements"
]
QUERIES = 4  # besides those that every page asks
EVERY_PAGE = 4  # session, account, roles, site


@pytest.fixture
def works(db):
    """One lot released with packs allotted, one that awaits a decision, one on hold."""
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story(), plant.story("0418", retain=None))
    plant.release(plant.lot())
    certificates.issue(allotment=allot("=1+1"), by=person("desk-1"))


def allot(order):
    given = {"customer": Customer.objects.get(code="TT"), "by": person("desk-1")}
    return certificates.allot(fill_lot=plant.lot(), order=order, pack_count=1, **given)


@pytest.fixture
def office(works):
    client = Client()
    client.force_login(person("qm-1"))
    return client


def address(name, args=()):
    own = products.in_force(products.product("LX2"))
    line = own.requirements.filter(edition__isnull=False).first()
    known = {
        "REVISION": own.pk,
        "FIGURES": line.edition.figures_revisions.first().pk,
    }
    return reverse(name, args=[known.get(it, it) for it in args])


def as_csv(client, name, args=(), **asked):
    response = client.get(address(name, args), {"as": "csv"} | asked)
    text = b"".join(response.streaming_content).decode("utf-8-sig")
    heads, units, *rows = csv.reader(io.StringIO(text))
    assert len(units) == len(heads) == len(set(heads))
    return [dict(zip(heads, row, strict=True)) for row in rows]


def sheet_of(client, name, args=(), **asked):
    response = client.get(address(name, args), {"as": "xlsx"} | asked)
    return openpyxl.load_workbook(io.BytesIO(response.content)).active


def column(sheet, head):
    place = [cell.value for cell in sheet[1]].index(head)
    return [row[place] for row in sheet.iter_rows(min_row=3)]


@pytest.mark.parametrize(("name", "args", "key"), ADDRESSES)
def test_a_list_leaves_in_both_forms_with_the_same_rows(office, name, args, key):
    lines = as_csv(office, name, args, of=key)
    sheet = sheet_of(office, name, args, of=key)

    assert [cell.value for cell in sheet[1]] == list(lines[0]) if lines else True
    assert sheet.max_row - 2 == len(lines)
    assert lines or key == "on-hold"


@pytest.mark.parametrize(("name", "args", "keys"), LISTS)
def test_its_page_has_the_links_to_each_form(office, name, args, keys):
    page = office.get(address(name, args)).content.decode()

    for key in keys:
        named = f"of={key}&amp;" if len(keys) > 1 else ""
        for form in ("xlsx", "csv"):
            assert f"{named}as={form}" in page, (key, form)


@pytest.mark.parametrize(("name", "args", "key"), STORED)
def test_a_list_of_stored_rows_asks_few_queries(office, name, args, key):
    where = address(name, args)
    with CaptureQueriesContext(connection) as asked:
        response = office.get(where, {"as": "csv", "of": key})
        b"".join(response.streaming_content)

    assert len(asked) <= QUERIES + EVERY_PAGE, [it["sql"] for it in asked]


def queries_of_all(office):
    found = {}
    for name, args, key in ADDRESSES:
        where = address(name, args)
        with CaptureQueriesContext(connection) as asked:
            b"".join(office.get(where, {"as": "csv", "of": key}).streaming_content)
        found[name, key] = len(asked)
    return found


def play_more(office, *numbers):
    """More lots that await a decision, and as many papers."""
    told = [plant.story(it, retain=f"R-20-{it}") for it in numbers]
    plant.play(*told, until="2026-03-10 09:00")
    for number in numbers:
        certificates.issue(allotment=allot(number), by=person("desk-1"))


def test_more_rows_ask_no_more_queries(office):
    play_more(office, "0421", "0422")
    before = queries_of_all(office)
    play_more(office, "0423", "0424", "0425")

    after = queries_of_all(office)

    del before["record:list", "record"], after["record:list", "record"]
    assert after == before


def test_the_filter_and_the_order_of_the_page_are_kept(office):
    everything = as_csv(office, "batches:list")
    found = as_csv(office, "batches:list", number="041", sort="number")

    assert [row["Batch"] for row in found] == ["Q1-26-0417", "Q1-26-0418"]
    assert len(everything) == Batch.objects.count() > 2


def test_the_links_keep_the_filter_and_leave_the_page_behind(office):
    where = address("batches:list")
    page = office.get(where, {"number": "04", "sort": "number", "page": "1"})

    link = "?number=04&amp;sort=number&amp;of=batches&amp;as=csv"
    assert link in page.content.decode()


def test_what_is_filled_and_sampled_follows_the_filter_too(office):
    lots = as_csv(office, "batches:list", of="fill-lots", number="0417")
    samples = as_csv(office, "batches:list", of="samples", number="0417")

    assert [row["Fill lot"] for row in lots] == ["Q1-26-0417 A"]
    assert {row["Batch"] for row in samples} == {"Q1-26-0417"}
    assert len(samples) == Sample.objects.filter(batch__number="Q1-26-0417").count()


def test_all_pages_leave_at_once(office, monkeypatch):
    monkeypatch.setattr("lims.screens.batches.views.ROWS", 1)

    assert len(as_csv(office, "batches:list", page="2")) == Batch.objects.count()


def test_numbers_and_days_are_typed_and_units_stand_beneath_the_heads(office):
    sheet = sheet_of(office, "batches:list")

    heads = [cell.value for cell in sheet[1]]
    assert sheet[2][heads.index("Mass")].value == "kg"
    assert {cell.data_type for cell in column(sheet, "Mass")} == {"n"}
    assert all(cell.is_date for cell in column(sheet, "Charged"))


def test_a_time_is_that_of_the_laboratory_and_its_zone_is_named(office):
    sheet = sheet_of(office, "batches:list", of="fill-lots", number="0417")

    heads = [cell.value for cell in sheet[1]]
    filled = dt.datetime(2026, 3, 4, 14, 10)  # noqa: DTZ001 - as it stands on the clock
    assert [cell.value for cell in column(sheet, "Filled")] == [filled]
    assert sheet[2][heads.index("Filled")].value == "Europe/Berlin"


def test_the_results_of_a_lot_are_numbers_where_they_are_numbers(office):
    rows = as_csv(office, "batches:lot", (LOT,), of="results")
    sheet = sheet_of(office, "batches:lot", (LOT,), of="results")

    values = {row["Characteristic"]: row["Value"] for row in rows}
    kinds = {cell.value: cell.data_type for cell in column(sheet, "Value")}
    assert values["Worked penetration"] == "280"
    assert values["Copper strip"] == "1a"
    assert (kinds[280], kinds["1a"]) == ("n", "s")


def test_a_verdict_leaves_as_it_was_signed(office):
    rows = as_csv(office, "batches:lot", (LOT,), of="requirements")

    assert {row["Verdict"] for row in rows} <= {"met", "reported only"}
    own = plant.lot().held_against.get(is_own=True).revision
    kinds = (Requirement.Kind.LIMIT, Requirement.Kind.REPORT_ONLY)
    assert len(rows) == own.requirements.filter(kind__in=kinds).count()


@pytest.mark.parametrize("sign", ["=", "+", "-", "@"])
def test_a_text_that_a_spreadsheet_would_reckon_with_stays_text(office, sign):
    text = f"{sign}SUM(A1:A9)"
    instruments.take_out_of_service(
        instrument=instrument("W-1"), reason=text, by=person("mgr-1")
    )

    why = [row["Why"] for row in as_csv(office, "instruments:list")]
    cells = [
        cell
        for cell in column(sheet_of(office, "instruments:list"), "Why")
        if cell.value == text
    ]

    assert f"'{text}" in why
    assert text not in why
    assert [(cell.data_type, cell.quotePrefix) for cell in cells] == [("s", True)]


def test_negative_numbers_stay_numbers(office):
    rows = as_csv(office, "specifications:list", of="products")

    offsets = {row["Pack less kettle"] for row in rows} - {""}
    assert any(it.startswith("-") for it in offsets)


def test_mail_addresses_leave_only_with_whoever_keeps_the_accounts(office, works):
    accounts.change_person(
        person=person("tech-a"),
        name="Ada Fenn",
        mail="ada@quernstone.example",
        reason="a mailbox of her own",
        by=person("adm-1"),
    )
    keeper = Client()
    keeper.force_login(person("adm-1"))

    assert "Mail" not in as_csv(office, "setup:people")[0]
    mails = [row["Mail"] for row in as_csv(keeper, "setup:people")]
    assert "ada@quernstone.example" in mails


@pytest.mark.parametrize("asked", [{"as": "ods"}, {"as": "csv", "of": "secrets"}])
def test_another_form_or_another_list_is_not_known(office, asked):
    assert office.get(address("batches:list"), asked).status_code == 404


def test_a_stranger_takes_nothing_along(works):
    response = Client().get(address("batches:list"), {"as": "csv"})

    assert response.status_code == 302
    assert FillLot.objects.exists()
