"""Writing a draft of figures, figure by figure; approving it with a signature, or discarding it."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from lims.methods import actions, moves, queries
from lims.methods.figures import PRECISIONS, Figure
from lims.methods.models import FiguresRevision
from lims.people.permissions import Permission
from lims.record.refusals import ChangedSince
from lims.screens import exporting
from lims.screens.access import needs, staff
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of, see_other
from lims.screens.methods import presenting, revisions, sheets
from lims.screens.methods.figure_forms import (
    ApproveForm,
    ChooseForm,
    FigureForm,
    NoteForm,
    PlaceForm,
    VersionForm,
    figure_now,
)
from lims.screens.methods.keeping import asked, sent
from lims.screens.specifications.theirs import conflicts

PLACE = ("characteristic", "what", "level_from", "level_to")


def _page_of(revision: FiguresRevision) -> str:
    return reverse("methods:figures", args=[revision.pk])


@require_safe
@staff
def show_revision(request: HttpRequest, pk: int) -> HttpResponseBase:
    row = revisions.revision_or_404(pk)
    if exporting.is_asked(request):
        shown = sheets.figures_of(str(row.edition), revisions.chapters_of(row))
        return exporting.answer(request, shown)
    page = revisions.revision_page(
        row, person_of(request), request.GET.get("against", "")
    )
    return render(request, "methods/figures.html", page)


@asked
@needs(Permission.KEEP_METHODS)
def open_draft(request: HttpRequest, pk: int) -> HttpResponse:
    edition = presenting.edition_or_404(pk)
    form = NoteForm(sent(request))

    def act(given: dict[str, Any]) -> str:
        row = actions.open_figures_draft(
            edition=edition, note=given["note"], by=person_of(request)
        )
        messages.success(request, f"The draft of {row} is open.")
        return _page_of(row)

    return answer(
        request,
        "methods/figures_open.html",
        form,
        act,
        lambda: {
            "edition": edition,
            "in_force": queries.figures_in_force(edition),
            "draft": queries.figures_draft(edition),
        },
    )


@asked
@needs(Permission.KEEP_METHODS)
def set_figure(request: HttpRequest, pk: int) -> HttpResponse:
    revision = revisions.revision_or_404(pk)
    moves.check_is_draft(revision)
    begun = "characteristic" in request.GET
    choose = ChooseForm(revision.edition, request.GET if begun else None)
    if not choose.is_valid():
        context = {"revision": revision, "edition": revision.edition, "form": choose}
        return render(request, "methods/figure_choose.html", context)
    row, what = choose.cleaned_data["characteristic"], choose.cleaned_data["what"]
    old = _meant(request, revision, row.code, what)
    form = FigureForm(row, what, sent(request), initial=figure_now(old, revision))

    def act(given: dict[str, Any]) -> str:
        actions.set_figure(
            revision=revision,
            figure=form.figure,
            instead_of=old,
            version=given["version"],
            by=person_of(request),
        )
        messages.success(request, f"The {what} of “{row.in_full}” stands in the draft.")
        return _page_of(revision)

    def told() -> dict[str, Any]:
        fresh = revisions.revision_or_404(pk)
        stands = _meant(request, fresh, row.code, what)
        return {
            "revision": fresh,
            "edition": fresh.edition,
            "version": fresh.version,
            "characteristic": row,
            "what": what,
            "figure": stands,
            "conflicts": conflicts(form, figure_now(stands, fresh)),
        }

    return answer(request, "methods/figure.html", form, act, told)


def _meant(
    request: HttpRequest, revision: FiguresRevision, code: str, what: str
) -> Figure | None:
    """The figure that is to be changed; none where a new one is entered."""
    if what in PRECISIONS and "level_from" not in request.GET:
        return None
    levels = [request.GET.get(it, "") for it in ("level_from", "level_to")]
    return _at((code, what, *levels), revision)


def _at(place: tuple[str, ...], revision: FiguresRevision) -> Figure | None:
    figures = queries.figures_of(revision)
    return next((it for it in figures if it.place == place), None)


@require_POST
@needs(Permission.KEEP_METHODS)
def remove_figure(request: HttpRequest, pk: int) -> HttpResponse:
    row = revisions.revision_or_404(pk)
    form = PlaceForm(request.POST)
    given = form.cleaned_data if form.is_valid() else {}
    figure = _at(tuple(given.get(it, "") for it in PLACE), row)
    if figure is None:
        raise ChangedSince(
            "This figure is no longer in the draft: look at it as it is now."
        )
    actions.remove_figure(
        revision=row, figure=figure, version=given["version"], by=person_of(request)
    )
    messages.success(request, f"The {figure.what} is taken out: it is not stated.")
    return see_other(_page_of(row))


@require_POST
@needs(Permission.KEEP_METHODS)
def discard_draft(request: HttpRequest, pk: int) -> HttpResponse:
    row = revisions.revision_or_404(pk)
    form = VersionForm(request.POST)
    seen = form.cleaned_data["version"] if form.is_valid() else 0
    edition = actions.discard_draft(revision=row, version=seen, by=person_of(request))
    messages.success(
        request, f"The draft of {edition} is discarded. The record keeps it."
    )
    return see_other(reverse("methods:one", args=[edition.method_id]))


@asked
@needs(Permission.APPROVE_FIGURES)
def approve(request: HttpRequest, pk: int) -> HttpResponse:
    row, person = revisions.revision_or_404(pk), person_of(request)
    moves.check_is_draft(row)
    initial = {"version": row.version}
    form = ApproveForm(sent(request), name=person.name, initial=initial)

    def act(given: dict[str, Any]) -> str:
        actions.approve_figures(revision=row, **given, by=person)
        messages.success(request, f"The figures of {row.edition} are in force.")
        return _page_of(row)

    return answer(
        request,
        "methods/figures_approve.html",
        form,
        act,
        lambda: revisions.approve_page(revisions.revision_or_404(pk), person),
    )
