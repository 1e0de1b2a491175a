"""Set-up: the people. Inviting, roles given and taken back, accounts closed and opened; nobody chooses another's password."""

from collections.abc import Callable
from typing import Any

import django_tables2 as tables
from django.contrib import messages
from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import (
    require_http_methods,
    require_POST,
    require_safe,
)

from lims.people import actions, queries
from lims.people.permissions import Permission, allowed
from lims.screens import exporting
from lims.screens.access import needs, staff
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.paging import ROWS
from lims.screens.setup import forms, presenting, sheets
from lims.screens.setup.presenting import LINK_FOR
from lims.screens.setup.tables import people_table

ACTS: dict[str, tuple[type[Form], Callable[..., object], str]] = {
    "give-role": (forms.GiveForm, actions.give_role, "{} has the role."),
    "take-role": (forms.TakeForm, actions.take_role, "The role of {} is taken back."),
    "change": (forms.PersonForm, actions.change_person, "{} is changed."),
    "deactivate": (
        forms.ReasonForm,
        actions.deactivate,
        "The account of {} is deactivated, and its sessions are ended.",
    ),
    "reactivate": (
        forms.ReasonForm,
        actions.reactivate,
        "The account of {} is open again. Hand over the link below.",
    ),
    "reset": (
        forms.ReasonForm,
        actions.start_password_reset,
        "The old password of {} is void. Hand over the link below.",
    ),
}
GIVES_LINK = {"reactivate", "reset"}


@require_safe
@staff
def show_all(request: HttpRequest) -> HttpResponseBase:
    may_keep = allowed(person_of(request), Permission.KEEP_PEOPLE)
    table = people_table(queries.people(), with_mail=may_keep)
    if exporting.is_asked(request):
        shown = exporting.rows_of(request, table)
        return exporting.answer(request, sheets.people(shown, with_mail=may_keep))
    tables.RequestConfig(request, paginate={"per_page": ROWS}).configure(table)
    context = {"table": table, "may_keep": may_keep, "count": table.paginator.count}
    return render(request, "setup/people.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Permission.KEEP_PEOPLE)
def invite(request: HttpRequest) -> HttpResponse:
    form = forms.InviteForm(request.POST if request.method == "POST" else None)

    def act(given: dict[str, Any]) -> str:
        given["given"] = given.pop("roles")
        person = actions.invite(**given, by=person_of(request))
        messages.success(
            request, f"{person.name} is invited. Hand over the link below."
        )
        request.session[LINK_FOR] = person.account
        return reverse("setup:person", args=[person.account])

    return answer(request, "setup/person_new.html", form, act, dict)


@require_safe
@staff
def show_one(request: HttpRequest, account: str) -> HttpResponse:
    """One person; right after inviting or a reset also the link, this once."""
    by = person_of(request)
    context = presenting.person_page(account, by)
    person = context["person"]
    if context["may_keep"] and request.session.get(LINK_FOR) == person.account:
        del request.session[LINK_FOR]
        context["link"] = presenting.link_of(request, person)
    return render(request, "setup/person.html", context)


@require_POST
@needs(Permission.KEEP_PEOPLE)
def act(request: HttpRequest, account: str, key: str) -> HttpResponse:
    """One act on an account; a refusal stands in its form on the person's page."""
    if key not in ACTS:
        raise Http404
    kind, action, done = ACTS[key]
    person, by = presenting.person_or_404(account), person_of(request)
    form = kind(request.POST, auto_id=f"{key}-%s")

    def do(given: dict[str, Any]) -> str:
        action(person=person, **given, by=by)
        messages.success(request, done.format(person.name))
        if key in GIVES_LINK:
            request.session[LINK_FOR] = person.account
        return reverse("setup:person", args=[person.account])

    def told() -> dict[str, Any]:
        return presenting.person_page(account, by, {key: form})

    return answer(request, "setup/person.html", form, do, told)
