"""Home, finding, help, the theme: the pages that belong to no place."""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from lims.people.permissions import Permission, allowed
from lims.screens.access import open_to_all, signed_in, staff
from lims.screens.batches.answers import person_of, see_other
from lims.screens.context import THEME_COOKIE, THEMES
from lims.screens.front import finding, helping, homes, parts
from lims.screens.front.signing import own_address

A_YEAR = 365 * 24 * 3600


@require_safe
@signed_in
def home(request: HttpRequest) -> HttpResponse:
    """The first page of the day, by what somebody is here."""
    return render(request, "front/home.html", homes.context(person_of(request)))


@require_safe
@staff
def find(request: HttpRequest) -> HttpResponse:
    found = finding.find(request.GET.get("q", ""))
    if found.exact:
        return redirect(found.exact)
    return render(request, "front/find.html", {"found": found})


@require_safe
@open_to_all
def show_help(request: HttpRequest) -> HttpResponse:
    knows = allowed(request.user, Permission.READ)
    return render(request, "front/help.html", helping.context(with_places=knows))


@require_POST
@open_to_all
def theme(request: HttpRequest) -> HttpResponse:
    """Light, dark, or as the device: kept in this browser only."""
    response = see_other(own_address(request, request.POST.get("next")))
    chosen = request.POST.get("theme", "")
    if chosen in THEMES:
        response.set_cookie(
            THEME_COOKIE,
            chosen,
            max_age=A_YEAR,
            secure=settings.SESSION_COOKIE_SECURE,
            httponly=True,
            samesite="Lax",
        )
    else:
        response.delete_cookie(THEME_COOKIE)
    return response


@require_safe
@staff
def show_parts(request: HttpRequest) -> HttpResponse:
    return render(request, "front/parts.html", parts.context(request))


def form_expired(request: HttpRequest, reason: str = "") -> HttpResponse:
    """The page for a form that was open too long: it says what to do, nothing was saved."""
    return render(request, "front/form_expired.html", status=403)
