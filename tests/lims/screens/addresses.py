"""Addresses for the tests of what all pages share: the places are stubs, a few views try the rest."""

from django.contrib import messages
from django.core.exceptions import BadRequest, PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import include, path

from lims.people.permissions import Permission
from lims.record.refusals import BadInput, ChangedSince, WrongMove
from lims.screens.access import needs, open_to_all, signed_in, staff
from lims.screens.context import PLACES
from lims.screens.front import parts

FRONT = (
    *("home", "sign-in", "sign-out", "find", "help", "theme", "password"),
    *("first-password", "check"),
)


@open_to_all
def stub(request: HttpRequest) -> HttpResponse:
    return HttpResponse("stub")


@staff
def show_parts(request: HttpRequest) -> HttpResponse:
    messages.success(request, "The reading is saved.")
    return render(request, "front/parts.html", parts.context(request))


@needs(Permission.AUTHORISE_LOTS)
def authorise(request: HttpRequest) -> HttpResponse:
    return HttpResponse("authorised")


@signed_in
def own_account(request: HttpRequest) -> HttpResponse:
    return HttpResponse("own account")


def refuse(request: HttpRequest, how: str) -> HttpResponse:
    refusals: dict[str, Exception] = {
        "move": WrongMove("Fill lot Q1-26-0417 A is released."),
        "changed": ChangedSince("Mgr-1 saved a reading at 11:12. Load the page again."),
        "input": BadInput("Give a reason.", field="reason"),
        "denied": PermissionDenied(),
        "unreadable": BadRequest(),
        "broken": RuntimeError("a fault"),
    }
    raise refusals[how]


def _front(name: str) -> object:
    return path(f"{name}/", stub, name=name)


front = include(
    (
        [_front(name) for name in FRONT] + [path("parts/", show_parts, name="parts")],
        "front",
    )
)
places = [
    path(f"{space}/", include(([path("", show_parts, name="list")], space)))
    for _, space, _ in PLACES
]
urlpatterns = [
    path("", front),
    *places,
    path("authorise/", authorise),
    path("own/", own_account),
    path("refuse/<how>/", refuse),
]
