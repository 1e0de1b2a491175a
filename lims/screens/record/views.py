"""Record: who did what, when and why. All of it, what is about one thing, one entry, and whether it holds."""

from typing import Any

from django.core.paginator import Page
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from lims.people.permissions import Permission, check
from lims.record import queries
from lims.record.models import Entry
from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.paging import page_of
from lims.screens.record import presenting, proving, sheets
from lims.screens.record.forms import FilterForm, HeadForm


@require_safe
@staff
def show_list(request: HttpRequest) -> HttpResponseBase:
    form = FilterForm(request.GET)
    entries = presenting.narrowed(form)
    if exporting.is_asked(request):
        return sheets.answer(request, entries)
    page = page_of(request, entries)
    shown = presenting.lines(page.object_list)
    asked = request.GET.copy()
    asked.pop("page", None)
    context = {
        "form": form,
        "page": page,
        "days": presenting.days(shown),
        "answer": presenting.list_answer(page, is_narrowed=any(asked.values())),
        "query": asked.urlencode(),
    }
    return render(request, "record/list.html", context)


@require_safe
@staff
def show_about(request: HttpRequest, kind: str, key: str) -> HttpResponse:
    entries = presenting.about_entries(kind, key)
    page: Page[Entry] = page_of(request, entries)
    if not page.paginator.count:
        return _came_with(kind)
    context = presenting.about_page(kind, key, entries, page)
    return render(request, "record/about.html", context)


def _came_with(kind: str) -> HttpResponse:
    """What came with the reference data is told there, until something is done to it."""
    reference = presenting.CAME_WITH.get(kind, "")
    if not presenting.about_entries(presenting.REFERENCE, reference).exists():
        raise Http404
    return redirect("record:about", presenting.REFERENCE, reference)


@require_safe
@staff
def show_entry(request: HttpRequest, seq: int) -> HttpResponse:
    entry = queries.by_number(seq)
    if entry is None:
        raise Http404
    return render(request, "record/entry.html", presenting.entry_page(entry))


@require_http_methods(["GET", "HEAD", "POST"])
@staff
def verify(request: HttpRequest) -> HttpResponse:
    """What a verification can show; sent, it walks the record and says what it found."""
    context: dict[str, Any] = proving.page(request.user)
    if request.method != "POST":
        return render(request, "record/verify.html", context | {"form": HeadForm()})
    check(request.user, Permission.VERIFY_RECORD)
    form = HeadForm(request.POST)
    if not form.is_valid():
        return render(
            request, "record/verify.html", context | {"form": form}, status=422
        )
    context |= proving.found(form) | {"form": form}
    return render(request, "record/verify.html", context)
