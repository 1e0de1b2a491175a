"""People: invited by a link, given roles and rid of them, deactivated; an administrator never chooses a password."""

import re

import pytest
from django.test import Client
from django.urls import reverse

from lims.people.queries import person as person_of
from lims.record.models import Entry
from tests.factories.people import PASSWORD, invited

INVITE = reverse("setup:person-new")
NEW = {
    "account": "Tech-C",
    "name": "Wilf Tarrow",
    "mail": "wilf@quernstone.example",
    "roles": ["technician"],
}


def one(account):
    return reverse("setup:person", args=[account])


def act(account, key):
    return reverse("setup:person-act", args=[account, key])


def link_in(page):
    found = re.search(r"http://testserver(/invitation/[^<\s]+)", page.content.decode())
    return found and found.group(1)


@pytest.fixture
def technician(person):
    return person("technician")


def test_an_invitation_leads_to_a_first_sign_in(keeper):
    answer = keeper.post(INVITE, NEW)
    link = link_in(keeper.get(answer.url))
    theirs = Client()
    theirs.get(link)
    theirs.post(link, {"password": PASSWORD, "again": PASSWORD})
    theirs.logout()

    signed_in = theirs.post(
        reverse("front:sign-in"), {"account": "tech-c", "password": PASSWORD}
    )

    assert answer.status_code == signed_in.status_code == 303
    assert person_of("tech-c").function == "technician"
    assert theirs.get(reverse("setup:list")).status_code == 200


def test_the_link_is_shown_once(keeper):
    address = keeper.post(INVITE, NEW).url

    first, second = keeper.get(address), keeper.get(address)

    assert link_in(first)
    assert not link_in(second)


def test_nobody_else_sees_the_link(keeper, as_role):
    address = keeper.post(INVITE, NEW).url

    assert not link_in(as_role("laboratory_manager").get(address))


@pytest.mark.parametrize(
    ("box", "text"),
    [
        ("account", "x"),
        ("account", "administrator"),
        ("account", "new"),
        ("name", " "),
        ("mail", "nobody"),
    ],
)
def test_what_cannot_be_taken_is_refused_and_everything_typed_stays(keeper, box, text):
    answer = keeper.post(INVITE, NEW | {box: text})

    page = answer.content.decode()
    assert answer.status_code == 422
    assert answer.context["form"].errors[box]
    assert re.search(r'value="technician"[^>]*checked', page)
    assert Entry.objects.filter(verb="person_invited").count() == 1


def test_an_administrator_has_no_box_for_anothers_password(keeper, technician):
    pages = keeper.get(INVITE).content + keeper.get(one("technician")).content

    assert b'type="password"' not in pages


def test_a_role_is_given_and_taken_back_with_its_history(keeper, technician):
    keeper.post(act("technician", "give-role"), {"role": "despatch"})
    keeper.post(
        act("technician", "take-role"), {"role": "technician", "reason": "moved on"}
    )

    assert person_of("technician").function == "despatch"
    page = keeper.get(one("technician")).content.decode()
    assert page.count("by Ada Ministrator") == 3
    assert Entry.objects.filter(verb="role_taken").get().reason == "moved on"


def test_only_roles_that_can_be_given_are_offered(keeper, technician):
    page = keeper.get(one("technician"))

    give, take = (
        {key for key, _ in it.form.fields["role"].choices if key}
        for it in page.context["acts"][:2]
    )
    assert take == {"technician"}
    assert "technician" not in give


def test_two_duties_in_one_person_are_pointed_out(keeper, technician):
    keeper.post(act("technician", "give-role"), {"role": "administrator"})

    assert (
        "better held by two persons" in keeper.get(one("technician")).content.decode()
    )


def test_nobody_gives_a_role_to_themselves(keeper, plant):
    page = keeper.get(one("administrator")).content.decode()
    answer = keeper.post(act("administrator", "give-role"), {"role": "technician"})

    assert "Nobody gives a role to themselves" in page
    assert answer.status_code == 409
    assert plant.function == "administrator"


def test_the_only_administrator_stays_one(keeper, plant):
    answer = keeper.post(
        act("administrator", "take-role"),
        {"role": "administrator", "reason": "tired of it"},
    )

    assert answer.status_code == 409
    assert "is the only administrator" in answer.content.decode()
    assert 'value="tired of it"' in answer.content.decode()


def test_a_deactivated_person_is_signed_out_at_once(keeper, as_role):
    theirs = as_role("technician")
    assert theirs.get(reverse("setup:list")).status_code == 200

    keeper.post(act("technician", "deactivate"), {"reason": "left the works"})

    assert theirs.get(reverse("setup:list")).status_code == 302
    refused = Client().post(
        reverse("front:sign-in"), {"account": "technician", "password": PASSWORD}
    )
    assert refused.status_code == 422


def test_a_reactivated_person_chooses_a_new_password(keeper, technician):
    keeper.post(act("technician", "deactivate"), {"reason": "left the works"})

    answer = keeper.post(act("technician", "reactivate"), {"reason": "came back"})

    assert link_in(keeper.get(answer.url))
    assert not person_of("technician").check_password(PASSWORD)


def test_a_new_password_is_started_by_a_link_and_ends_the_sessions(keeper, as_role):
    theirs = as_role("technician")

    answer = keeper.post(act("technician", "reset"), {"reason": "forgotten"})

    assert link_in(keeper.get(answer.url))
    assert theirs.get(reverse("setup:list")).status_code == 302


def test_the_printed_name_is_changed_with_a_reason(keeper, technician):
    keeper.post(
        act("technician", "change"),
        {"name": "Wilf Tarrow-Hay", "mail": "", "reason": "married"},
    )

    assert person_of("technician").name == "Wilf Tarrow-Hay"


@pytest.mark.parametrize("key", ["deactivate", "reset", "take-role", "change"])
def test_an_act_without_a_reason_is_refused_beside_its_box(keeper, technician, key):
    before = Entry.objects.count()

    answer = keeper.post(
        act("technician", key), {"role": "technician", "name": "Other Name"}
    )

    assert answer.status_code == 422
    assert answer.context["form"].errors["reason"]
    assert Entry.objects.count() == before


@pytest.mark.parametrize(
    "key", ["give-role", "take-role", "change", "deactivate", "reactivate", "reset"]
)
def test_others_do_none_of_this_and_reading_does_nothing(
    as_role, keeper, technician, key
):
    data = {"role": "despatch", "reason": "because", "name": "Other Name"}

    assert (
        as_role("quality_manager").post(act("technician", key), data).status_code == 403
    )
    assert keeper.get(act("technician", key)).status_code == 405
    assert person_of("technician").function == "technician"


def test_an_act_that_there_is_not_stands_nowhere(keeper, technician):
    assert keeper.post(act("technician", "promote"), {}).status_code == 404


def test_who_was_invited_and_has_no_role_is_told_apart(keeper, plant):
    invited(plant, "newcomer")

    page = keeper.get(one("newcomer")).content.decode()

    assert "has no role and has not chosen a password yet" in page
