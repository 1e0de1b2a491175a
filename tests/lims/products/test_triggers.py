"""The database itself refuses to change an approved revision, even inside an entry."""

import pytest
from django.db import IntegrityError, connection

from lims.record.gate import entry
from tests.factories import products

BACK_TO_DRAFT = (
    "state = 'draft', in_force_on = NULL, approved_at = NULL, "
    "approved_by_id = NULL, signature_id = NULL"
)


@pytest.fixture
def revision(technologist, quality_manager, lx2):
    return products.in_force(lx2, by=technologist, approver=quality_manager)


def by_hand(about, sql, *values):
    with (
        entry(by=None, verb="draft_changed", about=about, note="by hand"),
        connection.cursor() as cursor,
    ):
        cursor.execute(sql, values)


def test_a_line_in_force_is_not_updated(revision):
    with pytest.raises(
        IntegrityError, match="of an approved revision is never changed"
    ):
        by_hand(revision, "UPDATE products_requirement SET upper = '999'")

    assert revision.requirements.get().upper == "295"


def test_a_line_in_force_is_not_deleted(revision):
    with pytest.raises(
        IntegrityError, match="of an approved revision is never changed"
    ):
        by_hand(revision, "DELETE FROM products_requirement")

    assert revision.requirements.exists()


def test_a_line_is_not_added_to_what_is_in_force(revision):
    row = revision.requirements.get()
    row.pk, row.line, row.kind, row.comparing, row.rule = None, 2, "report only", "", ""

    with (
        pytest.raises(IntegrityError, match="of an approved revision is never changed"),
        entry(by=None, verb="draft_changed", about=revision),
    ):
        row.save()

    assert revision.requirements.count() == 1


def test_a_line_is_not_moved_out_of_what_is_in_force(revision, technologist, lx2):
    draft = products.draft(lx2, by=technologist, number="6", lines=[])

    with pytest.raises(
        IntegrityError, match="of an approved revision is never changed"
    ):
        by_hand(
            revision,
            "UPDATE products_requirement SET revision_id = %s, line = 9 "
            "WHERE revision_id = %s",
            draft.pk,
            revision.pk,
        )


def test_a_line_of_a_draft_is_not_moved_into_what_is_in_force(
    revision, technologist, lx2
):
    draft = products.draft(lx2, by=technologist, number="6")

    with pytest.raises(
        IntegrityError, match="of an approved revision is never changed"
    ):
        by_hand(
            revision,
            "UPDATE products_requirement SET revision_id = %s, line = 9, "
            "kind = 'typical' WHERE revision_id = %s",
            revision.pk,
            draft.pk,
        )


@pytest.mark.parametrize(
    "change",
    [
        "number = '99'",
        "note = 'x'",
        "part_number = 'x'",
        "in_force_on = '2020-01-01'",
        BACK_TO_DRAFT,
    ],
)
def test_a_revision_in_force_is_only_superseded(revision, change):
    with pytest.raises(IntegrityError, match="never changed, only superseded"):
        by_hand(revision, " ".join(["UPDATE products_revision SET", change]))


def test_a_superseded_revision_does_not_come_back(
    revision, technologist, quality_manager, lx2
):
    products.in_force(lx2, by=technologist, approver=quality_manager, number="6")

    with pytest.raises(IntegrityError, match="never changed, only superseded"):
        by_hand(
            revision,
            "UPDATE products_revision SET state = 'in force' WHERE id = %s",
            revision.pk,
        )


def test_a_revision_in_force_is_not_deleted(revision):
    with pytest.raises(IntegrityError, match="never changed, only superseded"):
        by_hand(revision, "DELETE FROM products_revision")

    revision.refresh_from_db()
    assert revision.state == "in force"


def test_a_draft_may_change_by_the_same_statements(technologist, lx2):
    draft = products.draft(lx2, by=technologist)

    by_hand(draft, "UPDATE products_requirement SET upper = '290'")
    by_hand(draft, "UPDATE products_revision SET number = '7'")

    draft.refresh_from_db()
    assert (draft.number, draft.requirements.get().upper) == ("7", "290")


@pytest.mark.parametrize(
    ("change", "constraint"),
    [
        ("uncertainty = '2'", "an_uncertainty_has_its_basis_and_its_confidence"),
        ("confidence = '0.95'", "an_uncertainty_has_its_basis_and_its_confidence"),
        (
            "basis = 'reproducibility', uncertainty = '20'",
            "an_uncertainty_has_its_basis_and_its_confidence",
        ),
        ("origin = 'NLGI 2'", "an_origin_has_its_standing"),
        ("origin_checked_by = 'QM-1'", "an_origin_has_its_standing"),
    ],
)
def test_what_belongs_together_in_a_line_is_kept_together(
    change, constraint, technologist, lx2
):
    draft = products.draft(lx2, by=technologist, lines=[products.worked_line()])
    sql = " ".join(
        ["UPDATE products_requirement SET", change, "WHERE revision_id = %s"]
    )

    with pytest.raises(IntegrityError, match=constraint):
        by_hand(draft, sql, draft.pk)
