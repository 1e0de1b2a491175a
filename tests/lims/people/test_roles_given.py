"""Roles are given by somebody else, taken back with a reason, and both are kept."""

import datetime as dt

import pytest

from lims.people import actions, queries
from lims.people.models import Person, RoleGiven
from lims.record import clock
from lims.record.models import Entry
from lims.record.refusals import BadInput, WrongMove
from tests.factories.people import invited


def last():
    return Entry.objects.first()


def test_a_role_is_given_and_taken_back_and_both_are_kept(person, plant, morning):
    technician = person("technician")

    actions.give_role(person=technician, role="despatch", by=plant)
    assert technician.roles == {"technician", "despatch"}
    clock.set_to(morning + dt.timedelta(days=1))
    actions.take_role(
        person=technician, role="despatch", reason="Back at the bench.", by=plant
    )

    assert technician.roles == {"technician"}
    kept = queries.roles_given(technician)[0]
    assert (kept.role, kept.given_by, kept.taken_by) == (
        "despatch",
        plant.name,
        plant.name,
    )
    assert kept.taken_at - kept.given_at == dt.timedelta(days=1)
    assert last().reason == "Back at the bench."


def test_a_role_may_be_given_again_after_it_was_taken(person, plant):
    technician = person("technician")
    actions.take_role(
        person=technician, role="technician", reason="On leave.", by=plant
    )

    actions.give_role(person=technician, role="technician", by=plant)

    assert RoleGiven.objects.filter(person=technician).count() == 2


def test_accounts_and_data_in_one_hand_are_noted_in_the_record(person, plant):
    actions.give_role(person=person("technician"), role="administrator", by=plant)

    assert "two duties" in last().note


def test_a_role_held_is_not_given_twice_nor_taken_when_not_held(person, plant):
    technician = person("technician")

    with pytest.raises(WrongMove, match="is technician already"):
        actions.give_role(person=technician, role="technician", by=plant)
    with pytest.raises(WrongMove, match="is not despatch"):
        actions.take_role(person=technician, role="despatch", reason="why", by=plant)
    with pytest.raises(BadInput, match="Choose one"):
        actions.give_role(person=technician, role="pope", by=plant)


def test_nobody_gives_a_role_to_themselves(plant):
    with pytest.raises(WrongMove, match="Ask another administrator"):
        actions.give_role(person=plant, role="quality_manager", by=plant)


def test_the_only_administrator_stays(person, plant):
    second = person("administrator", account="second")
    actions.deactivate(person=second, reason="Has left.", by=plant)
    invited(plant, "third", "administrator")

    with pytest.raises(WrongMove, match="only administrator"):
        actions.take_role(person=plant, role="administrator", reason="why", by=plant)
    with pytest.raises(WrongMove, match="only administrator"):
        actions.deactivate(person=plant, reason="Has left.", by=plant)


def test_an_administrator_may_go_when_another_is_there(person, plant):
    second = person("administrator", account="second")

    actions.deactivate(person=plant, reason="Has left.", by=second)

    assert not Person.objects.get(pk=plant.pk).is_active
