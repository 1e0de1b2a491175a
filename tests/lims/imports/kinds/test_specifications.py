"""Products with their specifications: new products, and drafts that are approved by hand."""

import pytest

from lims.imports import actions
from lims.products import queries
from lims.products.models import Product, Requirement, Revision
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import bringing, products

HEADS = (
    "Product", "Name", "Thickener", "Sampling plan", "Characteristic", "Method",
    "Limits", "Unit", "Tested", "Compared by", "Decision rule",
)  # fmt: skip
DECIDED = ("per fill lot", "rounding", "simple acceptance")
WORKED = ("worked-penetration", "ASTM D217-21a", "265-295", "0.1 mm")
DROPPING = ("Dropping point, aluminium block", "ASTM D2265-20", "min. 190", "°C")
COPPER = ("copper-strip", "ASTM D4048-22", "max 1b", "")
NEW = ("LX3", "lithium EP grease, NLGI 3", "lithium", "SP-02")
BLANK = ("", "", "", "")


@pytest.fixture
def lx2(book, technologist):
    return products.product(by=technologist)


@pytest.fixture
def lx3(table, book):
    return table(
        "specifications",
        HEADS,
        (*NEW, *WORKED, *DECIDED),
        (*BLANK, *DROPPING, *DECIDED),
        (*BLANK, *COPPER, *DECIDED),
    )


def kept(table, book, *rows):
    return table("specifications", HEADS, *(("LX2", "", "", "", *it) for it in rows))


def test_every_column_of_the_heads_is_known(lx3):
    assert "left out" not in {it["role"] for it in lx3.mapping.values()}


def test_a_new_product_comes_with_a_draft_of_its_first_revision(lx3, technologist):
    it = lx3.take_in(by=technologist)

    product = Product.objects.get(code="LX3")
    draft = queries.draft_of(product)
    assert (product.family, product.sampling_plan.code) == ("lithium soap", "SP-02")
    assert (draft.number, draft.state) == ("1", "draft")
    assert [
        (row.line, row.characteristic.code, row.limits)
        for row in queries.requirements_of(draft)
    ] == [
        (1, "worked-penetration", "265 to 295"),
        (2, "dropping-point-block", "at least 190"),
        (3, "copper-strip", "at most 1b"),
    ]
    assert it.counts["added"] == 3
    assert it.counts["products"] == it.counts["drafts"] == 1


def test_all_of_it_is_one_entry(lx3, technologist):
    row = bringing.received(by=technologist, kind="specifications", content=b"a table")
    entries = Entry.objects.count()

    lx3.take_in(by=technologist)

    assert Entry.objects.count() == entries + 1
    assert Entry.objects.first().about_name == f"import of {row.name}"
    assert Entry.objects.first().note == "added: 3, products: 1, drafts: 1"


def test_nothing_is_in_force_before_it_is_approved(lx3, technologist):
    lx3.take_in(by=technologist)

    assert not Revision.objects.filter(state="in force").exists()


def test_what_is_blank_below_stands_for_the_row_above_and_says_so(lx3):
    looked = lx3.look()

    assert looked.at("A", 3).value == "LX3"
    assert looked.at("A", 3).rule == "as in row 2"
    assert [it.value for it in looked.roles] == ["data", "continuation", "continuation"]
    assert looked.joined == {3: 2, 4: 2}


def test_the_procedure_the_rule_and_the_frequency_are_asked_once(
    table, book, technologist
):
    lx3 = table(
        "specifications",
        HEADS[:8],
        (*NEW, *WORKED),
        (*BLANK, *DROPPING),
        (*BLANK, *COPPER),
    )

    asked = lx3.asks()

    assert list(asked) == ["A/comparing", "A/rule", "A/scope"]
    assert {it.count for it in asked.values()} == {3}
    assert {it.level for it in asked.values()} == {"column"}
    lx3.choices = {
        "A/comparing": "absolute",
        "A/rule": "simple acceptance",
        "A/scope": "per batch",
    }
    assert lx3.look().is_ready
    lx3.take_in(by=technologist)
    assert set(Requirement.objects.values_list("comparing", "scope")) == {
        ("absolute", "per batch")
    }


def test_the_next_revision_begins_with_the_lines_in_force(
    table, book, technologist, person
):
    lx2 = products.product(by=technologist)
    products.in_force(
        lx2,
        by=technologist,
        approver=person("quality_manager"),
        lines=[products.worked_line(), products.copper_line()],
    )
    it = kept(table, book, (*DROPPING, *DECIDED))

    question = it.asks()["A/other lines"]
    assert "Worked penetration, 60 double strokes, 25 °C" in question.sentence
    it.choices["A/other lines"] = "stay"
    it.take_in(by=technologist)

    draft = queries.draft_of(lx2)
    assert draft.number == "6"
    assert [row.characteristic.code for row in queries.requirements_of(draft)] == [
        "worked-penetration", "copper-strip", "dropping-point-block",
    ]  # fmt: skip


def test_or_with_the_lines_of_the_file_alone(table, book, technologist, person):
    lx2 = products.product(by=technologist)
    products.in_force(lx2, by=technologist, approver=person("quality_manager"))
    it = kept(table, book, (*DROPPING, *DECIDED))
    it.choices["A/other lines"] = "go"

    it.take_in(by=technologist)

    assert [
        row.characteristic.code
        for row in queries.requirements_of(queries.draft_of(lx2))
    ] == ["dropping-point-block"]
    assert queries.in_force(lx2).requirements.count() == 1


def test_a_draft_that_is_open_is_not_written_over(table, book, technologist):
    products.draft(products.product(by=technologist), by=technologist)
    it = kept(table, book, (*DROPPING, *DECIDED))

    question = it.asks()["A/a draft is open"]

    assert "There is a draft already, revision 5" in question.sentence
    assert question.is_refusal
    it.choices["A/a draft is open"] = "rows"
    assert it.look().rows == ()


def test_a_draft_that_somebody_opened_meanwhile_takes_all_back(lx3, technologist):
    looked = lx3.look()
    products.draft(products.product(by=technologist, code="LX3"), by=technologist)
    row = bringing.received(by=technologist, kind="specifications", content=b"a table")
    entries = Entry.objects.count()
    with pytest.raises(WrongMove, match="Row 2: There is a draft already"):
        actions.take_in(import_of=row, tables=[looked], by=technologist)

    assert Entry.objects.count() == entries
    assert not Requirement.objects.filter(characteristic__code="copper-strip").exists()


def test_what_stands_here_is_kept_where_the_file_says_otherwise(
    table, book, technologist
):
    products.product(by=technologist)
    it = table(
        "specifications", HEADS, ("lx2", "Another name", "", "", *DROPPING, *DECIDED)
    )

    question = it.asks()["B/differs"]
    assert question.proposed == "cells"
    assert "stands here with “lithium EP grease, NLGI 2”" in question.sentence
    it.choices["B/differs"] = "cells"
    it.take_in(by=technologist)

    assert Product.objects.get().name == "lithium EP grease, NLGI 2"


def test_a_customers_line_stays_inside_the_own(table, book, technologist, person):
    lx2 = products.product(by=technologist)
    products.in_force(lx2, by=technologist, approver=person("quality_manager"))
    products.customer(by=person("despatch"))
    wide = ("worked-penetration", "ASTM D217-21a", "260-290", "")
    it = table(
        "specifications",
        ("Product", "Customer", *HEADS[4:]),
        ("LX2", "OL", *wide, *DECIDED),
    )

    assert "wider than the product's own" in it.asks()["E/wider than the own"].sentence
    it.instead["E2"] = "270-290"
    it.take_in(by=technologist)

    assert str(queries.draft_of(lx2, queries.customer("OL"))) == "OL for LX2 revision 1"


def test_who_does_not_draft_brings_none_in(lx3, person):
    with pytest.raises(NotAllowed):
        lx3.take_in(by=person("technician"))


def test_a_column_that_is_missing_or_there_twice_is_said(table, book):
    it = table("specifications", ("Product", "Limits"), ("LX2", "265-295"))
    assert (
        "No column is taken for “Characteristic”"
        in it.asks()["A/no characteristic"].sentence
    )

    it = table("specifications", HEADS, (*NEW, *WORKED, *DECIDED))
    it.mapping["B"] = {"role": "product"}
    assert "Columns A and B are both taken" in it.asks()["A/product twice"].sentence


def test_no_row_is_taken_twice(lx3, technologist):
    lx3.take_in(by=technologist)

    with pytest.raises(BadInput, match="taken in on"):
        lx3.take_in(by=technologist)


def test_lines_that_are_in_force_already_make_no_draft(
    table, book, technologist, person
):
    lx2 = products.product(by=technologist)
    products.in_force(lx2, by=technologist, approver=person("quality_manager"))
    it = kept(table, book, (*WORKED, *DECIDED))

    question = it.asks()["E/nothing new"]
    assert "LX2 revision 5 stands there already" in question.sentence
    assert question.proposed == "rows"
    it.choices["E/nothing new"] = "rows"
    assert it.look().rows == ()
    it.choices["E/nothing new"] = "take"
    it.take_in(by=technologist)
    assert queries.draft_of(lx2).number == "6"


def test_a_line_that_differs_from_the_one_in_force_makes_one(
    table, book, technologist, person
):
    lx2 = products.product(by=technologist)
    products.in_force(lx2, by=technologist, approver=person("quality_manager"))
    tighter = ("worked-penetration", "ASTM D217-21a", "270-290", "")

    assert kept(table, book, (*tighter, *DECIDED)).look().is_ready


def test_a_column_taken_for_what_no_form_knows_is_left_out(lx3):
    lx3.mapping["H"] = {"role": "result"}

    assert lx3.look().at("H", 2).fate == "left out"
