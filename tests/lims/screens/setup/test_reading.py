"""Set-up as everybody reads it: the site, who works here, and who may what."""

import re

import pytest
from django.urls import reverse

from lims.people import actions
from lims.people.permissions import ACTS
from lims.people.roles import ROLES
from tests.factories.people import invited

LIST, PEOPLE, SITE, INVITE = (
    reverse(f"setup:{name}") for name in ("list", "people", "site", "person-new")
)
READERS = [key for key in ROLES if key != "administrator"]


def text_of(response):
    return response.content.decode()


@pytest.mark.parametrize("role", READERS)
def test_everybody_reads_it_and_learns_who_keeps_it(as_role, role):
    client = as_role(role)

    for address in (LIST, PEOPLE, reverse("setup:person", args=["administrator"])):
        assert client.get(address).status_code == 200
    assert "Accounts and settings are kept by Ada Ministrator" in text_of(
        client.get(LIST)
    )


@pytest.mark.parametrize("role", READERS)
def test_nobody_but_the_administrator_opens_the_forms(as_role, role):
    client = as_role(role)

    for address in (SITE, INVITE):
        answer = client.get(address)
        assert answer.status_code == 403
        assert "is for the administrator" in text_of(answer)


def test_a_stranger_reads_nothing(client, plant):
    assert client.get(LIST).status_code == 302


def test_the_matrix_is_what_the_roles_hold(keeper):
    page = keeper.get(LIST)

    rows = re.findall(
        r'<tr role="row"><th scope="row" role="rowheader">([^<]+)</th>((?:<td role="cell">.*?</td>)+)</tr>',
        text_of(page),
    )
    shown = {
        words: [">may<" in cell for cell in re.findall(r"<td.*?</td>", cells)]
        for words, cells in rows
    }
    for permission, words in ACTS.items():
        held = [permission in role.permissions for role in ROLES.values()]
        assert shown[words.replace("'", "&#x27;")] == held


def test_mail_addresses_are_shown_to_administrators_only(keeper, as_role, plant):
    actions.invite(
        account="desk-2",
        name="Odo Larkspur",
        mail="odo@quernstone.example",
        given=["despatch"],
        by=plant,
    )
    one = reverse("setup:person", args=["desk-2"])

    for address in (PEOPLE, one):
        assert "odo@quernstone.example" in text_of(keeper.get(address))
        assert "odo@quernstone.example" not in text_of(as_role("auditor").get(address))


def test_more_people_ask_no_more_queries(keeper, plant, django_assert_max_num_queries):
    for number in range(12):
        invited(plant, f"tech-{number}", "technician")

    with django_assert_max_num_queries(10):
        keeper.get(PEOPLE)
    with django_assert_max_num_queries(10):
        keeper.get(LIST)


def test_an_unknown_account_stands_nowhere(keeper):
    assert keeper.get(reverse("setup:person", args=["nobody"])).status_code == 404
