"""The laboratory's own uncertainty on screen: its history, a new statement, what is refused."""

import pytest

from lims.methods import queries
from tests.factories.people import PASSWORD
from tests.lims.screens.methods.conftest import address, text_of

HERE = ("own-uncertainty", "oil-separation")
STATED = {
    "uncertainty": "0.25",
    "site_precision": "0.7",
    "level_from": "1",
    "level_to": "9",
    "basis": "40 results on the reference grease",
    "password": PASSWORD,
}


def stated():
    return queries.own_uncertainty(queries.characteristic("oil-separation"))


@pytest.mark.parametrize("account", ["chem-1", "qm-1"])
def test_it_is_stated_with_a_password_and_shown_with_its_signature(account, as_):
    client = as_(account)

    answered = client.post(address(*HERE), STATED)

    page = text_of(client.get(address("characteristic", "oil-separation")))
    assert answered["Location"] == address("characteristic", "oil-separation")
    assert (stated().uncertainty, stated().number) == ("0.25", 1)
    assert "statement 1 0.25 mass % 0.7 mass % from 1 to 9 40 results" in page


def test_the_older_statement_is_still_shown(as_):
    client = as_("chem-1")
    client.post(address(*HERE), STATED)
    client.post(address(*HERE), STATED | {"uncertainty": "0.3", "level_to": ""})

    page = text_of(client.get(address(*HERE)))

    assert "Stated 2 times." in page
    assert page.index("statement 2 0.3") < page.index("statement 1 0.25")
    assert "from 1 40 results" in page
    assert "Where it reaches, it takes the place of statement 2." in page


@pytest.mark.parametrize(
    ("given", "field", "sentence"),
    [
        ({"uncertainty": ""}, "uncertainty", "Write the standard uncertainty."),
        ({"uncertainty": "0"}, "uncertainty", "0 is no uncertainty"),
        ({"site_precision": "wide"}, "site_precision", "is no number"),
        ({"level_to": "0.5"}, "level_to", "not above its beginning at 1"),
        ({"basis": ""}, "basis", "Say how it was found."),
        ({"password": ""}, "password", "Type your password to sign."),
        ({"password": "wrong"}, "password", "That is not your password"),
    ],
)
def test_what_cannot_stand_is_refused_and_what_was_typed_is_kept(
    given, field, sentence, as_
):
    answered = as_("chem-1").post(address(*HERE), STATED | given)

    assert answered.status_code == 422
    assert sentence in answered.context["form"].errors[field][0]
    if field != "basis":
        assert "40 results on the reference grease" in answered.content.decode()
    assert PASSWORD not in answered.content.decode()
    assert stated() is None


def test_nothing_stated_is_said_and_never_nought(as_):
    page = text_of(as_("aud-1").get(address("characteristic", "oil-separation")))

    assert "Not stated. It is never taken to be nought" in page


def test_a_mark_has_no_uncertainty_to_state(as_):
    client = as_("chem-1")
    there = address("own-uncertainty", "copper-strip")

    page = text_of(client.get(there))
    answered = client.post(there, STATED)

    assert "an uncertainty is stated of numbers only" in page
    assert answered.status_code == 422


def test_only_who_may_sign_is_offered_it(as_):
    page = address("characteristic", "oil-separation")

    assert address(*HERE) in as_("qm-1").get(page).content.decode()
    assert address(*HERE) not in as_("mgr-1").get(page).content.decode()
    assert as_("mgr-1").get(address(*HERE)).status_code == 403


def test_an_unknown_characteristic_is_not_found(as_):
    assert as_("chem-1").get(address("own-uncertainty", "x")).status_code == 404
