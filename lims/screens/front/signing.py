"""One's own account: signing in and out, changing the password, choosing the first one by the link of an invitation."""

import logging

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import authenticate, login, logout, update_session_auth_hash
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from lims.people import actions, tokens
from lims.people.models import Person
from lims.people.names import account_form
from lims.record.refusals import Refusal
from lims.screens.access import open_to_all, signed_in
from lims.screens.batches.answers import person_of, see_other, take_refusal
from lims.screens.front.forms import ChosenForm, PasswordForm, SignInForm

log = logging.getLogger(__name__)
REFUSED = (
    "Account and password do not fit together. Type both once more; an administrator "
    "can start a new password for you."
)
GET_OR_POST = ["GET", "HEAD", "POST"]


@sensitive_post_parameters("password")
@never_cache
@require_http_methods(GET_OR_POST)
@open_to_all
def sign_in(request: HttpRequest) -> HttpResponse:
    onward = own_address(request, request.POST.get("next") or request.GET.get("next"))
    if request.method != "POST":
        if request.user.is_authenticated:
            return redirect(onward)
        return _sign_in_page(request, SignInForm(), onward, 200)
    form = SignInForm(request.POST)
    if not form.is_valid():
        return _sign_in_page(request, form, onward, 422)
    given = form.cleaned_data
    found = authenticate(request, username=given["account"], password=given["password"])
    if found is None:
        _log_refusal(request, given["account"])
        form.add_error(None, REFUSED)
        return _sign_in_page(request, form, onward, 422)
    login(request, found)
    log.info("%s signed in", found.get_username())
    return see_other(onward)


def _sign_in_page(
    request: HttpRequest, form: SignInForm, onward: str, status: int
) -> HttpResponse:
    context = {"form": form, "next": onward, "wants_password": form.is_bound}
    return render(request, "front/sign_in.html", context, status=status)


def _log_refusal(request: HttpRequest, typed: str) -> None:
    """Only the name of an account that there is: what was typed may be a password in the wrong box."""
    account = account_form(typed)
    is_known = Person.objects.filter(account=account).exists()
    named = account if is_known else "an unknown account"
    log.warning("sign-in refused for %s from %s", named, request.META["REMOTE_ADDR"])


def own_address(request: HttpRequest, wanted: str | None) -> str:
    """The address to go on to, if it is one of ours; else the first page."""
    is_ours = url_has_allowed_host_and_scheme(
        wanted, {request.get_host()}, require_https=request.is_secure()
    )
    is_whole = bool(wanted) and str(wanted).startswith("/")
    return str(wanted) if is_whole and is_ours else reverse(settings.LOGIN_REDIRECT_URL)


@require_POST
@open_to_all
def sign_out(request: HttpRequest) -> HttpResponse:
    """End the session, whoever's it is, so that the next person can sign in."""
    if request.user.is_authenticated:
        log.info("%s signed out", request.user.get_username())
    logout(request)
    response = see_other(reverse("front:sign-in"))
    response["Clear-Site-Data"] = '"cache"'
    return response


@sensitive_post_parameters("old", "password", "again")
@require_http_methods(GET_OR_POST)
@signed_in
def password(request: HttpRequest) -> HttpResponse:
    form = PasswordForm(request.POST if request.method == "POST" else None)
    status = 422 if form.is_bound else 200
    if form.is_bound and form.is_valid():
        given, by = form.cleaned_data, person_of(request)
        try:
            actions.change_own_password(old=given["old"], new=given["password"], by=by)
        except Refusal as refusal:
            status = take_refusal(form, refusal)
        else:
            update_session_auth_hash(request, by)
            messages.success(request, "Your password is changed.")
            return see_other(reverse("front:home"))
    return render(request, "front/password.html", {"form": form}, status=status)


@sensitive_post_parameters("password", "again")
@never_cache
@require_http_methods(GET_OR_POST)
@open_to_all
def invitation(request: HttpRequest, uid: str, token: str) -> HttpResponse:
    """The page behind the link: good once, for the person it was made for."""
    person = tokens.person_of(uid)
    if person is None or not tokens.is_good(person, token):
        return _kept_secret(render(request, "front/used_link.html", status=410))
    form = ChosenForm(request.POST if request.method == "POST" else None)
    status = 422 if form.is_bound else 200
    if form.is_bound and form.is_valid():
        chosen = form.cleaned_data["password"]
        try:
            actions.accept_invitation(
                person=person, token=token, password=chosen, by=person
            )
        except Refusal as refusal:
            status = take_refusal(form, refusal)
        else:
            messages.success(request, "Your password is chosen. Sign in with it.")
            return see_other(reverse("front:sign-in"))
    context = {"form": form, "person": person}
    page = render(request, "front/invitation.html", context, status=status)
    return _kept_secret(page)


def _kept_secret(response: HttpResponse) -> HttpResponse:
    """The address is a secret: no other site learns it, no index holds it."""
    response["Referrer-Policy"] = "no-referrer"
    response["X-Robots-Tag"] = "noindex"
    return response
