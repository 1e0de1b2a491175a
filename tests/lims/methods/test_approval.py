"""Approving figures: who may, what is signed, what becomes of the revision before, and what is refused."""

import pytest

from lims.methods import actions, queries
from lims.methods.models import FiguresRevision
from lims.record import clock, signatures
from lims.record.models import Entry, Signature
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from tests.factories import methods
from tests.factories.methods import figure
from tests.factories.people import PASSWORD

CONSTANTS = figure("constants", "exact")


@pytest.fixture
def draft(technologist):
    return methods.draft(by=technologist, figures=[CONSTANTS])


def approve(revision, by, **change):
    given = {"password": PASSWORD} | change
    return actions.approve_figures(revision=revision, **given, by=by)


def test_the_draft_is_in_force_and_the_one_before_superseded(draft, technologist):
    shipped = queries.figures_in_force(draft.edition)

    made = approve(draft, technologist)

    shipped.refresh_from_db()
    assert (shipped.state, made.state) == ("superseded", "in force")
    assert queries.figures_in_force(draft.edition) == made
    assert queries.figures_draft(draft.edition) is None
    assert (made.approved_by, made.approved_at) == (technologist, clock.now())
    assert Entry.objects.first().verb == "figures_approved"


def test_who_drafted_may_approve_and_so_may_the_quality_manager(draft, person):
    assert approve(draft, person("quality_manager")).state == "in force"


def test_the_signature_holds_every_figure_whole(draft, technologist):
    seen = draft.version

    made = approve(draft, technologist)

    signature = Signature.objects.get()
    told = signatures.signed_content(signature)
    assert made.signature == signature
    assert (signature.version, signature.meaning) == (seen, "reviewed and approved")
    assert (told["edition"], told["revision"]) == ("ASTM D217-21a", 2)
    assert CONSTANTS.told in told["figures"]
    assert told["figures"] == made.figures


def test_a_wrong_password_signs_nothing(draft, technologist):
    with pytest.raises(BadInput, match="not your password") as refused:
        approve(draft, technologist, password="seven loud herons")

    assert refused.value.field == "password"
    assert not Signature.objects.exists()
    assert queries.figures_in_force(draft.edition).number == 1


@pytest.mark.parametrize("role", ["laboratory_manager", "technician", "administrator"])
def test_who_only_drafts_does_not_approve(role, draft, person):
    with pytest.raises(
        NotAllowed,
        match="Approving figures of methods is for the quality manager or the technol",
    ):
        approve(draft, person(role))


def test_a_draft_that_changed_since_it_was_seen_is_not_signed(draft, technologist):
    seen = draft.version
    other = FiguresRevision.objects.get(pk=draft.pk)
    actions.set_figure(
        revision=draft, figure=figure("direction", "lower"), by=technologist
    )

    with pytest.raises(ChangedSince, match="decide again"):
        approve(draft, technologist, version=seen)
    with pytest.raises(ChangedSince, match="decide again"):
        approve(other, technologist)

    assert not Signature.objects.exists()


def test_a_discarded_draft_is_not_signed(draft, technologist):
    other = FiguresRevision.objects.get(pk=draft.pk)
    actions.discard_draft(revision=draft, by=technologist)

    with pytest.raises(ChangedSince, match="The draft of revision 2 was changed"):
        approve(other, technologist)


def test_a_draft_that_changes_nothing_is_refused(technologist):
    same = methods.draft(by=technologist)

    with pytest.raises(WrongMove, match="says the same as what is in force"):
        approve(same, technologist)


def test_a_first_draft_without_figures_is_refused(technologist):
    empty = methods.draft(methods.bare_edition(by=technologist), by=technologist)

    with pytest.raises(WrongMove, match="Revision 1 states no figure: enter one"):
        approve(empty, technologist)


def test_figures_may_be_taken_back_to_none(technologist):
    draft = methods.draft(methods.edition("ASTM D4048", "22"), by=technologist)
    for it in queries.figures_of(draft):
        actions.remove_figure(revision=draft, figure=it, by=technologist)

    made = approve(draft, technologist)

    assert (made.state, made.figures) == ("in force", [])


def test_a_draft_with_half_a_statement_is_refused(technologist):
    draft = methods.draft(
        by=technologist, figures=[figure("repeat rule", "ISO 5725-6")]
    )

    with pytest.raises(WrongMove, match="state the route, one of two more; one more"):
        approve(draft, technologist)


def test_what_is_in_force_is_not_approved_again(draft, technologist):
    made = approve(draft, technologist)

    with pytest.raises(WrongMove, match="is in force and cannot change"):
        approve(made, technologist)
