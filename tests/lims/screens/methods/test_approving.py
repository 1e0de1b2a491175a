"""Figures on screen: what is signed, what a revision changes, and how two revisions are compared."""

import pytest

from lims.methods import actions, queries
from lims.people.queries import person
from tests.factories import methods
from tests.factories.methods import figure
from tests.factories.people import PASSWORD
from tests.lims.screens.methods.conftest import address, sent_by, text_of


def test_the_approval_says_what_is_signed_and_what_it_changes(as_, draft):
    text = text_of(as_("chem-1").get(address("figures-approve", draft.pk)))

    assert "1 difference to revision 1, which is in force now." in text
    assert "reviewed and approve revision 2 of the figures of ASTM D217-21a" in text
    assert f"{len(draft.figures)} figures. From now on they are in force" in text
    assert "Constants Worked penetration, 60 double strokes, 25 °C new" in text


@pytest.mark.parametrize("account", ["chem-1", "qm-1"])
def test_a_draft_is_approved_with_a_password(account, as_, d217, draft):
    client = as_(account)
    page = client.get(address("figures-approve", draft.pk))

    answered = client.post(
        address("figures-approve", draft.pk), sent_by(page, password=PASSWORD)
    )

    made = queries.figures_in_force(d217)
    assert answered["Location"] == address("figures", draft.pk)
    assert (made.pk, made.approved_by) == (draft.pk, person(account))
    shown = text_of(client.get(address("figures", draft.pk)))
    assert "reviewed and approved" in shown
    assert f"Signed by {person(account).name}" in shown


def test_a_wrong_password_approves_nothing(as_, d217, draft):
    client = as_("chem-1")
    page = client.get(address("figures-approve", draft.pk))

    answered = client.post(
        address("figures-approve", draft.pk), sent_by(page, password="wrong")
    )

    assert answered.status_code == 422
    assert "That is not your password" in text_of(answered)
    assert queries.figures_in_force(d217).number == 1


def test_a_draft_that_changed_is_shown_again_before_it_is_signed(as_, d217, draft):
    client = as_("chem-1")
    page = client.get(address("figures-approve", draft.pk))
    actions.set_figure(
        revision=draft, figure=figure("constants", "printed"), by=person("mgr-1")
    )

    refused = client.post(
        address("figures-approve", draft.pk), sent_by(page, password=PASSWORD)
    )
    answered = client.post(
        address("figures-approve", draft.pk), sent_by(refused, password=PASSWORD)
    )

    assert refused.status_code == 409
    assert "printed" in text_of(refused)
    assert answered.status_code == 303


def test_a_draft_that_cannot_be_approved_says_why(as_, d217):
    same = methods.draft(d217, by=person("chem-1"))

    text = text_of(as_("chem-1").get(address("figures-approve", same.pk)))

    assert "This draft cannot be approved now." in text
    assert "says the same as what is in force" in text


def test_a_laboratory_manager_drafts_and_does_not_approve(as_, draft):
    answered = as_("mgr-1").get(address("figures-approve", draft.pk))

    assert answered.status_code == 403
    assert "is for the quality manager or the technologist" in text_of(answered)


def test_two_revisions_are_compared(as_, d217, draft):
    client = as_("chem-1")
    actions.approve_figures(revision=draft, password=PASSWORD, by=person("chem-1"))
    third = methods.in_force(
        d217, by=person("chem-1"), figures=[figure("constants", "printed")]
    )

    before = text_of(client.get(address("figures", third.pk)))
    first = text_of(client.get(address("figures", third.pk), {"against": "1"}))
    shipped = d217.figures_revisions.get(number=1)
    oldest = text_of(client.get(address("figures", shipped.pk)))

    assert "Revision 2, superseded, to this one." in before
    assert "value was exact → printed" in before
    assert "Revision 1, superseded, to this one." in first
    assert "value printed" in first
    assert "in force as shipped until a later revision took their place" in oldest
    assert "Figures superseded cannot change; open a draft." in oldest


def test_the_first_revision_has_nothing_before_it(as_, d217):
    text = text_of(
        as_("aud-1").get(address("figures", queries.figures_in_force(d217).pk))
    )

    assert "The first revision: none came before it." in text
    assert "Nobody signed it: it came with the program." in text
