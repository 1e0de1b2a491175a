"""Certificates, allotments and what is left of released lots, as rows of a sheet."""

from collections.abc import Iterable, Iterator

from lims.certificates.models import Allotment, CertificateRevision
from lims.certificates.queries import lots_with_packs_left
from lims.screens.certificates.words import mass_of
from lims.screens.exporting import clock, on_the_clock
from lims.sheets.exports import Export, Row, columns, typed


def certificates(rows: Iterable[CertificateRevision]) -> Export:
    """One revision a row, as the list shows them."""
    heads = columns(
        *("Certificate", "Revision", "State", "Customer", "Order", "Product"),
        *("Fill lot", "Issued", "Packs", "Net mass", "Check code"),
        "SHA-256 of the file",
        issued=clock(),
        packs="packs",
        net_mass="kg",
    )
    return Export("certificates", heads, _certificates(rows))


def _certificates(rows: Iterable[CertificateRevision]) -> Iterator[Row]:
    at = on_the_clock()
    for row in rows:
        certificate, allotment = row.certificate, row.certificate.allotment
        allotment.fill_lot = certificate.fill_lot  # fetched with the row already
        yield [
            *(certificate.number, row.revision, row.state),
            *(certificate.customer.name, allotment.order),
            *(certificate.fill_lot.batch.product.code, str(certificate.fill_lot)),
            *(at(row.issued_at), allotment.pack_count, mass_of(allotment)),
            *(row.code, row.sha256 or None),
        ]


def allotments() -> Export:
    """Every allotment, with its certificate where one is issued."""
    heads = columns(
        *("Fill lot", "Product", "Customer", "Order", "Packs", "Net mass"),
        *("Allotted", "By", "Certificate", "Given back because"),
        packs="packs",
        net_mass="kg",
        allotted=clock(),
    )
    return Export("allotments", heads, _allotments())


def _allotments() -> Iterator[Row]:
    at = on_the_clock()
    rows = Allotment.objects.select_related(
        "fill_lot__batch__product", "customer", "allotted_by", "certificate"
    ).order_by("allotted_at", "id")
    for row in rows.iterator(chunk_size=500):
        paper = getattr(row, "certificate", None)
        yield [
            *(str(row.fill_lot), row.fill_lot.batch.product.code),
            *(row.customer.name, row.order, row.pack_count, mass_of(row)),
            *(at(row.allotted_at), row.allotted_by.name),
            *(paper.number if paper else None, row.reason),
        ]


def packs_left() -> Export:
    """Released lots of which something is left, what must leave first at the head."""
    heads = columns(
        *("Fill lot", "Product", "Pack", "Mass of a pack", "Left", "Of"),
        *("Must leave", "Released", "Order"),
        mass_of_a_pack="kg",
        left="packs",
        of="packs",
        released=clock(),
    )
    return Export("packs-left", heads, _packs_left())


def _packs_left() -> Iterator[Row]:
    at = on_the_clock()
    for lot in lots_with_packs_left().iterator(chunk_size=500):
        yield [
            *(str(lot), lot.batch.product.code, lot.pack, typed(lot.pack_kg)),
            lot.left,  # type: ignore[attr-defined]
            *(lot.pack_count, lot.leaves_on, at(lot.state_since), lot.order_note),
        ]
