"""A sheet of figures of methods, from the file to a draft under Methods and, by hand, into force."""

import pytest

from lims.imports.models import Import
from lims.methods import queries
from tests.factories.people import PASSWORD
from tests.lims.screens.imports.conftest import (
    address,
    answered,
    brought,
    fresh,
    map_as_proposed,
    text_of,
    upload,
)
from tests.lims.screens.methods.conftest import address as under_methods
from tests.lims.screens.methods.conftest import sent_by

SHEET = """\
Method;Characteristic;Figure;Value;Unit;Level from;Level to;Source
ASTM D217-21a;worked-penetration;r;6;0.1 mm;130;475;own copy, 12.2
;;R;18;0.1 mm;130;475;own copy, 12.2
;;step;0,5;;;;house rule 7
"""
SAYS = {
    "A/standing": "published",
    "A/other figures": "stay",
    "E/unit": "own",
}


@pytest.fixture
def d217(opened):
    return queries.edition("ASTM D217", "21a")


@pytest.fixture
def ready(chemist, d217):
    """The sheet with its columns mapped and its questions answered, as its pages ask them."""
    row = brought(SHEET, "figures.csv", kind="figures")
    map_as_proposed(chemist, row)
    answered(chemist, row, SAYS)
    answered(chemist, row, SAYS)  # what else is in force is asked when all rows stand
    return fresh(row)


@pytest.fixture
def taken(chemist, ready):
    chemist.post(address("take", ready.pk), {"version": ready.version})
    return fresh(ready)


def worked(revision):
    return {
        it.what: it.value
        for it in queries.figures_of(revision)
        if it.characteristic == "worked-penetration"
    }


def test_the_pages_lead_from_the_file_to_its_draft(chemist, d217):
    page = chemist.post(
        address("new"),
        {"kind": "figures", "file": upload(SHEET, "figures.csv")},
        follow=True,
    )
    assert "Say next what the columns hold." in text_of(page)
    row = Import.objects.get()

    map_as_proposed(chemist, row)
    asked = text_of(chemist.get(address("questions", row.pk)))
    assert "How are these figures known?" in asked
    assert "No unit stands beside these figures." in asked

    answered(chemist, row, SAYS)
    asked = text_of(chemist.get(address("questions", row.pk)))
    assert "Of ASTM D217-21a figures are in force that the file does not state" in asked

    answered(chemist, row, SAYS)
    page = text_of(chemist.get(address("one", row.pk)))
    assert "Nothing is asked any more. 3 figures would be taken in." in page
    assert "Drafts of the next figures of editions, to be approved by hand" in page


def test_the_lines_are_seen_before_anything_is_taken(chemist, ready):
    lines = text_of(chemist.get(address("lines", ready.pk)))

    assert "Figure repeatability Value 6 Unit 0.1 mm" in lines
    assert "Standing published" in lines


def test_taken_in_it_is_a_draft_and_in_force_is_what_was(chemist, taken, d217):
    draft, in_force = queries.figures_draft(d217), queries.figures_in_force(d217)

    assert taken.state == Import.State.TAKEN_IN
    assert worked(draft)["repeatability"] == "6"
    assert worked(in_force)["repeatability"] == "7"
    assert in_force.number == 1
    shown = chemist.get(under_methods("one", d217.method_id)).content.decode()
    assert under_methods("figures", draft.pk) in shown


def test_the_page_of_the_file_leads_to_the_draft(chemist, taken, d217):
    draft = queries.figures_draft(d217)

    page = chemist.get(address("one", taken.pk))

    assert f'href="{under_methods("figures", draft.pk)}"' in page.content.decode()
    assert "Figures 2 of ASTM D217-21a draft" in text_of(page)
    assert "3 figures added." in text_of(page)
    note = text_of(chemist.get(under_methods("figures", draft.pk)))
    assert f"Note: From the file figures.csv (import {taken.pk})" in note


def test_the_usual_signature_puts_it_in_force(chemist, taken, d217):
    draft = queries.figures_draft(d217)
    there = under_methods("figures-approve", draft.pk)
    assert worked(queries.figures_in_force(d217))["repeatability"] == "7"

    page = chemist.post(there, sent_by(chemist.get(there), password=PASSWORD))

    assert page.status_code == 303
    assert worked(queries.figures_in_force(d217))["repeatability"] == "6"
    told = text_of(chemist.get(address("one", taken.pk)))
    assert "Figures 2 of ASTM D217-21a in force" in told


def test_a_draft_that_was_discarded_is_not_led_to(chemist, taken, d217):
    draft = queries.figures_draft(d217)
    chemist.post(under_methods("figures-discard", draft.pk), {"version": draft.version})

    page = text_of(chemist.get(address("one", taken.pk)))

    assert "Figures 2 of ASTM D217-21a" not in page
    assert "3 figures added." in page


def test_the_same_file_again_adds_nothing(chemist, taken):
    page = chemist.post(
        address("new"), {"kind": "figures", "file": upload(SHEET, "again.csv")}
    )

    assert page.status_code == 422
    assert "This very file was taken in on" in text_of(page)


def test_the_list_of_methods_leads_here_for_who_may(as_):
    link = f'{address("new")}?kind=figures"'

    assert link in as_("chem-1").get(under_methods("list")).content.decode()
    assert link not in as_("tech-a").get(under_methods("list")).content.decode()


def test_who_keeps_no_methods_is_refused(as_, ready):
    page = as_("tech-a").post(address("take", ready.pk), {"version": ready.version})

    assert page.status_code == 403
    assert fresh(ready).state == Import.State.RECEIVED


def test_the_list_that_was_taken_along_changes_nothing(chemist):
    """What is exported under Methods comes back with every column known, and is in force already."""
    along = chemist.get(f"{under_methods('list')}?as=csv&of=figures")
    content = b"".join(along.streaming_content)
    row = brought(content, "figures.csv", kind="figures")
    map_as_proposed(chemist, row)

    (table,) = chemist.get(address("questions", row.pk)).context["form"].tables

    (asked,) = [it.question for it in table.waiting]
    assert asked.key == "A/nothing new"
    assert asked.count == sum(
        len(it.figures) for it in queries.revisions().filter(state="in force")
    )
    answered(chemist, row, {"A/nothing new": "rows"})
    page = text_of(chemist.get(address("one", row.pk)))
    assert "Nothing of this file would be taken in" in page
