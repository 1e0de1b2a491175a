"""Signing in: by account however typed, active persons only, and nothing is written."""

import pytest
from django.contrib.auth import authenticate
from django.contrib.auth.models import update_last_login
from django.contrib.auth.signals import user_logged_in

from lims.people import actions, signing_in
from lims.people.models import Person
from lims.record.models import Entry
from tests.factories.people import PASSWORD, invited


@pytest.mark.parametrize(
    "typed", ["technician", " Technician ", "TECHNICIAN", "ｔｅｃｈｎｉｃｉａｎ"]
)
def test_an_account_is_found_however_it_is_typed(person, typed):
    technician = person("technician")

    assert authenticate(None, username=typed, password=PASSWORD) == technician
    assert authenticate(None, account=typed, password=PASSWORD) == technician


@pytest.mark.parametrize(
    ("account", "password"),
    [
        ("technician", "seven quiet heron"),
        ("technician", ""),
        ("nobody", PASSWORD),
        ("", PASSWORD),
        ("technician", PASSWORD + "x" * 1000),
    ],
    ids=["wrong", "empty", "unknown", "no account", "too long"],
)
def test_anything_else_is_refused(person, account, password):
    person("technician")

    assert authenticate(None, username=account, password=password) is None


def test_a_deactivated_person_does_not_sign_in(person, plant):
    technician = person("technician")
    actions.deactivate(person=technician, reason="Has left.", by=plant)

    assert authenticate(None, username="technician", password=PASSWORD) is None
    assert signing_in.ByAccount().get_user(technician.pk) is None


def test_an_invited_person_does_not_sign_in_before_choosing_a_password(plant):
    invited(plant, "newcomer")

    assert authenticate(None, username="newcomer", password="") is None


def test_an_unknown_account_costs_a_hash_as_a_known_one_does(plant, monkeypatch):
    hashed = []
    monkeypatch.setattr(Person, "set_password", lambda self, raw: hashed.append(raw))

    authenticate(None, username="nobody", password="x" * 10_000)

    assert [len(raw) for raw in hashed] == [257]


def test_signing_in_writes_nothing_of_the_record(person, client):
    technician = person("technician")
    before = Entry.objects.count()

    client.force_login(technician)

    assert Entry.objects.count() == before
    assert not any(update_last_login in _receivers(each) for each in [user_logged_in])


def _receivers(signal):
    return [receiver for _, receiver, *_ in signal.receivers]
