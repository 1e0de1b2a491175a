"""Drafts: opening one, changing it, setting and removing lines."""

import pytest

from lims.products import actions, queries
from lims.products.models import Requirement, Revision
from lims.record.models import Entry
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from tests.factories import products
from tests.factories.methods import characteristic


def texts(revision):
    rows = queries.requirements_of(revision)
    return [(row.line, row.characteristic.code, row.limits) for row in rows]


def test_the_first_draft_makes_the_specification_and_is_empty(technologist, lx2):
    draft = actions.open_draft(product=lx2, number=" 1 ", by=technologist)

    assert (draft.number, draft.state) == ("1", "draft")
    assert queries.specification_of(lx2) == draft.specification
    assert queries.draft_of(lx2) == draft
    assert not draft.requirements.exists()
    assert Entry.objects.first().about_name == "specification LX2 revision 1"


def test_the_next_draft_begins_with_the_lines_in_force(
    technologist, quality_manager, lx2
):
    old = products.in_force(lx2, by=technologist, approver=quality_manager)

    draft = actions.open_draft(product=lx2, number="6", by=technologist)

    assert texts(draft) == texts(old) == [(1, "worked-penetration", "265 to 295")]
    assert queries.in_force(lx2) == old


def test_a_customers_draft_stands_beside_the_products(technologist, lx2, osprey):
    products.draft(lx2, by=technologist)

    draft = actions.open_draft(
        product=lx2, customer=osprey, number="C", part_number="40-117", by=technologist
    )

    assert str(draft) == "OL for LX2 revision C"
    assert queries.draft_of(lx2, osprey) == draft


def test_a_specification_has_one_draft(technologist, lx2):
    products.draft(lx2, by=technologist, number="5")

    with pytest.raises(WrongMove, match="a draft already, revision 5"):
        actions.open_draft(product=lx2, number="6", by=technologist)


def test_a_revision_number_is_used_once(technologist, quality_manager, lx2):
    products.in_force(lx2, by=technologist, approver=quality_manager, number="5")

    with pytest.raises(BadInput, match="Revision 5 of this specification") as refused:
        actions.open_draft(product=lx2, number="5", by=technologist)

    assert refused.value.field == "number"


@pytest.mark.parametrize("number", ["", "12345678901"])
def test_a_revision_number_is_short_and_there(technologist, lx2, number):
    with pytest.raises(BadInput) as refused:
        actions.open_draft(product=lx2, number=number, by=technologist)

    assert refused.value.field == "number"
    assert not Revision.objects.exists()


def test_a_draft_changes_its_number_and_note(technologist, lx2):
    draft = products.draft(lx2, by=technologist)

    actions.change_draft(
        revision=draft, number="6", part_number="", note="tighter", by=technologist
    )

    found = queries.draft_of(lx2)
    assert (found.number, found.note) == ("6", "tighter")


def test_a_draft_does_not_take_a_number_that_stands(technologist, quality_manager, lx2):
    products.in_force(lx2, by=technologist, approver=quality_manager, number="5")
    draft = actions.open_draft(product=lx2, number="6", by=technologist)

    with pytest.raises(BadInput, match="Revision 5 of this specification"):
        actions.change_draft(
            revision=draft, number="5", part_number="", note="", by=technologist
        )


def test_lines_go_last_or_where_they_are_asked(technologist, lx2):
    draft = actions.open_draft(product=lx2, number="5", by=technologist)
    line = products.worked_line()

    actions.set_requirement(revision=draft, line=line, by=technologist)
    actions.set_requirement(
        revision=draft, line=products.unworked_line(number=7), by=technologist
    )
    actions.set_requirement(
        revision=draft, line=products.dropping_line(), by=technologist
    )

    assert texts(draft) == [
        (1, "worked-penetration", "265 to 295"),
        (7, "unworked-penetration", "no limit"),
        (8, "dropping-point-block", "at least 190"),
    ]


def test_the_same_characteristic_and_kind_is_replaced(technologist, lx2):
    draft = products.draft(lx2, by=technologist)

    line = products.worked_line("270", "290")
    actions.set_requirement(revision=draft, line=line, by=technologist)

    assert texts(draft) == [(1, "worked-penetration", "270 to 290")]


@pytest.mark.parametrize("number", [0, 1000])
def test_a_line_stands_within_the_paper(technologist, lx2, number):
    draft = products.draft(lx2, by=technologist, lines=[])

    with pytest.raises(BadInput, match="Enter a line from 1 to 999"):
        actions.set_requirement(
            revision=draft, line=products.worked_line(number=number), by=technologist
        )


def test_two_lines_do_not_stand_in_one_place(technologist, lx2):
    draft = products.draft(lx2, by=technologist)

    with pytest.raises(BadInput, match="Line 1 is “Worked penetration, 60") as refused:
        actions.set_requirement(
            revision=draft, line=products.dropping_line(number=1), by=technologist
        )

    assert refused.value.field == "number"


def test_a_line_is_removed_and_the_record_keeps_it(technologist, lx2):
    draft = products.draft(lx2, by=technologist)

    actions.remove_requirement(requirement=draft.requirements.get(), by=technologist)

    assert not draft.requirements.exists()
    told = Entry.objects.first()
    assert told.verb == "requirement_removed"
    assert {"upper", "lower"} <= {change["field"] for change in told.changes}


def test_a_line_is_removed_once(technologist, lx2):
    draft = products.draft(lx2, by=technologist)
    row = draft.requirements.get()
    same = Requirement.objects.get(pk=row.pk)
    actions.remove_requirement(requirement=row, by=technologist)

    with pytest.raises(WrongMove, match="no longer in the draft"):
        actions.remove_requirement(requirement=same, by=technologist)


def test_what_is_in_force_takes_no_line_and_loses_none(
    technologist, quality_manager, lx2
):
    revision = products.in_force(lx2, by=technologist, approver=quality_manager)

    with pytest.raises(WrongMove, match="Revision 5 is in force and cannot change"):
        actions.set_requirement(
            revision=revision, line=products.worked_line("1", "2"), by=technologist
        )
    with pytest.raises(WrongMove, match="open a draft of the next one"):
        actions.remove_requirement(
            requirement=revision.requirements.get(), by=technologist
        )
    with pytest.raises(WrongMove):
        actions.change_draft(
            revision=revision, number="9", part_number="", note="", by=technologist
        )


def test_a_draft_that_somebody_changed_is_not_changed_over(technologist, lx2):
    draft = products.draft(lx2, by=technologist)
    seen = draft.version
    actions.set_requirement(
        revision=draft, line=products.dropping_line(), by=technologist
    )

    with pytest.raises(ChangedSince):
        actions.set_requirement(
            revision=queries.draft_of(lx2),
            line=products.worked_line("270", "290"),
            version=seen,
            by=technologist,
        )

    assert (1, "worked-penetration", "265 to 295") in texts(draft)


def test_a_technician_drafts_nothing(technologist, technician, lx2):
    draft = products.draft(lx2, by=technologist)
    row = draft.requirements.get()

    with pytest.raises(NotAllowed, match="Drafting specifications is for"):
        actions.open_draft(product=lx2, number="9", by=technician)
    with pytest.raises(NotAllowed):
        actions.change_draft(
            revision=draft, number="9", part_number="", note="", by=technician
        )
    with pytest.raises(NotAllowed):
        actions.set_requirement(
            revision=draft, line=products.dropping_line(), by=technician
        )
    with pytest.raises(NotAllowed):
        actions.remove_requirement(requirement=row, by=technician)


def test_the_lines_of_a_revision_come_in_one_query(
    technologist, lx2, django_assert_num_queries
):
    lines = [products.worked_line(), products.dropping_line()]
    draft = products.draft(lx2, by=technologist, lines=lines)

    with django_assert_num_queries(1):
        told = [
            (row.characteristic.in_full, str(row.edition))
            for row in queries.requirements_of(draft)
        ]

    assert told[1] == (characteristic("dropping-point-block").in_full, "ASTM D2265-20")
