"""The list of certificates: narrowed by the filter, counted, and as rows of a sheet."""

import datetime as dt
import re
from collections.abc import Iterator, Mapping
from typing import Any

import django_tables2 as tables
from django.db.models import Count, Q, QuerySet
from django.http import HttpRequest
from django.urls import reverse

from lims.certificates.models import CertificateRevision
from lims.certificates.queries import issued, not_printed
from lims.screens.certificates.forms import FilterForm
from lims.screens.certificates.tables import CertificateTable
from lims.screens.certificates.words import answer, mass_of
from lims.screens.paging import ROWS
from lims.screens.zone import zone
from lims.sheets.exports import Column, Value
from lims.wording import dates

Rows = QuerySet[CertificateRevision]
LOT = "certificate__fill_lot"


def context(request: HttpRequest) -> dict[str, Any]:
    """Everything that the list shows."""
    form = FilterForm(request.GET)
    rows = narrowed(form)
    table = CertificateTable(rows)
    tables.RequestConfig(request, paginate={"per_page": ROWS}).configure(table)
    counted = CertificateRevision.objects.order_by().values_list("state")
    count = dict(counted.annotate(Count("pk")))
    query = request.GET.copy()
    query.pop("page", None)
    return {
        "form": form,
        "table": table,
        "answer": answer(count, not_printed().count()),
        "shown_count": table.paginator.count,
        "total": sum(count.values()),
        "is_narrowed": any(form.cleaned_data.values()),
        "query": query.urlencode(),
        "issue_address": reverse("certificates:can-leave"),
    }


def narrowed(form: FilterForm) -> Rows:
    """The revisions that fit; a box that cannot be read narrows nothing and says so."""
    form.is_valid()
    asked = form.cleaned_data
    rows = issued()
    if asked.get("q"):
        rows = rows.filter(_named(asked["q"]))
    for box, field in FIELDS.items():
        if asked.get(box):
            rows = rows.filter(**{field: asked[box]})
    if asked.get("issued_from"):
        start = dt.datetime.combine(asked["issued_from"], dt.time(), tzinfo=zone())
        rows = rows.filter(issued_at__gte=start)
    return rows


FIELDS: Mapping[str, str] = {
    "customer": "certificate__customer__code",
    "state": "state",
    "product": f"{LOT}__batch__product__code",
}


def _named(text: str) -> Q:
    number = re.sub(r"[\s-]+", "-", text.upper())
    return (
        Q(certificate__number__icontains=number)
        | Q(certificate__allotment__order__icontains=text)
        | Q(**{f"{LOT}__number__icontains": number})
    )


def columns(moment: dt.datetime) -> list[Column]:
    """The heads of the sheet; times are the laboratory's, in the zone that the unit names."""
    return [
        *(Column("Certificate"), Column("Revision"), Column("State")),
        *(Column("Customer"), Column("Order"), Column("Product"), Column("Fill lot")),
        Column("Issued", dates.zone_name(moment, zone())),
        *(Column("Packs", "packs"), Column("Net mass", "kg")),
        *(Column("Check code"), Column("SHA-256 of the file")),
    ]


def sheet_rows(rows: Rows) -> Iterator[list[Value]]:
    """The filtered rows with typed cells."""
    here = zone()
    for row in rows.iterator(chunk_size=500):
        certificate, allotment = row.certificate, row.certificate.allotment
        allotment.fill_lot = certificate.fill_lot
        yield [
            *(certificate.number, row.revision, row.state),
            *(certificate.customer.name, allotment.order),
            *(certificate.fill_lot.batch.product.code, str(certificate.fill_lot)),
            row.issued_at.astimezone(here).replace(tzinfo=None),
            *(allotment.pack_count, mass_of(allotment)),
            *(row.code, row.sha256 or None),
        ]
