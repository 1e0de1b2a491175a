"""The list of certificates: narrowed by the filter, and counted."""

import datetime as dt
import re
from collections.abc import Mapping
from typing import Any

import django_tables2 as tables
from django.db.models import Count, Q, QuerySet
from django.http import HttpRequest
from django.urls import reverse

from lims.certificates.models import CertificateRevision
from lims.certificates.queries import issued, not_printed
from lims.screens.certificates.forms import FilterForm
from lims.screens.certificates.tables import CertificateTable
from lims.screens.certificates.words import answer
from lims.screens.paging import ROWS
from lims.screens.zone import zone

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
    return {
        "form": form,
        "table": table,
        "answer": answer(count, not_printed().count()),
        "shown_count": table.paginator.count,
        "total": sum(count.values()),
        "is_narrowed": any(form.cleaned_data.values()),
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
