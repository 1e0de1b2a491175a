"""Set-up: who works here, for which site, with which settings, and who may what."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import (
    require_http_methods,
    require_POST,
    require_safe,
)

from lims.certificates import actions as certificates
from lims.people import actions
from lims.people.permissions import Permission
from lims.screens.access import needs, staff
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.setup import presenting
from lims.screens.setup.forms import NumbersForm, SiteForm

asked = require_http_methods(["GET", "HEAD", "POST"])


@require_safe
@staff
def show(request: HttpRequest) -> HttpResponse:
    page = presenting.list_page(person_of(request))
    return render(request, "setup/list.html", page)


@asked
@needs(Permission.KEEP_SITE)
def change_site(request: HttpRequest) -> HttpResponse:
    form = (
        SiteForm(request.POST)
        if request.method == "POST"
        else presenting.site_form(presenting.site_now())
    )

    def act(given: dict[str, Any]) -> str:
        site = presenting.site_now()
        actions.change_site(site=site, **given, by=person_of(request))
        messages.success(request, "The settings of the site are changed.")
        return reverse("setup:list")

    return answer(
        request,
        "setup/site.html",
        form,
        act,
        lambda: presenting.site_page({"site": form}),
    )


@require_POST
@needs(Permission.KEEP_SITE)
def begin_numbers(request: HttpRequest) -> HttpResponse:
    """Say where certificates begin, while none is issued."""
    form = NumbersForm(request.POST)

    def act(given: dict[str, Any]) -> str:
        first = given["first_certificate"]
        certificates.begin_numbers_at(first=first, by=person_of(request))
        messages.success(request, f"The first certificate will have number {first}.")
        return reverse("setup:list")

    return answer(
        request,
        "setup/site.html",
        form,
        act,
        lambda: presenting.site_page({"numbers": form}),
    )
