"""Signing in and out: one sentence for all causes, own addresses only, a new session key."""

import logging

import pytest
from django.urls import reverse

from lims.people import actions
from lims.screens.front.signing import REFUSED
from tests.factories.people import PASSWORD

ADDRESS = "/sign-in/"


def sign_in(client, account="technician", password=PASSWORD, **more):
    return client.post(ADDRESS, {"account": account, "password": password, **more})


def test_the_right_password_opens_the_first_page(person, stranger):
    person("technician")

    response = sign_in(stranger)

    assert response.status_code == 303
    assert response.headers["Location"] == reverse("front:home")
    assert stranger.get("/").status_code == 200


def test_the_account_may_be_typed_in_any_case(person, stranger):
    person("technician")

    assert sign_in(stranger, account=" TECHNICIAN ").status_code == 303


def test_a_password_is_taken_as_typed_with_its_spaces(person, stranger):
    person("technician")

    assert sign_in(stranger, password=f"{PASSWORD} ").status_code == 422


def test_every_refusal_says_the_same_and_keeps_the_account(person, stranger, plant):
    person("technician")
    closed = person("despatch")
    actions.deactivate(person=closed, reason="has left", by=plant)

    pages = [
        sign_in(stranger, account="technician", password="wrong password here"),
        sign_in(stranger, account="nobody-here"),
        sign_in(stranger, account="despatch"),
    ]

    for response, account in zip(
        pages, ("technician", "nobody-here", "despatch"), strict=True
    ):
        form = response.context["form"]
        assert response.status_code == 422
        assert form.non_field_errors() == [REFUSED]
        assert form["account"].value() == account
        assert PASSWORD not in response.content.decode()


def test_a_refusal_is_logged_without_what_may_be_a_password(person, stranger, caplog):
    person("technician")

    with caplog.at_level(logging.WARNING, logger="lims"):
        sign_in(stranger, account="technician", password="wrong password here")
        sign_in(stranger, account=PASSWORD)

    told = [it.message for it in caplog.records if it.name.startswith("lims")]
    assert told == [
        "sign-in refused for technician from 127.0.0.1",
        "sign-in refused for an unknown account from 127.0.0.1",
    ]


@pytest.mark.parametrize(
    ("wanted", "goes"),
    [
        ("/help/", "/help/"),
        ("https://elsewhere.example/", "/"),
        ("//elsewhere.example/", "/"),
        ("javascript:alert(1)", "/"),
        ("", "/"),
    ],
)
def test_it_goes_on_to_an_address_of_ours_only(person, stranger, wanted, goes):
    person("technician")

    assert sign_in(stranger, next=wanted).headers["Location"] == goes


def test_the_session_gets_a_new_key(person, stranger):
    person("technician")
    stranger.get(ADDRESS)
    session = stranger.session
    session["before"] = "1"
    session.save()
    stranger.cookies["sessionid"] = session.session_key

    sign_in(stranger)

    assert stranger.session.session_key != session.session_key


def test_signing_out_ends_the_session_and_opens_the_form(browsing):
    client = browsing("technician")

    response = client.post("/sign-out/")

    assert response.status_code == 303
    assert response.headers["Location"] == ADDRESS
    assert client.get("/").status_code == 302


def test_reading_an_address_signs_nobody_out(browsing):
    client = browsing("technician")

    assert client.get("/sign-out/").status_code == 405
    assert client.get("/").status_code == 200


def test_the_form_is_kept_by_no_browser(stranger):
    page = stranger.get(ADDRESS)

    assert "no-store" in page.headers["Cache-Control"]
    assert 'autocomplete="current-password"' in page.content.decode()


def test_a_form_that_was_open_too_long_says_what_to_do(person):
    from django.test import Client

    person("technician")
    client = Client(enforce_csrf_checks=True)

    response = sign_in(client)

    assert response.status_code == 403
    assert "Nothing was saved." in response.content.decode()
