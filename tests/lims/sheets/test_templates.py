"""Templates: what they are filled with comes back with every column known and no pick list taken for a table."""

import io
import zipfile

import pytest

from lims.imports import kinds, knowing
from lims.imports.models import Import
from lims.sheets import reading, templates
from specs.tables.finding import headings
from specs.tables.finding.tables import blocks_of
from specs.tables.forms import FORMS
from specs.tables.known import Role
from tests.factories import methods, products

KINDS = [it for it in Import.Kind.values if it != Import.Kind.HISTORY]


@pytest.fixture
def book(plant):
    methods.with_reference()


def loaded(content):
    from openpyxl import load_workbook

    return load_workbook(io.BytesIO(content))


def filled(content, form, rows=3):
    """The template with something in every cell of its first rows."""
    book = loaded(content)
    for row in range(3, 3 + rows):
        for place, column in enumerate(form.columns, 1):
            book.worksheets[0].cell(
                row, place, column.choices[0] if column.choices else "12"
            )
    out = io.BytesIO()
    book.save(out)
    return reading.read(out.getvalue(), "filled.xlsx")


def tables_of(workbook):
    return [(it, block) for it in workbook.sheets for block in blocks_of(it)]


@pytest.mark.parametrize("kind", KINDS)
def test_every_column_comes_back_as_what_it_is(kind, book):
    form = templates.form_of(kind)

    ((_, block),) = tables_of(filled(templates.template(kind), form))

    found = [it["role"] for it in kinds.proposed(kind, block).values()]
    assert found == [it.key for it in form.columns]


def test_every_characteristic_comes_back_with_its_unit(book):
    form = templates.form_of("history")

    ((sheet, block),) = tables_of(filled(templates.template("history"), form))

    uses = headings.proposed(block, sheet, knowing.known())
    assert [it.characteristic or it.role for it in uses.values()] == [
        it.key for it in form.columns
    ]
    assert [it.unit for it in uses.values()] == [it.unit for it in form.columns]


@pytest.mark.parametrize("kind", Import.Kind.values)
def test_an_empty_one_has_nothing_to_take_in(kind, book):
    empty = reading.read(templates.template(kind), "empty.xlsx")

    for sheet, block in tables_of(empty):
        assert sheet.name == FORMS[kind].title
        assert all(
            not sheet.text(it, row)
            for it in block.letters
            for row in range(3, sheet.height + 1)
        )


def test_that_of_results_has_the_columns_that_the_product_is_tested_for(book, person):
    technologist = person("technologist")
    lx2 = products.product(by=technologist)
    products.in_force(
        lx2,
        by=technologist,
        approver=person("quality_manager"),
        lines=[products.worked_line(), products.copper_line()],
    )

    keys = [it.key for it in templates.form_of("history", lx2).columns]

    assert keys[-3:] == ["worked-penetration", "copper-strip", Role.REMARK]


def test_there_is_a_column_for_each_of_the_usual_ones_before_anything_is_in_force(book):
    keys = [it.key for it in templates.form_of("history").columns]

    assert "dropping-point-block" in keys
    assert "oxidation-drop" in keys


def test_units_stand_in_the_second_row(book):
    sheet = loaded(templates.template("history")).worksheets[0]

    units = {sheet.cell(1, it.column).value: it.value for it in sheet[2] if it.value}
    assert units["Dropping point, aluminium block"] == "°C"
    assert sheet.freeze_panes == "A3"


def test_what_can_be_picked_is_what_stands_here(book, person):
    products.product(by=person("technologist"))
    sheet = loaded(templates.template("specifications")).worksheets[0]
    picks = {str(it.sqref): it.formula1 for it in sheet.data_validations.dataValidation}

    assert picks["A3:A1002"] == '"LX2"'
    assert picks["D3:D1002"] == '"SP-02"'
    assert '"rounding,absolute"' in picks.values()


def test_a_long_list_stands_on_a_sheet_that_is_not_shown(book):
    book = loaded(templates.template("specifications"))
    sheet, lists = book.worksheets

    assert lists.sheet_state == "veryHidden"
    rule = next(
        it for it in sheet.data_validations.dataValidation if "Lists!" in it.formula1
    )
    first, last = rule.formula1.removeprefix("Lists!$A$").split(":$A$")
    assert lists[f"A{first}"].value == "Appearance"
    assert int(last) > int(first) + 50


@pytest.mark.parametrize(("kind", "across"), [("samples", 1), ("specifications", 4)])
def test_on_paper_it_lies_across_and_its_heads_stand_on_every_page(kind, across, book):
    sheet = loaded(templates.template(kind)).worksheets[0]

    assert sheet.page_setup.orientation == "landscape"
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert sheet.page_setup.fitToWidth == across
    assert sheet.print_title_rows == "$1:$2"
    assert sheet.print_title_cols == "$A:$A"


def test_another_text_than_one_of_the_list_may_be_typed(book):
    """It is asked about when the file comes back: a workbook's own box would lose what was typed."""
    sheet = loaded(templates.template("samples")).worksheets[0]

    assert not any(it.showErrorMessage for it in sheet.data_validations.dataValidation)


def test_every_needed_column_says_so_in_its_note(book):
    sheet = loaded(templates.template("instruments")).worksheets[0]

    assert sheet["A1"].comment.text.startswith("Needed in every row. As on its plate")
    assert sheet["C1"].comment is None


@pytest.mark.parametrize("kind", Import.Kind.values)
def test_a_template_holds_no_formula_and_no_link(kind, book):
    parts = zipfile.ZipFile(io.BytesIO(templates.template(kind)))

    assert not [it for it in parts.namelist() if "externalLink" in it or "vba" in it]
    sheets = [it for it in parts.namelist() if it.startswith("xl/worksheets/sheet")]
    assert all(b"<f>" not in parts.read(it) for it in sheets)
