"""Published specifications to start from: the list, one of them, and copying its lines into a draft."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.db.models import Count
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from lims.people.permissions import Permission
from lims.products import actions, copying, queries, rules
from lims.products.copying import Demand
from lims.products.models import Product, PublishedSpecification, Revision
from lims.screens import exporting
from lims.screens.access import needs, staff
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.specifications import presenting, revisions, sheets, words
from lims.screens.specifications.copy_forms import CopyForm, OriginForm
from lims.screens.specifications.designation import decoded
from lims.screens.specifications.keeping import asked, sent


@dataclass(frozen=True)
class DemandRow:
    """One demand in words, with where it stands."""

    demand: Demand
    must: str
    standing: str


@require_safe
@staff
def show_list(request: HttpRequest) -> HttpResponseBase:
    rows = all_published()
    if exporting.is_asked(request):
        lists = (sheets.published(rows), sheets.published_lines())
        return exporting.answer(request, *lists)
    context = {
        "groups": by_issuer(rows),
        "answer": _answer(len(rows)),
        "may": presenting.may(person_of(request)),
    }
    return render(request, "specifications/published_list.html", context)


def all_published() -> list[PublishedSpecification]:
    counted = PublishedSpecification.objects.annotate(line_count=Count("lines"))
    return list(counted)


@dataclass(frozen=True)
class Issuer:
    """Whoever publishes specifications, with the source where all have the same."""

    name: str
    rows: list[PublishedSpecification]
    source: str


def by_issuer(rows: Iterable[PublishedSpecification]) -> list[Issuer]:
    """The published specifications under whoever publishes them."""
    found: dict[str, list[PublishedSpecification]] = {}
    for row in rows:
        found.setdefault(row.issuer, []).append(row)
    return [
        Issuer(name, rows, the_one(it.source for it in rows))
        for name, rows in sorted(found.items())
    ]


def the_one(texts: Iterable[str]) -> str:
    """The text that all say; nothing where they differ."""
    found = set(texts)
    return found.pop() if len(found) == 1 else ""


def _answer(count: int) -> str:
    if not count:
        return "None is kept here yet: the reference data brings them."
    return (
        f"{words.number_of(count, 'published specification')} to start from. Their lines "
        "are copied into a draft; from there they are the plant's own."
    )


@require_safe
@staff
def show_one(request: HttpRequest, code: str) -> HttpResponse:
    row = published_or_404(code)
    rows = [demand_row(it) for it in copying.demands_of(row)]
    context = {
        "published": row,
        "parts": copying.parts_of(row),
        "rows": rows,
        "source": the_one(it.demand.source for it in rows),
        "products": row.products.all(),
        "others": Product.objects.exclude(published=row),
        "answer": _asks(row, rows),
        "decoded": decoded(row.code)[0],
        "may": presenting.may(person_of(request)),
    }
    return render(request, "specifications/published.html", context)


def published_or_404(code: str) -> PublishedSpecification:
    found = PublishedSpecification.objects.filter(code=code).first()
    if found is None:
        raise Http404
    return found


def demand_row(demand: Demand) -> DemandRow:
    standing = words.standing(demand.standing, demand.checked_by)
    return DemandRow(demand, words.demanded(demand), standing)


def _asks(row: PublishedSpecification, rows: list[DemandRow]) -> str:
    both = (
        f" Of {' and '.join(row.parts)}, which must all be met, the stricter stands."
        if row.parts
        else ""
    )
    asks = words.number_of(len(rows), "characteristic")
    memory = sum(it.standing.endswith("not checked") for it in rows)
    told = (
        f" {memory} of its lines {'is' if memory == 1 else 'are'} quoted from memory and "
        "not checked: compare with your own copy."
        if memory
        else ""
    )
    return f"{row.code} asks for {asks}.{both}{told}"


@asked
@needs(Permission.DRAFT_SPECIFICATIONS)
def copy_lines(request: HttpRequest, pk: int) -> HttpResponse:
    row = revisions.revision_or_404(pk)
    rules.check_is_draft(row)
    named = request.GET.get("published", "") or _named_by(row)
    initial = {"published": named, "version": row.version}
    form = CopyForm(sent(request), initial=initial)

    def act(given: dict[str, Any]) -> str:
        copied = actions.copy_published_lines(
            revision=row, **given, by=person_of(request)
        )
        told = words.number_of(len(copied.lines), "line")
        verb = "is" if len(copied.lines) == 1 else "are"
        messages.success(request, f"{told} {verb} copied from {given['published']}.")
        for sentence in copied.left:
            messages.warning(request, sentence)
        return reverse("specifications:revision", args=[pk])

    def told() -> dict[str, Any]:
        fresh = revisions.revision_or_404(pk)
        return {"revision": fresh, "version": fresh.version}

    return answer(request, "specifications/published_copy.html", form, act, told)


def _named_by(row: Revision) -> str:
    published = queries.product(row.specification.product.code).published
    return published.code if published else ""


@asked
@needs(Permission.DRAFT_SPECIFICATIONS)
def check_origin(request: HttpRequest, pk: int) -> HttpResponse:
    row = revisions.line_or_404(pk)
    rules.check_is_draft(row.revision)
    initial = {"checked_by": row.origin_checked_by, "version": row.revision.version}
    form = OriginForm(sent(request), initial=initial)

    def act(given: dict[str, Any]) -> str:
        actions.check_origin(requirement=row, **given, by=person_of(request))
        messages.success(request, f"The check of line {row.line} is noted.")
        return reverse("specifications:revision", args=[row.revision_id])

    def told() -> dict[str, Any]:
        fresh = revisions.line_or_404(pk)
        return {
            "line": fresh,
            "must": words.must(fresh),
            "revision": fresh.revision,
            "version": fresh.revision.version,
        }

    return answer(request, "specifications/origin.html", form, act, told)
