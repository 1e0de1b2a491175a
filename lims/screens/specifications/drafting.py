"""Writing a draft, line by line, and approving it with a signature."""

from typing import Any
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from lims.methods import queries as methods
from lims.people.permissions import Permission
from lims.products import actions, queries, rules, widths
from lims.products.deciding import rule_in_words
from lims.products.models import Requirement
from lims.record import queries as record
from lims.screens.access import needs
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of, see_other
from lims.screens.specifications import line_forms, presenting, revisions, words
from lims.screens.specifications.forms import (
    ApproveForm,
    DraftForm,
    OpenDraftForm,
    VersionForm,
)
from lims.screens.specifications.keeping import asked, sent
from lims.screens.specifications.line_forms import ChooseForm, LineForm
from lims.screens.specifications.offers import offers
from lims.screens.specifications.theirs import conflicts


def _page_of(pk: int) -> str:
    return reverse("specifications:revision", args=[pk])


def _copy_page_of(pk: int, request: HttpRequest) -> str:
    """On to copying, when the draft was opened from a published specification's page."""
    if not request.GET.get("published"):
        return ""
    query = urlencode({"published": request.GET["published"]})
    return f"{reverse('specifications:published-copy', args=[pk])}?{query}"


@asked
@needs(Permission.DRAFT_SPECIFICATIONS)
def open_draft(request: HttpRequest, code: str) -> HttpResponse:
    product = presenting.product_or_404(code)
    wanted = request.GET.get("customer", "")
    had = queries.revisions_of(product).filter(
        specification__customer__code=wanted or None
    )
    number = revisions.next_number(had.values_list("number", flat=True))
    form = OpenDraftForm(sent(request), initial={"customer": wanted, "number": number})

    def act(given: dict[str, Any]) -> str:
        row = actions.open_draft(product=product, **given, by=person_of(request))
        messages.success(request, f"Draft {row} is open.")
        return _copy_page_of(row.pk, request) or _page_of(row.pk)

    return answer(
        request,
        "specifications/draft_open.html",
        form,
        act,
        lambda: {"product": product},
    )


@asked
@needs(Permission.DRAFT_SPECIFICATIONS)
def change_draft(request: HttpRequest, pk: int) -> HttpResponse:
    row = revisions.revision_or_404(pk)
    rules.check_is_draft(row)
    form = DraftForm(sent(request), initial=revisions.draft_now(row))

    def act(given: dict[str, Any]) -> str:
        actions.change_draft(revision=row, **given, by=person_of(request))
        messages.success(request, "The head of the draft is changed.")
        return _page_of(pk)

    def told() -> dict[str, Any]:
        fresh = revisions.revision_or_404(pk)
        now = revisions.draft_now(fresh)
        return {
            "revision": fresh,
            "version": fresh.version,
            "conflicts": conflicts(form, now),
        }

    return answer(request, "specifications/draft_change.html", form, act, told)


@asked
@needs(Permission.DRAFT_SPECIFICATIONS)
def add_line(request: HttpRequest, pk: int) -> HttpResponse:
    revision = revisions.revision_or_404(pk)
    rules.check_is_draft(revision)
    choose = ChooseForm(request.GET if "characteristic" in request.GET else None)
    if not choose.is_valid():
        context = {"revision": revision, "form": choose}
        return render(request, "specifications/line_choose.html", context)
    characteristic = choose.cleaned_data["characteristic"]
    editions = methods.editions_for(characteristic)
    initial = {
        "kind": Requirement.Kind.LIMIT,
        "scope": Requirement.Scope.FILL_LOT,
        "edition": editions[0].pk if len(editions) == 1 else None,
        "version": revision.version,
    }
    form = LineForm(characteristic, editions, sent(request), initial=initial)

    def act(given: dict[str, Any]) -> str:
        revisions.check_not_asked_yet(revision, form.line)
        actions.set_requirement(
            revision=revision,
            line=form.line,
            version=given["version"],
            by=person_of(request),
        )
        messages.success(request, f"A line for “{characteristic.in_full}” is added.")
        return _page_of(pk)

    row = Requirement(characteristic=characteristic, kind=Requirement.Kind.LIMIT)
    return answer(
        request,
        "specifications/line_new.html",
        form,
        act,
        lambda: _line_context(pk, row),
    )


@asked
@needs(Permission.DRAFT_SPECIFICATIONS)
def change_line(request: HttpRequest, pk: int) -> HttpResponse:
    row = revisions.line_or_404(pk)
    revision = row.revision
    rules.check_is_draft(revision)
    form = LineForm(
        row.characteristic,
        methods.editions_for(row.characteristic),
        sent(request),
        initial=line_forms.now_of(row, revision.version),
        kind=row.kind,
    )

    def act(given: dict[str, Any]) -> str:
        actions.set_requirement(
            revision=revision,
            line=form.line,
            version=given["version"],
            by=person_of(request),
        )
        messages.success(request, f"Line {row.line} is changed.")
        return _page_of(revision.pk)

    def told() -> dict[str, Any]:
        fresh = revisions.line_or_404(pk)
        now = line_forms.now_of(fresh, fresh.revision.version)
        return _line_context(revision.pk, fresh) | {
            "line": fresh,
            "conflicts": conflicts(form, now),
        }

    return answer(request, "specifications/line_change.html", form, act, told)


def _line_context(pk: int, row: Requirement) -> dict[str, Any]:
    """The draft as it stands now, and what the product's own revision asks at most."""
    revision = revisions.revision_or_404(pk)
    own = None
    if revision.specification.customer is not None:
        in_force = queries.in_force(revision.specification.product)
        own = widths.own_limit(in_force, row)
    editions = methods.editions_for(row.characteristic)
    return {
        "revision": revision,
        "version": revision.version,
        "characteristic": row.characteristic,
        "own": words.must(own) if own else "",
        "offers": offers(row.characteristic, editions, (row.lower, row.upper)),
        "rule": rule_in_words(row) if row.pk else "",
        "origin": words.origin(row),
    }


@require_POST
@needs(Permission.DRAFT_SPECIFICATIONS)
def remove_line(request: HttpRequest, pk: int) -> HttpResponse:
    row = revisions.line_or_404(pk)
    form = VersionForm(request.POST)
    seen = form.cleaned_data["version"] if form.is_valid() else 0
    actions.remove_requirement(requirement=row, version=seen, by=person_of(request))
    messages.success(
        request, f"The line for “{row.characteristic.in_full}” is taken out."
    )
    return see_other(_page_of(row.revision_id))


@asked
@needs(Permission.APPROVE_SPECIFICATIONS)
def approve(request: HttpRequest, pk: int) -> HttpResponse:
    row, person = revisions.revision_or_404(pk), person_of(request)
    rules.check_is_draft(row)
    initial = {"version": row.version, "stood": record.tail().seq}
    form = ApproveForm(sent(request), name=person.name, initial=initial)

    def act(given: dict[str, Any]) -> str:
        actions.approve_revision(
            revision=row,
            password=given["password"],
            version=given["version"],
            by=person,
        )
        messages.success(request, f"Specification {row} is approved and in force.")
        return _page_of(pk)

    def told() -> dict[str, Any]:
        return revisions.approve_page(revisions.revision_or_404(pk), person, form)

    return answer(request, "specifications/approve.html", form, act, told)
