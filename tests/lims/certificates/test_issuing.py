"""Packs are allotted from released lots, certificates are numbered without gaps and frozen, files are kept once."""

import hashlib
import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import Error, connection, transaction

from lims.certificates import actions, checks, composing, rules
from lims.certificates.data import CertificateData
from lims.certificates.models import Certificate, CertificateRevision
from lims.decisions.verdicts import held_of
from lims.documents.printing import print_due, print_one
from lims.people.queries import person as person_of
from lims.products.models import Customer
from lims.record import clock, doors, verify
from lims.record.gate import entry
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import plant


def customer(code="TT"):
    return Customer.objects.get(code=code)


def allot(by, **given):
    return actions.allot(
        **{
            "fill_lot": plant.lot(),
            "customer": customer(),
            "order": "TT-7781",
            "pack_count": 4,
            "by": by,
        }
        | given
    )


def test_what_is_left_of_a_lot(desk):
    allot(desk)
    allot(desk, order="TT-7782", pack_count=6)

    assert rules.packs_left(plant.lot()) == 20


def test_more_packs_than_are_left_are_refused(desk):
    allot(desk, pack_count=28)

    with pytest.raises(BadInput, match="2 of 30 packs are left"):
        allot(desk, pack_count=3)


@pytest.mark.parametrize("count", [0, -4])
def test_no_packs_are_refused(desk, count):
    with pytest.raises(BadInput):
        allot(desk, pack_count=count)


@pytest.mark.parametrize("order", [" ", "x" * 41])
def test_an_order_is_written(desk, order):
    with pytest.raises(BadInput):
        allot(desk, order=order)


def test_a_customer_with_tighter_limits_gets_the_blocking_line_named(desk):
    with pytest.raises(WrongMove) as refused:
        allot(desk, customer=customer("OL"), order="OL-4401")

    told = str(refused.value)
    assert "does not meet OL for LX2 revision C: " in told
    assert "Change of penetration +22 (−20 to +20 × 0.1 mm)." in told
    assert told.endswith("No released lot with packs left meets it.")


def test_nothing_leaves_a_lot_that_is_not_released(desk):
    plant.play(plant.story("0418", retain="R-12-05"), until="2026-03-10 09:00")

    with pytest.raises(WrongMove, match="awaiting decision"):
        allot(desk, fill_lot=plant.lot("0418"))


def test_a_technician_allots_nothing(desk):
    with pytest.raises(NotAllowed):
        allot(person_of("tech-a"))


def test_packs_given_back_are_free_again(desk):
    allotment = allot(desk)

    actions.give_back(allotment=allotment, reason="order cancelled", by=desk)

    assert rules.packs_left(plant.lot()) == 30
    with pytest.raises(WrongMove, match="given back"):
        actions.issue(allotment=allotment, by=desk)


def test_giving_back_needs_a_reason(desk):
    with pytest.raises(BadInput):
        actions.give_back(allotment=allot(desk), reason="", by=desk)


def test_a_certificate_says_what_was_decided(desk):
    issued = actions.issue(allotment=allot(desk), by=desk)

    data = CertificateData.from_json(issued.data)
    results = {row.characteristic: (row.result, row.verdict) for row in data.rows}
    assert data.number == "Q1-C-2026-00001"
    assert results["Worked penetration"] == ("280", "met")
    assert ("+22", "met") in results.values()
    assert data.specification == "specification LX2, revision 5"
    assert data.signatures[0].name == "Mara Ellingsworth"
    assert data.quantity == "4 drums, 720 kg net"
    assert not any(row.standing_note for row in data.rows)


def test_the_periodic_line_names_its_batch_and_dates(desk):
    issued = actions.issue(allotment=allot(desk), by=desk)

    row = next(
        r
        for r in CertificateData.from_json(issued.data).rows
        if r.evidence == "periodic"
    )

    assert (row.result, row.tested_on.batch) == ("38", "Q1-26-0310")
    assert (row.tested_on.first_day, row.tested_on.last_day) == (
        "2026-01-12",
        "2026-01-16",
    )


def test_the_record_head_is_the_one_before_the_issue(desk):
    allotment = allot(desk)
    last = Entry.objects.order_by("seq").last()

    issued = actions.issue(allotment=allotment, by=desk)

    record = json.loads(issued.data)["record"]
    assert record == {"entries": last.seq, "head": last.hash}


def test_numbers_have_no_gap_after_a_refusal(desk):
    first = actions.issue(allotment=allot(desk), by=desk)
    with pytest.raises(WrongMove):
        actions.issue(allotment=first.certificate.allotment, by=desk)

    second = actions.issue(allotment=allot(desk, order="TT-7782"), by=desk)

    assert [first.certificate.sequence, second.certificate.sequence] == [1, 2]


def test_a_periodic_line_that_ran_out_since_the_release_stops_the_paper(desk):
    actions.issue(allotment=allot(desk), by=desk)
    clock.set_to(plant.at("2027-01-02 08:00"))
    with pytest.raises(WrongMove, match="no longer reads as it was signed"):
        actions.issue(allotment=allot(desk, order="TT-7790"), by=desk)


def test_a_lot_put_on_hold_issues_nothing(desk):
    allotment = allot(desk)
    plant.hold(plant.lot())

    with pytest.raises(WrongMove, match="on hold"):
        actions.issue(allotment=allotment, by=desk)


def test_a_code_has_a_hundred_and_thirty_bits():
    codes = {actions.new_code() for _ in range(200)}

    assert len(codes) == 200
    assert all(len(code) == 26 and not set(code) & set("ILOU") for code in codes)


def test_a_preview_has_no_number(desk):
    allotment = allot(desk)
    lot = plant.lot()
    decision = rules.check_is_released(lot)

    data = composing.compose(
        allotment=allotment,
        decision=decision,
        revision=rules.revision_for(lot, customer()),
        wishes=composing.Wishes(),
    )

    assert data.is_preview
    assert (data.number, data.code, data.record) == (None, None, None)
    assert not Certificate.objects.exists()


def test_the_file_is_printed_once_and_kept(desk):
    issued = actions.issue(allotment=allot(desk), by=desk)

    printed = print_one(issued, by=desk)

    with default_storage.open(printed.file) as file:
        assert file.read(5) == b"%PDF-"
    assert print_due() == []


def test_a_second_file_never_replaces_the_first(desk):
    issued = actions.issue(allotment=allot(desk), by=desk)
    first = actions.keep_file(issued=issued, content=b"%PDF-first", by=desk)

    again = actions.keep_file(issued=issued, content=b"%PDF-second", by=desk)

    assert again.sha256 == first.sha256


def test_what_was_issued_is_never_altered_even_inside_an_entry(desk):
    issued = actions.issue(allotment=allot(desk), by=desk)
    issued.data = issued.data.replace("280", "270")
    with (
        pytest.raises(Error, match="never altered"),
        entry(by=desk, verb="certificate_printed", about=issued.certificate),
    ):
        issued.save()


def test_verify_finds_an_altered_file_and_names_the_certificate(desk):
    issued = print_one(actions.issue(allotment=allot(desk), by=desk), by=desk)
    assert verify.verify().holds
    path = default_storage.path(issued.file)
    with Path(path).open("ab") as file:
        file.write(b" ")

    report = verify.verify()

    assert "Q1-C-2026-00001" in report.first_wrong
    assert "altered" in report.first_wrong


def test_verify_finds_a_missing_file(desk):
    issued = print_one(actions.issue(allotment=allot(desk), by=desk), by=desk)
    default_storage.delete(issued.file)

    assert "missing" in verify.verify().first_wrong


def test_raw_sql_alters_no_certificate(desk):
    actions.issue(allotment=allot(desk), by=desk)

    with pytest.raises(Error), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(
            "UPDATE certificates_certificaterevision SET state = 'withdrawn'"
        )
    assert CertificateRevision.objects.get().state == "current"


def past_the_guards(table, **columns):
    """Write as whoever owns the database could: with the gate open and no guard of the room."""
    names = ", ".join(f"{name} = %s" for name in columns)
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute("DROP TRIGGER certificates_issued_is_never_altered")
        else:
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
            cursor.execute(f"ALTER TABLE {table} DISABLE TRIGGER USER")
        doors.open_gate("default")
        cursor.execute(f"UPDATE {table} SET {names}", list(columns.values()))
        doors.close_gate("default")
        if connection.vendor == "postgresql":
            cursor.execute(f"ALTER TABLE {table} ENABLE TRIGGER USER")


def test_verify_finds_data_and_file_exchanged_together(desk):
    issued = print_one(actions.issue(allotment=allot(desk), by=desk), by=desk)
    other = b"%PDF-1.7 another paper"
    default_storage.delete(issued.file)
    default_storage.save(issued.file, ContentFile(other))

    past_the_guards(
        "certificates_certificaterevision",
        data=issued.data.replace('"280"', '"290"'),
        sha256=hashlib.sha256(other).hexdigest(),
    )

    assert "not those that were issued" in str(next(checks.wrong_files()))


def test_a_line_that_rests_on_something_else_stops_the_paper(desk):
    allotment = allot(desk)
    decision = rules.check_is_released(plant.lot())
    own = held_of(plant.lot())[0]
    moved = [
        replace(line, valid_until=date(2027, 1, 1)) if line.valid_until else line
        for line in own.lines
    ]

    rules.check_still_stands(decision, own.lines)
    with pytest.raises(WrongMove, match="no longer reads as it was signed"):
        rules.check_still_stands(decision, moved)
    assert allotment.pack_count == 4
