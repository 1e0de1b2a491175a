"""The database itself refuses to change figures in force, even inside an entry."""

import pytest
from django.db import IntegrityError, connection

from lims.methods import actions, queries
from lims.people.days import today
from lims.record.gate import entry
from tests.factories import methods
from tests.factories.methods import figure
from tests.factories.people import PASSWORD

REFUSED = "figures in force are never changed, only superseded"
BACK = "state = 'draft', signature_id = NULL, is_shipped = false"


def by_hand(about, sql, *values):
    with (
        entry(by=None, verb="figure_set", about=about, note="by hand"),
        connection.cursor() as cursor,
    ):
        cursor.execute(sql, values)


@pytest.fixture
def revision(technologist):
    return methods.in_force(by=technologist, figures=[figure("constants", "exact")])


@pytest.mark.parametrize(
    "change",
    [
        "figures = '[]'",
        "number = 9",
        "note = 'x'",
        "is_shipped = true",
        "approved_at = NULL",
        "approved_by_id = NULL",
        BACK,
    ],
)
def test_figures_in_force_are_only_superseded(change, revision):
    sql = " ".join(["UPDATE methods_figuresrevision SET", change, "WHERE id = %s"])

    with pytest.raises(IntegrityError, match=REFUSED):
        by_hand(revision, sql, revision.pk)


def test_figures_in_force_are_not_deleted(revision):
    with pytest.raises(IntegrityError, match=REFUSED):
        by_hand(
            revision, "DELETE FROM methods_figuresrevision WHERE id = %s", revision.pk
        )


@pytest.mark.django_db
def test_shipped_figures_are_not_changed_either():
    shipped = queries.figures_in_force(methods.edition())

    with pytest.raises(IntegrityError, match=REFUSED):
        by_hand(
            shipped,
            "UPDATE methods_figuresrevision SET figures = '[]' WHERE id = %s",
            shipped.pk,
        )


def test_superseded_figures_do_not_come_back(revision, technologist):
    methods.in_force(by=technologist, figures=[figure("constants", "printed")])

    with pytest.raises(IntegrityError, match=REFUSED):
        by_hand(
            revision,
            "UPDATE methods_figuresrevision SET state = 'in force' WHERE id = %s",
            revision.pk,
        )


def test_a_draft_may_change_by_the_same_statements(technologist):
    draft = methods.draft(by=technologist)

    by_hand(
        draft,
        "UPDATE methods_figuresrevision SET note = 'x' WHERE id = %s",
        draft.pk,
    )

    draft.refresh_from_db()
    assert draft.note == "x"


@pytest.mark.parametrize(
    "change", ["approved_at = '2026-03-05 10:00:00+00:00'", "approved_by_id = %s"]
)
def test_a_draft_is_not_half_signed(change, technologist):
    draft = methods.draft(by=technologist)
    sql = " ".join(["UPDATE methods_figuresrevision SET", change, "WHERE id = %s"])
    values = [technologist.pk] * change.count("%s")

    with pytest.raises(IntegrityError, match="are_signed_by_somebody_at_a_time"):
        by_hand(draft, sql, *values, draft.pk)


@pytest.mark.parametrize("table", ["methods_figurecheck", "methods_ownuncertainty"])
def test_checks_and_statements_are_only_added_to(table, revision):
    with pytest.raises(IntegrityError, match="is never changed, only added to"):
        _with_a_row(table, revision)


def _with_a_row(table, revision):
    """Add a row by the actions, then try to delete it by hand."""
    by = revision.approved_by
    if table == "methods_figurecheck":
        actions.check_figures(
            edition=revision.edition, checked_by="QM-1", on=today(), by=by
        )
    else:
        actions.state_own_uncertainty(
            characteristic=methods.characteristic(),
            uncertainty="2",
            basis="own results",
            password=PASSWORD,
            by=by,
        )
    by_hand(revision, " ".join(["DELETE FROM", table]))
