"""What nobody means, at every address: signs that cannot be printed, absurd days, texts without end. Never an error of the program."""

import contextlib

import pytest
from django.db import transaction
from django.test import Client
from django.urls import NoReverseMatch, reverse

from lims.people.queries import person as person_of
from tests.factories import plant
from tests.lims.screens.address_rows import ROWS

LONG = "ß" * 600
DAYS = ("0001-01-01", "9999-12-31")
NUMBERS = ("99999999999999999999",)
TEXTS = ("x\x00y", LONG, *DAYS, *NUMBERS)
BOXES = (
    *("q", "code", "number", "product", "kettle", "mass_kg", "charged_on", "pack"),
    *("pack_kg", "pack_count", "filled_at", "leaves_on", "order_note", "place"),
    *("detail", "taken_at", "taken_by", "reason", "remark", "alone_reason", "order"),
    *("customer", "day", "person", "about", "verb", "seq", "head", "issued_from"),
    *("state", "page", "sort", "done_on", "due_on", "found", "is_fit", "on", "note"),
    *("checked_by", "seen", "version", "stood", "lot", "batch", "first_certificate"),
    *("hours_after_filling", "shelf_life_months", "every_batches", "language"),
    *("characteristic", "procedure", "edition", "slot", "text", "again", "read_at"),
    *("what", "value", "level_from", "level_to", "source", "standing", "figures"),
    *("every", "uncertainty", "site_precision", "basis", "against"),
    *("account", "name", "mail", "role", "roles", "password", "next", "theme"),
)
ACCOUNTS = ("mgr-1", "desk-1")  # between them they open nearly every form


def signed_in(account):
    client = Client(raise_request_exception=False)
    client.force_login(person_of(account))
    return client


def asked(client, method, address, data=None, **headers):
    """The status of an answer, whose writes are undone."""
    with transaction.atomic():
        answer = getattr(client, method)(address, data, headers=headers)
        if not transaction.get_connection().needs_rollback:
            transaction.set_rollback(True)
    return answer.status_code


@pytest.fixture
def known(db, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story())


def addresses():
    """Every address that can be written with what the plant has."""
    for row in ROWS:
        args = [1 if str(arg).isupper() else arg for arg in row.args]
        for given in (list(row.args), args):
            try:
                yield reverse(row.name, args=given)
            except NoReverseMatch:
                continue
            break


def named(piece):
    """Every address with a piece in the place of each name that it takes."""
    for row in ROWS:
        with contextlib.suppress(NoReverseMatch):
            yield reverse(row.name, args=[piece for _ in row.args])


@pytest.mark.parametrize("text", TEXTS)
def test_no_text_in_a_query_or_a_form_breaks_an_address(text, known):
    sent = dict.fromkeys(BOXES, text)
    clients = {account: signed_in(account) for account in ACCOUNTS}

    broken = [
        f"{method} {address} as {account}: {status}"
        for address in addresses()
        for account, client in clients.items()
        for method in ("get", "post")
        if (status := asked(client, method, address, sent)) >= 500
    ]

    assert not broken, "\n".join(broken)


@pytest.mark.parametrize("piece", ["x\x00y", "x\x1fy", LONG[:500], "9" * 30])
def test_no_name_in_an_address_breaks_it(piece, known):
    client = signed_in("mgr-1")

    broken = [
        f"{method} {address}: {status}"
        for address in named(piece)
        for method in ("get", "post")
        if (status := asked(client, method, address)) >= 500
    ]

    assert not broken, "\n".join(broken)


def test_a_sign_that_cannot_be_printed_is_told_in_a_sentence(known):
    client = signed_in("mgr-1")

    in_path = client.get("/fill-lots/Q1%00/")
    in_query = client.get("/record/?about=%00")
    in_form = client.post("/batches/new/", {"number": "Q1\x00"})

    assert in_path.status_code == 404
    for told in (in_query, in_form):
        assert told.status_code == 400
        assert "a sign that cannot be printed" in told.content.decode()


@pytest.mark.parametrize(
    ("name", "args", "box", "typed"),
    [
        ("batches:new", (), "charged_on", "0001-01-01"),
        ("batches:new-lot", ("Q1-26-0417",), "filled_at", "0001-01-01 00:01"),
        ("batches:new-lot", ("Q1-26-0417",), "leaves_on", "9999-12-31"),
        ("instruments:check", ("PEN-01",), "done_on", "0001-01-01"),
        ("instruments:check", ("PEN-01",), "due_on", "9999-12-31"),
    ],
)
def test_a_day_beyond_sense_is_told_beside_its_box(name, args, box, typed, known):
    page = signed_in("tech-a").post(reverse(name, args=args), {box: typed})

    assert page.status_code == 422
    (told,) = page.context["form"].errors[box]
    assert "1990" in told
    assert "2100" in told


@pytest.mark.parametrize("typed", ["1_0", "٣", "1.0", "1e3"])
def test_a_count_is_written_in_plain_figures(typed, known):
    address = reverse("batches:new-lot", args=["Q1-26-0417"])

    page = signed_in("tech-a").post(address, {"pack_count": typed})

    assert page.context["form"].errors["pack_count"] == [
        "Write how many packs were filled: a whole number."
    ]


def test_the_preview_of_a_sample_survives_a_day_beyond_sense(known):
    address = reverse("batches:sample-new")
    sent = {"lot": "Q1-26-0417-A", "place": "pack", "taken_at": "0001-01-01 00:01"}

    assert asked(signed_in("tech-a"), "get", address, sent, hx_request="true") == 200
