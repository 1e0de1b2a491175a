"""Writing a draft line by line: what is demanded, what is refused, and that nothing typed is lost."""

import pytest

from lims.people.queries import person
from lims.products import actions, queries
from lims.products.models import Requirement, Revision
from lims.screens.specifications import revisions
from tests.lims.screens.specifications.conftest import (
    address,
    line_of,
    line_sent,
    new_line,
    text_of,
)


def test_a_draft_is_opened_with_the_next_number_and_the_lines_in_force(as_):
    client = as_("chem-1")
    form = client.get(address("open-draft", "LX2")).context["form"]

    answered = client.post(
        address("open-draft", "LX2"), {"customer": "", "number": "6", "note": "n"}
    )

    made = queries.draft_of(queries.product("LX2"))
    assert form["number"].value() == "6"
    assert answered["Location"] == address("revision", made.pk)
    assert made.requirements.count() == 9


def test_a_draft_for_a_customer_is_offered_with_the_customers_next_number(as_):
    page = as_("chem-1").get(address("open-draft", "LX2"), {"customer": "OL"})

    assert page.context["form"]["customer"].value() == "OL"
    assert "Osprey-Lune Drivetrain" in text_of(page)


def test_a_second_draft_is_refused_and_the_typed_note_is_kept(as_, draft):
    answered = as_("chem-1").post(
        address("open-draft", "LX2"),
        {"customer": "", "number": "7", "note": "why there is a seventh"},
    )

    assert answered.status_code == 409
    assert "There is a draft already, revision 6" in text_of(answered)
    assert "why there is a seventh" in answered.content.decode()


def test_nothing_is_preselected_for_comparing_and_rule(as_, draft):
    page = as_("chem-1").get(new_line(draft, "dropping-point-bath"))

    form = page.context["form"]
    assert page.status_code == 200
    assert not form["comparing"].value()
    assert not form["rule"].value()


def test_the_characteristic_is_chosen_first(as_, draft):
    page = as_("chem-1").get(address("line-new", draft.pk))
    unknown = as_("chem-1").get(new_line(draft, "no-such-thing"))

    assert "First choose what is to be measured" in text_of(page)
    assert unknown.status_code == 200
    assert unknown.context["form"].errors["characteristic"]


def test_a_line_is_added_with_its_limits_as_typed(as_, draft):
    row = line_of(draft, "oil-separation")
    actions.remove_requirement(requirement=row, by=person("chem-1"))

    answered = as_("chem-1").post(
        new_line(draft, "oil-separation"),
        line_sent(draft, row, lower="", upper="5.00"),
    )

    assert answered.status_code == 303
    assert line_of(draft, "oil-separation").upper == "5.00"


def test_a_second_line_of_the_same_kind_does_not_replace_the_first(as_, penetration):
    draft = penetration.revision

    answered = as_("chem-1").post(
        new_line(draft, "worked-penetration"),
        line_sent(draft, penetration, lower="200", upper="400"),
    )

    assert answered.status_code == 422
    assert "change that line" in text_of(answered)
    penetration.refresh_from_db()
    assert penetration.lower == "265"


@pytest.mark.parametrize(
    ("given", "field", "sentence"),
    [
        ({"comparing": ""}, "comparing", "there is no default"),
        ({"rule": ""}, "rule", "there is no default"),
        ({"lower": "300"}, "upper", "The lower limit 300 is above the upper, 295"),
        ({"lower": "", "upper": ""}, "upper", "Enter a lower or an upper limit"),
        ({"upper": "some"}, "upper", "some"),
        ({"edition": ""}, "edition", "Name the method's edition"),
        ({"internal_upper": "299"}, "upper", "outside the limits"),
        ({"scope": "periodic"}, "every_batches", "Say how often"),
        ({"number": "2"}, "number", "Line 2 is"),
    ],
)
def test_a_line_that_cannot_stand_is_refused_beside_its_box(
    given, field, sentence, as_, penetration
):
    draft = penetration.revision

    answered = as_("chem-1").post(
        address("line-change", penetration.pk), line_sent(draft, penetration, **given)
    )

    assert answered.status_code == 422
    assert sentence in answered.context["form"].errors[field][0]
    kept = answered.context["form"]
    assert all((kept[name].value() or "") == value for name, value in given.items())
    penetration.refresh_from_db()
    assert (penetration.lower, penetration.upper) == ("265", "295")


def test_a_line_is_changed(as_, penetration):
    answered = as_("chem-1").post(
        address("line-change", penetration.pk),
        line_sent(penetration.revision, penetration, lower="268", number="1"),
    )

    assert answered.status_code == 303
    penetration.refresh_from_db()
    assert penetration.lower == "268"


def test_a_rating_offers_the_marks_of_its_scale(as_, draft):
    row = line_of(draft, "copper-strip")
    client = as_("chem-1")

    form = client.get(address("line-change", row.pk)).context["form"]
    answered = client.post(
        address("line-change", row.pk), line_sent(draft, row, upper="1a")
    )

    assert ("4c", "4c") in form.fields["upper"].choices
    assert "lower" not in form.fields
    assert answered.status_code == 303
    row.refresh_from_db()
    assert row.upper == "1a"


def test_words_have_a_box_for_what_must_be_seen_and_none_for_numbers(as_, draft):
    row = line_of(draft, "appearance")

    form = as_("chem-1").get(address("line-change", row.pk)).context["form"]

    assert form["must"].value() == "smooth, free of lumps"
    assert not {"lower", "upper"} & set(form.fields)


def test_a_report_only_line_has_no_boxes_for_limits(as_, draft):
    row = line_of(draft, "unworked-penetration", "report only")
    client = as_("chem-1")

    form = client.get(address("line-change", row.pk)).context["form"]
    answered = client.post(
        address("line-change", row.pk),
        {
            "edition": row.edition_id,
            "scope": "per batch",
            "version": Revision.objects.get(pk=draft.pk).version,
        },
    )

    assert not {"lower", "upper", "comparing", "rule"} & set(form.fields)
    assert answered.status_code == 303
    row.refresh_from_db()
    assert (row.kind, row.scope) == ("report only", "per batch")


def test_a_customers_line_may_not_be_wider_than_the_products_own(as_, agreed):
    own = line_of(queries.in_force(queries.product("LX2")), "worked-penetration")
    client = as_("chem-1")
    page = text_of(client.get(new_line(agreed, "worked-penetration")))

    answered = client.post(
        new_line(agreed, "worked-penetration"),
        line_sent(agreed, own, lower="260", upper="290"),
    )

    assert "must be 265 to 295" in page
    assert answered.status_code == 409
    assert "is wider than the product's own limits (265 to 295)" in text_of(answered)
    assert 'value="260"' in answered.content.decode()
    assert not agreed.requirements.exists()


def test_a_late_line_is_refused_with_yours_and_theirs_and_can_be_sent_again(
    as_, penetration
):
    draft = penetration.revision
    late = line_sent(draft, penetration, lower="270")
    client = as_("chem-1")
    there = address("line-change", penetration.pk)
    client.post(there, line_sent(draft, penetration, lower="267"))

    refused = client.post(there, late)
    again = late | {"version": refused.context["form"]["version"].value()}
    answered = client.post(there, again)

    assert refused.status_code == 409
    assert "yours: 270 theirs: 267" in text_of(refused)
    assert 'value="270"' in refused.content.decode()
    assert answered.status_code == 303
    penetration.refresh_from_db()
    assert penetration.lower == "270"


def test_the_head_of_a_draft_is_changed_and_a_late_change_refused(as_, draft):
    seen = Revision.objects.get(pk=draft.pk).version
    sent = {"number": "6a", "part_number": "", "note": "first", "version": seen}
    client = as_("chem-1")

    answered = client.post(address("draft-change", draft.pk), sent)
    late = client.post(address("draft-change", draft.pk), sent | {"note": "second"})

    assert answered.status_code == 303
    assert late.status_code == 409
    assert "yours: second theirs: first" in text_of(late)
    assert Revision.objects.get(pk=draft.pk).note == "first"


def test_a_line_is_taken_out_by_post_at_the_version_that_was_seen(as_, penetration):
    seen = Revision.objects.get(pk=penetration.revision_id).version
    client = as_("chem-1")
    there = address("line-remove", penetration.pk)

    by_get = client.get(there)
    late = client.post(there, {"version": seen + 1})
    kept = Requirement.objects.filter(pk=penetration.pk).exists()
    answered = client.post(there, {"version": seen})

    assert by_get.status_code == 405
    assert late.status_code == 409
    assert kept
    assert answered.status_code == 303
    assert not Requirement.objects.filter(pk=penetration.pk).exists()


@pytest.mark.parametrize(
    ("had", "proposed"),
    [
        ([], "1"),
        (["4", "10", "2"], "11"),
        (["A", "C", "B"], "D"),
        (["C", "4"], "5"),
        (["Z"], "1"),
        (["2026-1", ""], "1"),
    ],
)
def test_the_number_proposed_follows_the_highest(had, proposed):
    assert revisions.next_number(had) == proposed
