"""The table beneath a chart has the points of the chart, row by row, and so has the sheet that is taken along."""

import csv
import io

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from openpyxl import load_workbook

from lims.imports.models import HistoryLine
from lims.people.queries import person
from lims.screens.trends import charting
from tests.factories import history
from tests.lims.screens.trends.conftest import (
    one,
    points_of,
    rows_of,
    text_of,
    trend,
)


@pytest.fixture
def page(as_, tested, told):
    return as_("tech-a").get(one())


def test_every_point_has_its_row_and_every_row_its_point(page):
    rows, points = rows_of(page), points_of(page)

    assert len(rows) == len(points) == len(trend().points) == 11
    drawn = sorted(
        (said.split(",")[0], said.split(": ")[1].split("\xa0")[0]) for _, said in points
    )
    assert sorted((row[1], row[2]) for row in rows) == drawn


def test_rows_stand_newest_first_with_the_values_of_the_query(page):
    told = [(it.lot or it.batch, it.said) for it in reversed(trend().points)]

    assert [(row[1], row[2]) for row in rows_of(page)] == told


def test_a_row_says_what_is_known_of_its_value(page):
    rows = {row[1]: row for row in rows_of(page)}

    assert rows["Q1-26-0417 A"][2:7] == ["280", "released", "within", "K1", "PEN-01"]
    assert rows["Q1-26-0418 A"][3] == "not released"
    assert rows["H25-0001"] == [
        *("8 December 2025", "H25-0001", "281", "unverified history"),
        *("within", "K1", "PEN-02"),
    ]


def test_points_lead_to_the_lot_or_to_the_line_that_told_them(page):
    where = {address for address, _ in points_of(page)}
    line = HistoryLine.objects.get(batch="H25-0001")

    assert reverse("batches:lot", args=["Q1-26-0417-A"]) in where
    assert reverse("imports:history", args=[line.pk]) in where


def test_the_row_leads_where_its_point_leads(page):
    table = page.content.decode().split('class="grid results values"')[1]

    assert all(f'href="{where}"' in table for where, _ in points_of(page))


def test_a_long_table_comes_in_pages_that_hold_every_point_once(
    as_, tested, told, monkeypatch
):
    monkeypatch.setattr(charting, "ROWS", 4)
    client = as_("tech-a")

    pages = [client.get(one(page=number)) for number in (1, 2, 3)]

    rows = [row for it in pages for row in rows_of(it)]
    assert len(rows) == len({row[1] for row in rows}) == 11
    assert all(len(points_of(it)) == 11 for it in pages)


def test_a_long_table_can_be_had_on_one_page(as_, tested, told, monkeypatch):
    monkeypatch.setattr(charting, "ROWS", 4)
    client = as_("tech-a")

    first, whole = client.get(one()), client.get(one(page="all"))

    assert len(rows_of(first)) == 4
    assert "page=all" in first.content.decode()
    assert len(rows_of(whole)) == 11
    assert "on one page" not in whole.content.decode()


def test_the_sheet_has_the_same_values_oldest_first(as_, tested, told):
    answer = as_("tech-a").get(one() + "?as=csv")

    lines = list(
        csv.reader(io.StringIO(b"".join(answer.streaming_content).decode("utf-8-sig")))
    )
    heads, units, *rows = lines
    value, unit = heads.index("Value"), units[heads.index("Value")]
    assert [row[value] for row in rows] == [it.value for it in trend().points]
    assert unit == "0.1 mm"


def test_the_workbook_holds_numbers_days_and_bounds_as_text(as_, opened):
    lines = history.lines(("203", ">288"), characteristic="dropping-point-block")
    history.taken_in(lines, by=person("mgr-1"))

    answer = as_("tech-a").get(one(code="dropping-point-block") + "?as=xlsx")

    sheet = load_workbook(io.BytesIO(answer.content)).active
    heads = [cell.value for cell in sheet[1]]
    value = heads.index("Value") + 1
    assert sheet.cell(3, value).value == 203
    assert sheet.cell(4, value).value == ">288"
    assert sheet.cell(3, 1).value.isoformat().startswith("2024-01-08")


def test_a_change_goes_out_as_a_number(as_, opened):
    lines = history.lines(("+22", "-3"), characteristic="penetration-change-100000")
    history.taken_in(lines, by=person("mgr-1"))

    answer = as_("tech-a").get(one(code="penetration-change-100000") + "?as=xlsx")

    sheet = load_workbook(io.BytesIO(answer.content)).active
    value = [cell.value for cell in sheet[1]].index("Value") + 1
    assert [sheet.cell(row, value).value for row in (3, 4)] == [22, -3]


def test_the_same_filter_narrows_chart_table_and_sheet(as_, tested, told):
    client = as_("tech-a")

    page = client.get(one(kettle="K2"))
    answer = client.get(f"{one(kettle='K2')}&as=csv")

    rows = rows_of(page)
    assert {row[5] for row in rows} == {"K2"}
    assert len(rows) == len(points_of(page)) == 4
    assert len(b"".join(answer.streaming_content).decode().splitlines()) == 2 + 4
    assert "4 values of finished product" in text_of(page)


def test_more_values_ask_no_more_questions(as_, tested, told):
    client = as_("tech-a")
    client.get(one())
    with CaptureQueriesContext(connection) as few:
        client.get(one())
    history.taken_in(
        history.lines(range(260, 300)), by=person("mgr-1"), name="more.csv"
    )

    with CaptureQueriesContext(connection) as many:
        page = client.get(one())

    assert len(points_of(page)) == 51
    assert len(many) == len(few)
