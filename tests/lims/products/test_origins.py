"""A named person checks where a copied line comes from, while it is a draft."""

import pytest

from lims.people.days import today
from lims.products import actions, signing
from lims.products.models import Requirement
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import products
from tests.factories.published import copied_into


def test_a_named_person_checks_where_a_line_comes_from(draft, technologist):
    copied_into(draft, "X1", by=technologist)
    row = draft.requirements.get(characteristic__code="oil-separation")

    actions.check_origin(requirement=row, checked_by=" P. Lindqvale ", by=technologist)

    row = Requirement.objects.get(pk=row.pk)
    assert row.origin_checked_by == "P. Lindqvale"
    assert Entry.objects.first().verb == "origin_checked"
    assert "P. Lindqvale" in signing.content_of(row.revision, today())


def test_a_check_of_an_origin_names_somebody(draft, technologist, technician):
    copied_into(draft, "X1", by=technologist)
    row = draft.requirements.first()

    with pytest.raises(BadInput, match="Say who compared the line") as refused:
        actions.check_origin(requirement=row, checked_by=" ", by=technologist)
    with pytest.raises(BadInput, match="shorten it to 80"):
        actions.check_origin(requirement=row, checked_by="x" * 81, by=technologist)
    with pytest.raises(NotAllowed):
        actions.check_origin(requirement=row, checked_by="T", by=technician)

    assert refused.value.field == "checked_by"


def test_a_line_written_here_has_no_origin_to_check(draft, technologist):
    row = actions.set_requirement(
        revision=draft, line=products.worked_line(), by=technologist
    )

    with pytest.raises(WrongMove, match="was not copied from a published specific"):
        actions.check_origin(requirement=row, checked_by="T", by=technologist)


def test_the_origin_of_a_line_in_force_is_not_checked_any_more(
    draft, technologist, quality_manager
):
    copied_into(draft, "X1", by=technologist)
    draft.refresh_from_db()
    actions.approve_revision(
        revision=draft, password=products.PASSWORD, by=quality_manager
    )

    with pytest.raises(WrongMove, match="is in force and cannot change"):
        actions.check_origin(
            requirement=draft.requirements.first(), checked_by="T", by=technologist
        )
