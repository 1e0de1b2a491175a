"""The list of files: what waits, narrowed and in order, and the same as a sheet."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from lims.imports.models import Import
from tests.lims.screens.imports.conftest import TIDY, address, brought, text_of


def names(page):
    return [row.record.name for row in page.context["table"].paginated_rows]


def test_the_list_opens_with_what_waits(chemist, pen_book, taken):
    page = text_of(chemist.get(address("list")))

    assert "1 file waits for somebody to go on with; 1 file was taken in." in page
    assert "1 table was found. Say next what the columns hold." in page
    assert "3 lines of unverified history added." in page


def test_an_empty_list_says_what_belongs_here(as_):
    assert "Bring a file in" in text_of(as_("chem-1").get(address("list")))
    assert "brings in what the plant has" in text_of(as_("aud-1").get(address("list")))


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("?q=pen", ["penbook.csv"]),
        ("?state=taken+in", ["tidy.csv"]),
        ("?kind=log", []),
        ("?kind=shiny", ["tidy.csv", "penbook.csv"]),
        ("?sort=name", ["penbook.csv", "tidy.csv"]),
        ("?sort=-name", ["tidy.csv", "penbook.csv"]),
        ("?sort=kind", ["penbook.csv", "tidy.csv"]),
        ("?sort=state", ["penbook.csv", "tidy.csv"]),
        ("?sort=received_by&page=7", ["penbook.csv", "tidy.csv"]),
    ],
)
def test_it_is_narrowed_and_ordered_as_the_address_says(
    chemist, pen_book, taken, asked, found
):
    assert names(chemist.get(address("list") + asked)) == found


def test_a_file_is_found_by_its_hash(chemist, pen_book, taken):
    asked = f"?q={pen_book.sha256.upper()}"

    assert names(chemist.get(address("list") + asked)) == ["penbook.csv"]


def test_a_name_is_shown_as_text(chemist):
    brought(TIDY, "<img src=x onerror=alert(1)>.csv")

    page = chemist.get(address("list")).content.decode()

    assert "&lt;img src=x" in page
    assert "<img src=x" not in page


def test_the_sheet_has_the_same_rows_and_neutral_text(chemist, pen_book):
    brought(TIDY, "=cmd.csv")

    csv = b"".join(chemist.get(address("list") + "?as=csv")).decode()

    assert len(csv.splitlines()) == 4
    assert "'=cmd.csv" in csv
    assert pen_book.sha256 in csv


def test_the_number_of_queries_does_not_grow_with_the_list(chemist, opened):
    brought(TIDY, "a.csv")
    few = _queries(chemist)
    for number in range(12):
        brought(TIDY.replace("0391", f"04{number:02}"), f"{number}.csv")

    assert Import.objects.count() == 13
    assert _queries(chemist) == few


def _queries(client):
    with CaptureQueriesContext(
        connection,
    ) as captured:
        client.get(address("list"))
    return len(captured)
