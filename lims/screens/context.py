"""What every page knows: the site, the person's places, the laboratory's time, the theme."""

from dataclasses import dataclass
from typing import Any

from django.conf import settings
from django.http import HttpRequest
from django.urls import reverse

from lims.people.permissions import Permission, allowed
from lims.record import clock
from lims.record.queries import tail
from lims.screens import zone
from lims.wording import dates
from lims.wording.numbers import counts

# Places that stand under another one in the masthead.
UNDER = {"imports": "trends"}
THEMES = ("light", "dark")
THEME_COOKIE = "theme"

# In the masthead's order: the word, the address space, and the permission that opens it.
PLACES: tuple[tuple[str, str, Permission], ...] = (
    ("Bench", "bench", Permission.READ),
    ("Batches", "batches", Permission.READ),
    ("Decisions", "decisions", Permission.READ),
    ("Certificates", "certificates", Permission.READ),
    ("Trends", "trends", Permission.READ),
    ("Specifications", "specifications", Permission.READ),
    ("Methods", "methods", Permission.READ),
    ("Instruments", "instruments", Permission.READ),
    ("Record", "record", Permission.READ),
    ("Set-up", "setup", Permission.READ),
)


@dataclass(frozen=True)
class Place:
    """One link of the masthead."""

    word: str
    address: str
    here: bool


def page(request: HttpRequest) -> dict[str, Any]:
    """The context processor of every page."""
    now = clock.now()
    user = getattr(request, "user", None)
    return {
        "site": zone.site(),
        "places": places(request),
        "place": namespace(request),
        "role_words": getattr(user, "function", ""),
        "record_words": record_words(request),
        "lab_now": now,
        "zone_words": dates.zone_words(now, zone.zone()),
        "theme": theme(request),
        "demo": settings.MODE == "demo",
    }


def places(request: HttpRequest) -> list[Place]:
    """The places that this person may reach."""
    user = getattr(request, "user", None)
    if user is None or not user.is_authenticated:
        return []
    here = namespace(request)
    here = UNDER.get(here, here)
    return [
        Place(word, reverse(f"{space}:list"), space == here)
        for word, space, permission in PLACES
        if allowed(user, permission)
    ]


def record_words(request: HttpRequest) -> str:
    """How far the record has come, for those who work here."""
    user = getattr(request, "user", None)
    if user is None or not user.is_authenticated:
        return ""
    return f"The record stands at entry {counts(tail().seq)}"


def namespace(request: HttpRequest) -> str:
    match = request.resolver_match
    return match.namespace if match is not None else ""


def theme(request: HttpRequest) -> str:
    """``light`` or ``dark`` where the person chose, else nothing: as the device."""
    chosen = request.COOKIES.get(THEME_COOKIE, "")
    return chosen if chosen in THEMES else ""
