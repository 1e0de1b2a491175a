"""Roles are data; each refusal names who may."""

import pytest
from django.contrib.auth.models import AnonymousUser

from lims.people import roles, rules
from lims.people.permissions import ACTS, Permission, allowed, check
from lims.record.refusals import NotAllowed, WrongMove

P = Permission
WHO_MAY = {
    P.READ: "T L Q C D R A",
    P.RECORD_READINGS: "T L",
    P.TAKE_SAMPLES: "T L",
    P.REGISTER_BATCHES: "T L C",
    P.KEEP_RETAINS: "T L",
    P.ALLOW_WITHOUT_RETAIN: "L Q",
    P.AUTHORISE_LOTS: "L Q",
    P.HOLD_LOTS: "L Q",
    P.DRAFT_SPECIFICATIONS: "L C",
    P.APPROVE_SPECIFICATIONS: "Q",
    P.KEEP_METHODS: "L Q C",
    P.APPROVE_FIGURES: "Q C",
    P.CHECK_INSTRUMENTS: "T L",
    P.KEEP_INSTRUMENTS: "L Q",
    P.ALLOW_USES: "L Q",
    P.KEEP_CUSTOMERS: "Q D",
    P.ALLOT_PACKS: "D",
    P.ISSUE_CERTIFICATES: "L Q D",
    P.BRING_IN: "L Q C",
    P.SEE_PERSONS: "L Q",
    P.ARCHIVE: "L Q",
    P.KEEP_PEOPLE: "A",
    P.KEEP_SITE: "A",
    P.VERIFY_RECORD: "L Q R",
}
LETTERS = dict(
    zip(
        "TLQCDRA",
        [
            "technician",
            "laboratory_manager",
            "quality_manager",
            "technologist",
            "despatch",
            "auditor",
            "administrator",
        ],
        strict=True,
    )
)


def test_every_permission_has_its_act_and_stands_in_the_table():
    assert set(Permission) == ACTS.keys() == WHO_MAY.keys()


def test_the_roles_are_those_of_the_house():
    assert list(roles.ROLES) == list(LETTERS.values())


@pytest.mark.parametrize("permission", Permission)
def test_each_permission_is_held_by_these_roles_and_no_others(permission):
    holders = {
        key for key, role in roles.ROLES.items() if permission in role.permissions
    }

    assert holders == {LETTERS[letter] for letter in WHO_MAY[permission].split()}


def test_an_administrator_enters_no_data_and_approves_nothing():
    held = roles.ROLES["administrator"].permissions

    assert held == {P.READ, P.KEEP_PEOPLE, P.KEEP_SITE}


def test_the_permissions_of_several_roles_add_up(person):
    both = person("despatch", "technologist")

    assert allowed(both, P.ALLOT_PACKS)
    assert allowed(both, P.REGISTER_BATCHES)
    assert not allowed(both, P.AUTHORISE_LOTS)


def test_a_refusal_says_who_may_and_what_the_person_is(person):
    with pytest.raises(NotAllowed) as refusal:
        check(person("technician"), P.AUTHORISE_LOTS)

    assert refusal.value.sentence == (
        "Authorising fill lots is for the laboratory manager or the quality manager. "
        "Technician is technician."
    )


def test_a_person_without_a_role_may_not_even_read(person):
    with pytest.raises(NotAllowed, match="has no role yet"):
        check(person(), P.READ)


@pytest.mark.parametrize("nobody", [None, AnonymousUser()], ids=["none", "anonymous"])
def test_a_stranger_is_asked_to_sign_in(nobody):
    assert not allowed(nobody, P.READ)
    with pytest.raises(NotAllowed, match="Sign in first"):
        check(nobody, P.READ)


def test_a_deactivated_person_may_nothing(person):
    technician = person("technician")
    technician.is_active = False

    with pytest.raises(NotAllowed, match="deactivated"):
        check(technician, P.READ)


def test_roles_are_told_in_words():
    assert roles.in_words(["despatch", "technician"]) == "technician and despatch"
    assert roles.in_words(["auditor"]) == "auditor"
    assert roles.in_words([]) == ""


@pytest.mark.parametrize(
    ("held", "warns"),
    [
        (["administrator"], False),
        (["administrator", "auditor"], False),
        (["technician", "despatch"], False),
        (["administrator", "technician"], True),
        (["administrator", "quality_manager"], True),
    ],
)
def test_accounts_and_data_in_one_hand_are_warned_of(held, warns):
    assert bool(roles.mixing(held)) is warns


def check_moon(phase):
    if phase != "full":
        raise WrongMove("Wait for the full moon.")


def test_a_rule_has_a_twin_that_answers_and_one_that_says_why_not():
    can, why_not = rules.twin(check_moon), rules.refusal_of(check_moon)

    assert (can("full"), can("new")) == (True, False)
    assert (why_not("full"), why_not("new")) == ("", "Wait for the full moon.")


def test_a_twin_does_not_hide_a_fault_of_the_program():
    with pytest.raises(TypeError):
        rules.twin(check_moon)()
