"""Every cell by what becomes of it: as it stood, as it would be taken, how or why not."""

from lims.sheets import looking
from specs.tables.saying import Fate
from tests.lims.screens.imports.conftest import address, text_of


def cells(client, row, asked=""):
    return client.get(address("cells", row.pk) + asked)


def test_every_cell_that_holds_something_is_listed_once(chemist, mapped):
    page = cells(chemist, mapped)

    table = looking.tables_of(mapped)[0]
    wanted = {
        f"{letter}{row}"
        for letter, column in table.said.items()
        for row, said in enumerate(column, table.block.first)
        if said.fate != Fate.EMPTY
    }
    found = [it.address for it in page.context["cells"]]
    assert len(found) == len(set(found)) == page.context["page"].paginator.count
    assert set(found) == wanted


def test_the_counts_on_the_page_of_the_file_are_those_of_the_lists(chemist, mapped):
    one = chemist.get(address("one", mapped.pk))

    for fate in one.context["tables"][0].fates:
        listed = chemist.get(fate.address).context
        assert listed["page"].paginator.count == fate.count, fate.word


def test_a_refused_cell_says_why_and_what_to_write_instead(chemist, mapped):
    page = text_of(cells(chemist, mapped, "?fate=refused&column=D"))

    assert "265-295" in page
    assert "looks like limits, not a result: write the one number that was read" in page


def test_a_converted_cell_shows_how(chemist, mapped):
    page = text_of(cells(chemist, mapped, "?fate=converted&column=G"))

    assert "1 cell converted in column G" in page
    assert "5.5 psi = 37.9 kPa" in page


def test_rows_that_are_no_data_say_what_they_are(chemist, mapped):
    roles = {it.role for it in cells(chemist, mapped).context["cells"]}

    assert {"continuation", "duplicate", "summary", "held"} <= roles


def test_a_filter_that_nothing_fits_offers_all(chemist, mapped):
    page = text_of(cells(chemist, mapped, "?fate=refused&column=A"))

    assert "No cell fits this filter" in page


def test_what_the_address_makes_up_is_no_filter(chemist, mapped):
    page = cells(chemist, mapped, "?fate=shiny&column=&table=x")

    assert page.status_code == 200
    assert page.context["page"].paginator.count


def test_a_table_that_is_not_there_is_not_found(chemist, mapped):
    assert cells(chemist, mapped, "?table=2").status_code == 404
    assert cells(chemist, mapped, "?table=0").status_code == 404


def test_before_the_columns_are_mapped_no_cell_was_checked(chemist, pen_book):
    page = text_of(cells(chemist, pen_book))

    assert "No cell was checked yet" in page
    assert "Say first what the columns hold." in page


def test_empty_cells_are_listed_when_they_are_asked_for(chemist, mapped):
    page = cells(chemist, mapped, "?fate=empty")

    assert (
        page.context["page"].paginator.count
        == looking.tables_of(mapped)[0].counts["cells empty"]
    )


def test_cells_may_name_persons_and_are_for_who_brings_such_files_in(as_, mapped):
    assert cells(as_("tech-a"), mapped).status_code == 403
    assert cells(as_("qm-1"), mapped).status_code == 200
