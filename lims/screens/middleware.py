"""What every answer goes through: signs that no text has are turned away, staff pages are kept nowhere, and a refusal becomes a page with a way back."""

import re
from collections.abc import Callable

from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import render
from django.urls import reverse
from django.utils.cache import patch_cache_control
from django.utils.http import url_has_allowed_host_and_scheme

from lims.record.refusals import BadInput, ChangedSince, NotAllowed, Refusal, WrongMove
from lims.screens import zone

Answer = Callable[[HttpRequest], HttpResponse]

CONTROL = re.compile(r"[\x00-\x1f\x7f]")
BREAKS = dict.fromkeys(map(ord, "\t\r\n"), " ")

# The answer's status and what the page says first.
KINDS: tuple[tuple[type[Refusal], int, str], ...] = (
    (NotAllowed, 403, "You may not do this"),
    (ChangedSince, 409, "It has changed since you opened it"),
    (WrongMove, 409, "This cannot be done now"),
    (BadInput, 422, "One box needs another look"),
    (Refusal, 409, "This cannot be done now"),
)


class StaffPages:
    """Knows the site for the length of a request, and lets no browser keep a staff page."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        zone.open_request()
        try:
            response = self.get_response(request)
        finally:
            zone.close_request()
        if request.user.is_authenticated:
            patch_cache_control(response, private=True, no_store=True)
        return response


class Refusals:
    """Turns a refusal that no view caught into its sentence."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(
        self, request: HttpRequest, exception: Exception
    ) -> HttpResponse | None:
        if not isinstance(exception, Refusal):
            return None
        status, heading = _kind(exception)
        part = bool(getattr(request, "htmx", False))
        template = "_parts/notice.html" if part else "_parts/refused.html"
        told = {
            "heading": heading,
            "title": heading,
            "text": exception.sentence,
            "sentence": exception.sentence,
            "tone": "bad",
            "role": "alert",
            "back": way_back(request),
        }
        return render(request, template, told, status=status)


class PrintableOnly:
    """Turns away control characters, which no database stores and no person types."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if CONTROL.search(request.path_info):
            raise Http404
        if _has_control(request.GET) or (
            request.method == "POST" and _has_control(request.POST)
        ):
            return render(request, "_parts/refused.html", _told(request), status=400)
        return self.get_response(request)


def _has_control(sent: QueryDict) -> bool:
    return any(
        CONTROL.search(text.translate(BREAKS))
        for key, values in sent.lists()
        for text in (key, *values)
    )


def _told(request: HttpRequest) -> dict[str, str]:
    return {
        "heading": "The request cannot be read",
        "sentence": "It holds a sign that cannot be printed. Type the text again "
        "instead of pasting it.",
        "back": way_back(request),
    }


def _kind(refusal: Refusal) -> tuple[int, str]:
    return next(
        (status, heading)
        for kind, status, heading in KINDS
        if isinstance(refusal, kind)
    )


def way_back(request: HttpRequest) -> str:
    """The page that the person came from, if it is one of ours."""
    came_from = request.headers.get("Referer", "")
    ours = url_has_allowed_host_and_scheme(
        came_from, {request.get_host()}, require_https=request.is_secure()
    )
    return came_from if ours else reverse("front:home")
