"""The decision rule of a line on screen: what it may rest on is offered with its source, nothing is taken unsaid."""

import pytest

from lims.people.queries import person
from lims.products import actions, queries
from lims.products.models import Customer, Requirement
from tests.lims.screens.specifications.conftest import (
    address,
    line_of,
    line_sent,
    new_line,
    text_of,
)

GUARDED = {
    "rule": "guarded acceptance",
    "basis": "own uncertainty",
    "uncertainty": "2.16",
    "confidence": "0.95",
}


def test_the_laboratorys_own_and_the_methods_figures_are_offered_with_their_source(
    as_, penetration
):
    page = text_of(as_("chem-1").get(address("line-change", penetration.pk)))

    assert "u = 2.16, the laboratory's own, stated" in page
    assert "by Quill Rastrick: from the site precision" in page
    assert "R = 20, the R of ASTM D217-21a" in page
    assert "from memory, not checked" in page


def test_a_reproducibility_that_depends_on_the_level_is_offered_at_the_limit(
    as_, draft
):
    row = line_of(draft, "oil-separation")

    page = as_("chem-1").get(address("line-change", row.pk))

    offered = [it.words for it in page.context["offers"]]
    assert any(it.startswith("R = 3.392, the R of ASTM D6184-17") for it in offered)


def test_what_is_no_number_is_offered_simple_acceptance_alone(as_, draft):
    row = line_of(draft, "copper-strip")

    page = as_("chem-1").get(address("line-change", row.pk))

    form = page.context["form"]
    assert page.context["offers"] == []
    assert [key for key, _ in form.fields["rule"].choices] == ["simple acceptance"]
    assert not {"basis", "uncertainty", "confidence"} & set(form.fields)


def test_no_basis_and_no_confidence_is_chosen_beforehand(as_, draft):
    form = as_("chem-1").get(new_line(draft, "dropping-point-bath")).context["form"]

    assert not form["basis"].value()
    assert not form["uncertainty"].value()
    assert not form["confidence"].value()


def test_a_guarded_line_is_saved_and_its_rule_told_in_words(as_, penetration):
    client = as_("chem-1")
    draft = penetration.revision

    answered = client.post(
        address("line-change", penetration.pk), line_sent(draft, penetration, **GUARDED)
    )
    revision = text_of(client.get(address("revision", draft.pk)))
    line = text_of(client.get(address("line-change", penetration.pk)))

    assert answered.status_code == 303
    assert "268.55 to 291.45" in revision
    assert "268.55 to 291.45" in line
    row = Requirement.objects.get(pk=penetration.pk)
    assert (row.basis, row.uncertainty) == ("own uncertainty", "2.16")


def test_the_difference_of_a_rule_is_shown_before_it_is_signed(as_, penetration):
    draft = penetration.revision
    as_("chem-1").post(
        address("line-change", penetration.pk), line_sent(draft, penetration, **GUARDED)
    )

    page = text_of(as_("qm-1").get(address("approve", draft.pk)))

    assert "was simple acceptance" in page
    assert "u = 2.16, the laboratory's own uncertainty, confidence 0.95" in page


def test_a_rule_that_leaves_nothing_says_why_and_keeps_what_was_typed(as_, penetration):
    typed = GUARDED | {
        "basis": "reproducibility",
        "uncertainty": "20",
        "lower": "270",
        "upper": "290",
    }

    answered = as_("chem-1").post(
        address("line-change", penetration.pk),
        line_sent(penetration.revision, penetration, **typed),
    )

    form = answered.context["form"]
    assert answered.status_code == 422
    assert "270 to 290 leaves nothing to accept" in form.errors["rule"][0]
    assert {name: form[name].value() for name in typed} == typed
    penetration.refresh_from_db()
    assert penetration.rule == "simple acceptance"


@pytest.mark.parametrize(
    ("given", "field", "sentence"),
    [
        ({"basis": ""}, "basis", "Say what guarded acceptance rests on"),
        ({"uncertainty": ""}, "uncertainty", "Enter u"),
        ({"confidence": ""}, "confidence", "there is no default"),
        ({"rule": "simple acceptance"}, "basis", "takes no part"),
    ],
)
def test_a_rule_not_stated_whole_is_refused_beside_its_box(
    as_, penetration, given, field, sentence
):
    answered = as_("chem-1").post(
        address("line-change", penetration.pk),
        line_sent(penetration.revision, penetration, **GUARDED | given),
    )

    assert answered.status_code == 422
    assert sentence in answered.context["form"].errors[field][0]


def test_a_guarded_line_goes_back_to_simple_acceptance(as_, penetration):
    client = as_("chem-1")
    page = address("line-change", penetration.pk)
    client.post(page, line_sent(penetration.revision, penetration, **GUARDED))
    penetration.refresh_from_db()
    nothing = {"rule": "simple acceptance", "basis": "", "uncertainty": ""}
    penetration.revision.refresh_from_db()

    boxes = client.get(page).context["form"].fields["basis"]
    answered = client.post(
        page,
        line_sent(penetration.revision, penetration, **nothing, confidence=""),
    )

    assert ("", "nothing") in boxes.choices
    assert answered.status_code == 303
    penetration.refresh_from_db()
    assert (penetration.rule, penetration.basis) == ("simple acceptance", "")


def test_a_mark_that_cannot_be_taken_away_is_not_in_the_way_of_report_only(as_, draft):
    sent = {
        "kind": "report only",
        "edition": line_of(draft, "oil-separation").edition_id,
        "comparing": "rounding",
        "rule": "simple acceptance",
        "scope": "per fill lot",
        "version": draft.version,
    }

    refused = as_("chem-1").post(
        new_line(draft, "oil-separation"), sent | {"upper": "5.0"}
    )
    answered = as_("chem-1").post(new_line(draft, "oil-separation"), sent)

    assert list(refused.context["form"].errors) == ["upper"]
    assert answered.status_code == 303
    row = draft.requirements.get(
        kind="report only", characteristic__code="oil-separation"
    )
    assert (row.comparing, row.rule) == ("", "")


def test_what_passes_or_fails_and_a_ladder_have_boxes_of_their_own(as_, draft):
    client = as_("chem-1")

    rust = client.get(new_line(draft, "rust-prevention")).context["form"]
    weld = client.get(new_line(draft, "four-ball-weld")).context["form"]

    assert [key for key, _ in rust.fields["must"].choices] == ["", "pass"]
    assert not {"lower", "upper"} & set(rust.fields)
    assert ("400", "400") in weld.fields["lower"].choices
    assert "internal_lower" not in weld.fields


@pytest.mark.parametrize(
    ("code", "given", "told"),
    [
        ("rust-prevention", {"must": "pass", "lower": "", "upper": ""}, "must pass"),
        (
            "four-ball-weld",
            {"lower": "250", "upper": ""},
            "must be at least 250 kgf",
        ),
        (
            "emcor-distilled-water",
            {"lower": "", "upper": "1"},
            "must be 1 or better",
        ),
    ],
)
def test_a_line_of_each_kind_is_added_and_read(as_, draft, code, given, told):
    client = as_("chem-1")
    form = client.get(new_line(draft, code)).context["form"]
    edition = form.fields["edition"].choices[1][0]

    answered = client.post(
        new_line(draft, code), line_sent(draft, edition=edition, **given)
    )

    assert answered.status_code == 303, answered.context["form"].errors
    assert told in text_of(client.get(address("revision", draft.pk)))


def test_a_customers_guarded_line_stands_beside_the_products_own(as_, opened):
    draft = actions.open_draft(
        product=queries.product("LX2"),
        customer=Customer.objects.get(code="FA"),
        number="1",
        by=person("chem-1"),
    )
    client = as_("chem-1")
    own = line_of(queries.in_force(queries.product("LX2")), "worked-penetration")

    answered = client.post(
        new_line(draft, "worked-penetration"), line_sent(draft, own, **GUARDED)
    )

    assert answered.status_code == 303
    assert "268.55 to 291.45" in text_of(client.get(address("revision", draft.pk)))
