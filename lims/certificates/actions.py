"""From released lots to papers: allot packs, give them back, issue the certificate, keep its file."""

import hashlib
import secrets

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage

from lims.batches.models import FillLot
from lims.certificates import composing, rules
from lims.certificates.data import RecordHead
from lims.certificates.models import Allotment, Certificate, CertificateRevision
from lims.people.checks import check_first_certificate
from lims.people.models import Person, Site
from lims.people.permissions import Permission, check
from lims.people.queries import site_zone, the_site
from lims.products.models import Customer
from lims.record.clock import now
from lims.record.filled import check_filled
from lims.record.gate import entry
from lims.record.refusals import BadInput, WrongMove

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # Crockford: no I, L, O, U
CODE_LENGTH = 26  # of 5 bits each: 130 bits


def allot(
    *,
    fill_lot: FillLot,
    customer: Customer,
    order: str,
    pack_count: int,
    by: Person,
) -> Allotment:
    """Allot packs of a released lot to a customer's order, if the lot meets what that customer asks."""
    check(by, Permission.ALLOT_PACKS)
    order = rules.check_order(order)
    with entry(by=by, verb="packs_allotted", about=fill_lot):
        lot = FillLot.objects.select_related("batch__product").get(pk=fill_lot.pk)
        decision = rules.check_is_released(lot)
        rules.check_met_for(decision, rules.revision_for(lot, customer))
        rules.check_packs(lot, pack_count)
        allotment = Allotment(
            fill_lot=lot,
            customer=customer,
            order=order,
            pack_count=pack_count,
            allotted_at=now(),
            allotted_by=by,
        )
        check_filled(allotment)
        allotment.save()
    return allotment


def give_back(*, allotment: Allotment, reason: str, by: Person) -> Allotment:
    """Give packs back to the lot while no certificate was issued for them."""
    check(by, Permission.ALLOT_PACKS)
    reason = " ".join(reason.split())
    if len(reason) < 3:
        raise BadInput("Say why the packs are given back.", field="reason")
    with entry(by=by, verb="packs_given_back", about=allotment.fill_lot, reason=reason):
        current = Allotment.objects.select_related("fill_lot").get(pk=allotment.pk)
        rules.check_not_issued(current)
        current.is_given_back, current.reason = True, reason
        check_filled(current)
        current.save()
    return current


def issue(
    *, allotment: Allotment, wishes: composing.Wishes | None = None, by: Person
) -> CertificateRevision:
    """Issue the certificate for allotted packs: number, frozen data, check code. The file is printed afterwards, outside this entry."""
    check(by, Permission.ISSUE_CERTIFICATES)
    site = the_site()
    with entry(by=by, verb="certificate_issued", about=allotment.fill_lot) as record:
        current = Allotment.objects.select_related(
            "fill_lot__batch__product__sampling_plan", "customer"
        ).get(pk=allotment.pk)
        rules.check_not_issued(current)
        decision = rules.check_is_released(current.fill_lot)
        revision = rules.revision_for(current.fill_lot, current.customer)
        rules.check_met_for(decision, revision)
        certificate = _number(current, site_code=site.code)
        certificate.save()
        record.about = certificate
        issued = CertificateRevision(
            certificate=certificate,
            revision=0,
            code=new_code(),
            decision=decision,
            held_against=revision,
            issued_at=now(),
            issued_by=by,
        )
        issued.data = composing.compose(
            allotment=current,
            decision=decision,
            revision=revision,
            wishes=wishes or composing.Wishes(),
            issued=issued,
            record=RecordHead(entries=record.previous_seq, head=record.previous_head),
        ).to_json()
        issued.save()
    return issued


def _number(allotment: Allotment, *, site_code: str) -> Certificate:
    """The next number of the site and year. The record's lock lets one issue at a time, so none is skipped."""
    year = now().astimezone(site_zone()).year
    last = (
        Certificate.objects.filter(site=site_code, year=year)
        .order_by("-sequence")
        .values_list("sequence", flat=True)
        .first()
    )
    sequence = last + 1 if last else _first_of_the_year(site_code)
    return Certificate(
        number=f"{site_code}-C-{year}-{sequence:05d}",
        site=site_code,
        year=year,
        sequence=sequence,
        fill_lot=allotment.fill_lot,
        customer=allotment.customer,
        allotment=allotment,
    )


def _first_of_the_year(site_code: str) -> int:
    """One, but for the very first certificate of a laboratory that goes on from another series."""
    if Certificate.objects.filter(site=site_code).exists():
        return 1
    return Site.objects.get(code=site_code).first_certificate


def begin_numbers_at(*, first: int, by: Person) -> Site:
    """Say at which number certificates begin here, before the first is issued."""
    check(by, Permission.KEEP_SITE)
    first = check_first_certificate(first)
    rules.check_no_certificate_yet()
    with entry(by=by, verb="certificate_numbers_begun") as record:
        rules.check_no_certificate_yet()
        record.about = site = Site.objects.get()
        if site.first_certificate == first:
            raise WrongMove(f"Certificates begin at {first} already.")
        site.first_certificate = first
        site.save()
    return site


def new_code() -> str:
    """26 random characters that open the check page of one revision."""
    return "".join(secrets.choice(ALPHABET) for _ in range(CODE_LENGTH))


def keep_file(
    *, issued: CertificateRevision, content: bytes, by: Person | None
) -> CertificateRevision:
    """Keep the printed file with its fingerprint. Printing twice keeps the first."""
    with entry(by=by, verb="certificate_printed", about=issued.certificate) as record:
        current = CertificateRevision.objects.select_related("certificate").get(
            pk=issued.pk
        )
        if current.file:
            record.note = "was printed before; the first file stands"
            return current
        name = f"certificates/{current.issued_at:%Y}/{secrets.token_hex(16)}.pdf"
        current.file = default_storage.save(name, ContentFile(content))
        current.sha256 = hashlib.sha256(content).hexdigest()
        current.printed_at = now()
        current.save()
    return current
