"""Approving a revision: who, when, with what signature, and what becomes of the one before."""

import datetime as dt
import json

import pytest

from lims.products import actions, queries
from lims.products.models import Revision
from lims.record import clock, signatures
from lims.record.models import Entry, Signature
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from tests.factories import products
from tests.factories.people import PASSWORD

TODAY = dt.date(2026, 3, 4)


@pytest.fixture
def draft(technologist, lx2):
    return products.draft(lx2, by=technologist)


def approve(revision, by, **change):
    given = {"password": PASSWORD} | change
    return actions.approve_revision(revision=revision, **given, by=by)


def test_an_approved_revision_is_in_force_from_today(draft, quality_manager, lx2):
    approve(draft, quality_manager)

    found = queries.in_force(lx2)
    assert (found.pk, found.in_force_on) == (draft.pk, TODAY)
    assert found.approved_by == quality_manager
    assert found.approved_at == clock.now()
    assert queries.in_force(found.specification) == found
    assert queries.draft_of(lx2) is None
    assert Entry.objects.first().verb == "revision_approved"


def test_the_signature_holds_every_line_and_the_version_seen(draft, quality_manager):
    seen = draft.version

    approve(draft, quality_manager)

    signature = Signature.objects.get()
    assert signature.version == seen
    assert signature.meaning == "reviewed and approved"
    assert signature.function == "quality manager"
    told = signatures.signed_content(signature)
    assert (told["product"], told["customer"], told["revision"]) == ("LX2", None, "5")
    assert told["in_force_on"] == "2026-03-04"
    [line] = told["requirements"]
    assert line["edition"] == "ASTM D217-21a"
    assert (line["lower"], line["upper"], line["comparing"]) == (
        "265",
        "295",
        "rounding",
    )
    assert json.loads(signature.content)["key"] == "LX2 revision 5"


def test_the_one_before_is_superseded_in_the_same_entry(
    draft, technologist, quality_manager, lx2
):
    approve(draft, quality_manager)
    entries = Entry.objects.count()
    after = products.draft(lx2, by=technologist, number="6")
    drafted = Entry.objects.count() - entries

    approve(after, quality_manager)

    draft.refresh_from_db()
    assert (draft.state, after.state) == ("superseded", "in force")
    assert Entry.objects.count() == entries + drafted + 1
    assert list(queries.revisions_of(lx2)) == [after, draft]


def test_today_is_the_laboratorys_own_day(draft, quality_manager):
    clock.set_to(dt.datetime(2026, 3, 4, 23, 30, tzinfo=dt.UTC))  # 00:30 in Berlin

    approve(draft, quality_manager)

    assert draft.in_force_on == dt.date(2026, 3, 5)


@pytest.mark.parametrize("days", [-1, 1])
def test_a_revision_is_in_force_from_no_other_day(draft, quality_manager, days):
    other = TODAY + dt.timedelta(days=days)

    with pytest.raises(BadInput, match="on the day it is approved: enter 2026-03-04"):
        approve(draft, quality_manager, in_force_on=other)


def test_a_wrong_password_signs_nothing(draft, quality_manager, lx2):
    with pytest.raises(BadInput, match="not your password") as refused:
        approve(draft, quality_manager, password="seven loud herons")

    assert refused.value.field == "password"
    assert queries.in_force(lx2) is None
    assert not Signature.objects.exists()


def test_a_technologist_drafts_and_does_not_approve(draft, technologist):
    with pytest.raises(NotAllowed, match="is for the quality manager"):
        approve(draft, technologist)


def test_a_draft_without_lines_is_not_approved(technologist, quality_manager, lx2):
    empty = products.draft(lx2, by=technologist, lines=[])

    with pytest.raises(WrongMove, match="has no requirement: add one"):
        approve(empty, quality_manager)


def test_what_is_in_force_is_not_approved_again(draft, quality_manager):
    approve(draft, quality_manager)

    with pytest.raises(WrongMove, match="Revision 5 is in force and cannot change"):
        approve(draft, quality_manager)


def test_a_draft_that_changed_since_it_was_seen_is_not_signed(
    draft, technologist, quality_manager
):
    seen = Revision.objects.get(pk=draft.pk)
    actions.set_requirement(
        revision=draft, line=products.dropping_line(), by=technologist
    )

    with pytest.raises(ChangedSince, match="Look at it as it is now"):
        approve(seen, quality_manager)
    with pytest.raises(ChangedSince):
        approve(draft, quality_manager, version=seen.version)

    assert not Signature.objects.exists()


def test_the_database_allows_one_revision_in_force(
    draft, technologist, quality_manager, lx2
):
    products_own = approve(draft, quality_manager)
    after = products.draft(lx2, by=technologist, number="6")
    approve(after, quality_manager)

    in_force = Revision.objects.filter(state="in force")

    assert list(in_force) == [after]
    assert products_own != after
