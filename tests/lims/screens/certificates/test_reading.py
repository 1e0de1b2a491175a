"""The list, its export, one certificate, its file: what went out and whether it is still true."""

import csv
import io

import openpyxl
import pytest
from django.core.files.storage import default_storage
from django.urls import reverse

from lims.certificates.models import CertificateRevision
from lims.record.gate import entry

LIST = "certificates:list"
EVERYBODY = ("tech-a", "mgr-1", "qm-1", "chem-1", "desk-1", "aud-1", "adm-1")
State = CertificateRevision.State


def read(client, name, *args, **given):
    return client.get(reverse(name, args=args), given)


@pytest.fixture
def unprinted(issued):
    return issued()


def set_state(revision, state):
    with entry(by=None, verb="certificate_issued", about=revision.certificate):
        revision.state = state
        revision.save()


def test_everybody_who_works_here_reads_the_certificates(browsing, unprinted):
    addresses = (
        reverse(LIST),
        reverse("certificates:can-leave"),
        reverse("certificates:one", args=[unprinted.certificate.number]),
        f"{reverse(LIST)}?as=csv",
    )

    for account in EVERYBODY:
        client = browsing(account)
        for address in addresses:
            assert client.get(address).status_code == 200, (account, address)


def test_the_list_opens_with_its_answer(desk, issued):
    assert "No certificate has been issued yet." in read(desk, LIST).content.decode()

    first, second = issued(order="TT-1"), issued(order="TT-2")
    page = read(desk, LIST).content.decode()
    assert "2 certificates went out; all are current." in page
    assert "2 are issued and still to be printed." in page

    set_state(first, State.WITHDRAWN)
    set_state(second, State.SUPERSEDED)
    page = read(desk, LIST).content.decode()
    assert "true but 2: 1 is superseded and 1 is withdrawn." in page


def test_each_cell_of_the_list_says_what_it_is_where_no_head_is_seen(desk, issued):
    issued(order="TT-1", is_printed=True)

    page = read(desk, LIST).content.decode()

    for label in ("Customer", "Fill lot", "Order", "Paper"):
        assert f'data-label="{label}"' in page
    assert "certificates.css" in page


BOTH = {"TT-1", "FA-2"}
NARROWED = (
    ({}, BOTH),
    ({"q": "fa-2"}, {"FA-2"}),
    ({"q": "q1-26-0310 a"}, BOTH),
    ({"q": "00002"}, {"FA-2"}),
    ({"customer": "TT"}, {"TT-1"}),
    ({"product": "PU2"}, set()),
    ({"state": "withdrawn"}, set()),
    ({"issued_from": "2026-03-10"}, set()),
    ({"issued_from": "2026-03-09"}, BOTH),
)


def test_the_filter_narrows_the_list(desk, issued):
    issued("TT", "TT-1")
    issued("FA", "FA-2")

    for given, orders in NARROWED:
        rows = read(desk, LIST, **given).context["table"].rows
        found = {row.record.certificate.allotment.order for row in rows}
        assert found == orders, given


def test_a_day_that_cannot_be_read_narrows_nothing_and_is_kept(desk, unprinted):
    response = read(desk, LIST, issued_from="31.3.26")

    assert response.context["shown_count"] == 1
    assert "Write a day like 2026-03-31." in response.content.decode()
    assert "31.3.26" in response.content.decode()


def test_every_column_that_offers_it_orders_the_list_both_ways(desk, issued):
    issued("TT", "TT-1")
    issued("FA", "FA-2")
    names = ("number", "revision", "state", "customer", "product", "lot", "issued_at")

    for name in names:
        assert read(desk, LIST, sort=name).status_code == 200
        assert read(desk, LIST, sort=f"-{name}").status_code == 200

    by_customer = read(desk, LIST, sort="customer").context["table"].rows
    assert [row.record.certificate.customer.code for row in by_customer] == ["FA", "TT"]


def test_the_list_asks_the_same_number_of_queries_for_any_length(
    desk, issued, django_assert_max_num_queries
):
    for n in range(6):
        issued(order=f"TT-{n}", packs=1)

    with django_assert_max_num_queries(13):
        read(desk, LIST)


def test_the_csv_holds_the_filtered_rows_with_units(desk, issued):
    issued("TT", "=1+1", packs=4)
    issued("FA", "FA-2")

    response = desk.get(reverse(LIST), {"as": "csv", "customer": "TT"})

    text = b"".join(response.streaming_content).decode("utf-8-sig")
    heads, units, *rows = list(csv.reader(io.StringIO(text)))
    row = dict(zip(heads, rows[0], strict=True))
    assert len(rows) == 1
    assert dict(zip(heads, units, strict=True))["Net mass"] == "kg"
    assert (row["Order"], row["Packs"], row["Net mass"]) == ("'=1+1", "4", "720")
    assert row["Issued"] == "2026-03-09 09:00"


def test_the_workbook_has_typed_cells(desk, issued):
    issued("TT", "=1+1", packs=4)

    response = desk.get(reverse(LIST), {"as": "xlsx"})

    sheet = openpyxl.load_workbook(io.BytesIO(response.content)).active
    heads = [cell.value for cell in sheet[1]]
    row = dict(zip(heads, sheet[3], strict=True))
    assert (row["Order"].value, row["Order"].data_type) == ("=1+1", "s")
    assert (row["Packs"].value, row["Net mass"].value) == (4, 720)
    assert row["Issued"].is_date


def test_another_kind_of_export_is_not_known(desk):
    assert desk.get(reverse(LIST), {"as": "pdf"}).status_code == 404


def test_what_can_leave_shows_packs_left_and_orders_that_wait(desk, allotted):
    allotted(packs=4)

    page = read(desk, "certificates:can-leave").content.decode()

    assert (
        "1 released fill lot has packs left. 1 order waits for a certificate." in page
    )
    assert "26 of 30 drums" in page
    assert "TT-7781" in page


def test_a_lot_of_which_nothing_is_left_cannot_leave(desk, allotted):
    allotted(packs=30)

    page = read(desk, "certificates:can-leave").content.decode()

    assert "Nothing that is released has packs left." in page


def test_one_certificate_shows_what_was_frozen(desk, unprinted):
    number = unprinted.certificate.number

    page = read(desk, "certificates:one", number.lower()).content.decode()

    for text in (number, "TT-7781", "All seven requirements met.", "+21", "current"):
        assert text in page
    assert unprinted.code in page
    assert f'href="{reverse("certificates:can-leave")}">What can leave' in page
    assert "The file is still to be printed." in page
    assert "Decision rule: simple acceptance, without a guard band." in page


def test_the_file_is_handed_out_as_it_was_issued(desk, issued):
    revision = issued(is_printed=True)
    number = revision.certificate.number

    response = read(desk, "certificates:pdf", number, 0)

    with default_storage.open(revision.file) as file:
        assert response.content == file.read()
    assert (
        response.headers["Content-Disposition"] == f'inline; filename="{number}-0.pdf"'
    )
    assert response.headers["X-Content-Type-Options"] == "nosniff"
    assert read(desk, "certificates:pdf", number, 1).status_code == 404


def test_a_file_that_was_altered_is_not_handed_out(desk, issued):
    revision = issued(is_printed=True)
    with default_storage.open(revision.file, "ab") as file:
        file.write(b"more")

    response = read(desk, "certificates:pdf", revision.certificate.number, 0)

    assert response.status_code == 409
    assert "is not the one that was issued" in response.content.decode()


def test_a_file_that_is_not_printed_yet_is_told_so(desk, unprinted):
    response = read(desk, "certificates:pdf", unprinted.certificate.number, 0)

    assert response.status_code == 409
    assert "is still to be printed" in response.content.decode()


def test_the_internal_copy_is_a_pdf_made_when_it_is_asked_for(browsing, unprinted):
    number = unprinted.certificate.number
    client = browsing("aud-1")

    response = read(client, "certificates:internal-copy", number)
    page = read(client, "certificates:one", number).content.decode()

    assert response.headers["Content-Type"] == "application/pdf"
    assert response.content.startswith(b"%PDF-")
    assert f"internal-{number}-0.pdf" in response.headers["Content-Disposition"]
    assert reverse("certificates:internal-copy", args=[number]) in page


def test_a_fill_lot_has_an_internal_copy_without_a_certificate(browsing, lot):
    client = browsing("mgr-1")

    response = read(client, "certificates:internal-copy-of-lot", lot.number)
    page = read(client, "batches:lot", lot.number).content.decode()

    assert response.content.startswith(b"%PDF-")
    assert f"internal-{lot.number}.pdf" in response.headers["Content-Disposition"]
    assert reverse("certificates:internal-copy-of-lot", args=[lot.number]) in page


def test_the_internal_copy_is_for_those_who_work_here(client, unprinted):
    number = unprinted.certificate.number

    response = read(client, "certificates:internal-copy", number)

    assert response.status_code == 302


def test_an_unknown_number_is_not_found(desk):
    assert read(desk, "certificates:one", "Q1-C-2026-99999").status_code == 404
    assert read(desk, "certificates:allotment", 4711).status_code == 404
    for name in ("internal-copy", "internal-copy-of-lot"):
        assert read(desk, f"certificates:{name}", "Q1-26-9999-A").status_code == 404
