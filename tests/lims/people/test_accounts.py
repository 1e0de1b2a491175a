"""Persons are invited, choose their own password, are given roles and deactivated; never deleted."""

import datetime as dt

import pytest
from django.contrib.sessions.models import Session

from lims.people import actions, queries, tokens
from lims.people.models import Person
from lims.record import clock
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories.people import PASSWORD, found_plant, invited, let_in

NEW = "nine loud bitterns"


def last():
    return Entry.objects.first()


def test_the_first_administrator_is_let_in_by_the_program_itself(plant):
    invitation = Entry.objects.get(verb="person_invited")

    assert invitation.account == "kettlemark"
    assert plant.roles == {"administrator"}
    assert plant.check_password(PASSWORD)


def test_there_is_one_first_administrator(plant):
    with pytest.raises(WrongMove, match="people already"):
        actions.invite_first_administrator(account="second", name="Second")


def test_an_invited_person_has_roles_but_no_password(plant, morning):
    person = invited(plant, "Tech-A", "technician", name="  Tech-A ")

    kept = queries.person("TECH-A")
    assert (kept.account, kept.name, kept.created_at) == ("tech-a", "Tech-A", morning)
    assert kept.invited
    assert not kept.has_usable_password()
    assert person.roles == {"technician"}
    assert (last().verb, last().about_key) == ("person_invited", "tech-a")


@pytest.mark.parametrize(
    "account", ["", "x", "a b", "-tech", "tech/a", "x" * 41, "kettlemark", "Technician"]
)
def test_an_account_name_that_is_unfit_or_taken_is_refused(person, plant, account):
    person("technician")

    with pytest.raises(BadInput) as refusal:
        invited(plant, account, name="Somebody")

    assert refusal.value.field == "account"


def test_the_name_of_a_deactivated_account_is_not_used_again(person, plant):
    actions.deactivate(person=person("technician"), reason="Has left.", by=plant)

    with pytest.raises(BadInput, match="never used again"):
        invited(plant, "technician")


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"name": "  "}, "name"),
        ({"name": "x" * 121}, "name"),
        ({"mail": "no mail"}, "mail"),
        ({"given": ["pope"]}, "role"),
    ],
    ids=["no name", "long name", "mail", "role"],
)
def test_an_invitation_says_which_field_is_wrong(plant, wrong, field):
    told = {"account": "tech-a", "name": "Tech-A"} | wrong

    with pytest.raises(BadInput) as refusal:
        actions.invite(**told, by=plant)

    assert refusal.value.field == field
    assert not Person.objects.filter(account="tech-a").exists()


def test_a_link_lets_its_person_choose_a_password_once(plant):
    person = invited(plant, "tech-a")
    token = tokens.token_for(person)
    again = tokens.person_of(tokens.reference_of(person))

    actions.accept_invitation(person=again, token=token, password=NEW, by=again)

    kept = Person.objects.get(account="tech-a")
    assert kept.check_password(NEW)
    assert not kept.invited
    with pytest.raises(WrongMove, match="used or is out of date"):
        actions.accept_invitation(person=kept, token=token, password=NEW, by=kept)


def test_a_link_is_good_for_three_days(plant, morning):
    person = invited(plant, "tech-a")
    token = tokens.token_for(person)

    clock.set_to(morning + dt.timedelta(days=3))
    assert tokens.is_good(person, token)
    clock.set_to(morning + dt.timedelta(days=3, seconds=1))
    assert not tokens.is_good(person, token)


def test_a_link_is_for_its_own_person_alone(plant):
    one, other = invited(plant, "one-person"), invited(plant, "other-person")
    token = tokens.token_for(one)

    assert not tokens.is_good(other, token)
    with pytest.raises(WrongMove):
        actions.accept_invitation(person=one, token=token, password=NEW, by=other)


@pytest.mark.parametrize("reference", ["", "x", "!!", "OTk5OTk", "LTE", "w6k"])
def test_a_link_to_nobody_leads_nowhere(plant, reference):
    assert tokens.person_of(reference) is None


def test_a_weak_password_is_refused_and_the_link_stays_good(plant):
    person = invited(plant, "tech-a")
    token = tokens.token_for(person)

    with pytest.raises(BadInput, match="at least 15"):
        actions.accept_invitation(
            person=person, token=token, password="short", by=person
        )

    assert tokens.is_good(person, token)


def test_ones_own_password_is_changed_with_the_old_one(person):
    technician = person("technician")
    before = technician.get_session_auth_hash()

    actions.change_own_password(old=PASSWORD, new=NEW, by=technician)

    kept = Person.objects.get(pk=technician.pk)
    assert kept.check_password(NEW)
    assert kept.get_session_auth_hash() != before
    assert last().verb == "password_changed"


@pytest.mark.parametrize(
    ("old", "new", "field"),
    [("seven quiet heron", NEW, "old"), (PASSWORD, "short", "password")],
)
def test_a_change_of_password_says_which_field_is_wrong(person, old, new, field):
    technician = person("technician")

    with pytest.raises(BadInput) as refusal:
        actions.change_own_password(old=old, new=new, by=technician)

    assert refusal.value.field == field
    assert technician.check_password(PASSWORD)


def test_a_deactivated_persons_sessions_end(person, plant, client):
    technician, despatch = person("technician"), person("despatch")
    for one in (technician, despatch):
        client.logout()
        client.force_login(one)
        client.cookies.clear()

    actions.deactivate(person=technician, reason="Has left.", by=plant)

    left = {each.get_decoded()["_auth_user_id"] for each in Session.objects.all()}
    assert left == {str(despatch.pk)}
    assert not Person.objects.get(pk=technician.pk).is_active


def test_a_person_comes_back_without_the_old_password(person, plant):
    technician = person("technician")
    actions.deactivate(person=technician, reason="On leave.", by=plant)

    actions.reactivate(person=technician, reason="Back.", by=plant)

    kept = Person.objects.get(pk=technician.pk)
    assert kept.is_active
    assert not kept.check_password(PASSWORD)
    let_in(kept, NEW)
    assert kept.check_password(NEW)


def test_a_reset_makes_the_password_void_and_chooses_none(person, plant, client):
    technician = person("technician")
    client.force_login(technician)

    actions.start_password_reset(
        person=technician, reason="Forgotten after leave.", by=plant
    )

    kept = Person.objects.get(pk=technician.pk)
    assert not kept.has_usable_password()
    assert not Session.objects.exists()
    let_in(kept, NEW)


def test_what_is_done_already_is_not_done_again(person, plant):
    technician = person("technician")
    with pytest.raises(WrongMove, match="is active"):
        actions.reactivate(person=technician, reason="Back.", by=plant)
    actions.deactivate(person=technician, reason="Has left.", by=plant)

    with pytest.raises(WrongMove, match="already"):
        actions.deactivate(person=technician, reason="Has left.", by=plant)
    with pytest.raises(WrongMove, match="reactivate it"):
        actions.start_password_reset(person=technician, reason="Lost.", by=plant)


def test_a_printed_name_changes_with_a_reason_and_what_was_signed_keeps_the_old(
    person, plant
):
    technician = person("technician")

    actions.change_person(
        person=technician,
        name="Tech-B",
        mail="b@q.example",
        reason="Married.",
        by=plant,
    )

    kept = Person.objects.get(pk=technician.pk)
    assert (kept.name, kept.mail) == ("Tech-B", "b@q.example")
    assert last().reason == "Married."
    assert (
        Entry.objects.get(verb="invitation_accepted", account="technician").printed_name
        == "Technician"
    )
    with pytest.raises(WrongMove, match="Nothing was changed"):
        actions.change_person(
            person=kept, name="Tech-B", mail="b@q.example", reason="why", by=plant
        )


ACTS = {
    "change": lambda one, by: actions.change_person(
        person=one, name="X", mail="", reason="why", by=by
    ),
    "invite": lambda one, by: actions.invite(account="x-y", name="X", by=by),
    "give": lambda one, by: actions.give_role(person=one, role="auditor", by=by),
    "take": lambda one, by: actions.take_role(
        person=one, role="administrator", reason="why", by=by
    ),
    "deactivate": lambda one, by: actions.deactivate(person=one, reason="why", by=by),
    "reactivate": lambda one, by: actions.reactivate(person=one, reason="why", by=by),
    "reset": lambda one, by: actions.start_password_reset(
        person=one, reason="why", by=by
    ),
}


@pytest.mark.parametrize("act", ACTS.values(), ids=ACTS)
def test_only_an_administrator_keeps_accounts(person, plant, act):
    before = Entry.objects.count()
    manager = person("quality_manager")
    made = Entry.objects.count() - before

    with pytest.raises(NotAllowed, match="for the administrator"):
        act(plant, manager)

    assert Entry.objects.count() == before + made


@pytest.mark.parametrize("reason", ["", "  ", "ab"])
def test_a_reason_is_asked_for(person, plant, reason):
    technician = person("technician")

    for act in (actions.deactivate, actions.start_password_reset):
        with pytest.raises(BadInput) as refusal:
            act(person=technician, reason=reason, by=plant)
        assert refusal.value.field == "reason"


def test_people_are_listed_with_the_active_first(person, plant):
    technician, auditor = person("technician"), person("auditor")
    actions.deactivate(person=auditor, reason="Audit is over.", by=plant)

    assert list(queries.people()) == [plant, technician, auditor]
    assert list(queries.holders("auditor")) == []
    assert list(queries.holders("technician")) == [technician]


def test_a_plant_is_founded_before_anybody_is_there(db, morning):
    assert found_plant().name == "Ada Ministrator"


def test_a_person_is_found_by_account_however_typed(plant):
    assert Person.objects.get_by_natural_key(" ADMINISTRATOR ") == plant
