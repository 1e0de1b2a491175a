"""Who may open an address: every view wears one of these, and says its permission to whoever asks."""

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib.auth.views import redirect_to_login
from django.http import HttpRequest, HttpResponse, HttpResponseBase

from lims.people.permissions import Permission, check

View = Callable[..., HttpResponseBase]
SIGN_IN_FIRST = (
    "You are signed out. Sign in again in another tab, then send this once more."
)


def needs(permission: Permission) -> Callable[[View], View]:
    """Only a signed-in person whose roles include the permission; others learn who can help."""

    def decorate(view: View) -> View:
        @wraps(view)
        def guarded(
            request: HttpRequest, *args: Any, **kwargs: Any
        ) -> HttpResponseBase:
            if not request.user.is_authenticated:
                return _sign_in(request)
            check(request.user, permission)
            return view(request, *args, **kwargs)

        guarded.permission = permission  # type: ignore[attr-defined]
        return guarded

    return decorate


def staff(view: View) -> View:
    """A page that everybody who works here may read."""
    return needs(Permission.READ)(view)


def signed_in(view: View) -> View:
    """A page of one's own account, whatever the roles."""

    @wraps(view)
    def guarded(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
        if not request.user.is_authenticated:
            return _sign_in(request)
        return view(request, *args, **kwargs)

    guarded.permission = "signed in"  # type: ignore[attr-defined]
    return guarded


def open_to_all(view: View) -> View:
    """A page for everybody, without signing in."""
    view.permission = "everybody"  # type: ignore[attr-defined]
    return view


def _sign_in(request: HttpRequest) -> HttpResponse:
    # A part of a page that asks for the sign-in form would get it in the middle of the page.
    if getattr(request, "htmx", False):
        return HttpResponse(SIGN_IN_FIRST, status=401, content_type="text/plain")
    return redirect_to_login(request.get_full_path())
