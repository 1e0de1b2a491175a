"""The bench list leaves as a workbook or as CSV: a test a row, as the page tells it."""

import csv
import datetime as dt
import io

import openpyxl
import pytest

from lims.record import clock
from tests.lims.screens.bench.conftest import MORNING_AFTER
from tests.lims.screens.bench.walking import conditions, told

LIST = "/bench/"
CODE = "prolonged-penetration-100000"


def rows(bench, key):
    response = bench.get(LIST, {"as": "csv", "of": key})
    text = b"".join(response.streaming_content).decode("utf-8-sig")
    heads, _units, *found = csv.reader(io.StringIO(text))
    return [dict(zip(heads, row, strict=True)) for row in found]


def test_each_test_that_is_due_is_a_row(bench, sample):
    found = rows(bench, "tests-due")

    assert len(found) == 6
    assert {it["Sample"] for it in found} == {"Q1-26-0417-A-01"}
    assert {it["Fill lot"] for it in found} == {"Q1-26-0417-A"}
    assert "Worked penetration, 60 double strokes, 25 °C" in {
        it["Characteristic"] for it in found
    }


def test_what_runs_tells_how_far_it_is(bench, sample):
    conditions(bench, sample, CODE, worker="W-2", started_at="07:30")
    clock.set_to(MORNING_AFTER + dt.timedelta(hours=14))

    (run,) = rows(bench, "tests-running")

    assert run["Begun"].startswith("2026-03-05 07:30")
    assert run["Ends"].startswith("2026-03-06 11:16")
    assert (run["Instruments"], run["Has ended"]) == ("W-2", "no")


def test_the_workbook_has_the_same_rows(bench, sample):
    content = bench.get(LIST, {"as": "xlsx", "of": "tests-due"}).content

    assert openpyxl.load_workbook(io.BytesIO(content)).active.max_row == 2 + 6


@pytest.mark.parametrize("key", ["tests-due", "tests-running"])
def test_the_page_leads_to_both_forms(bench, sample, key):
    page = bench.get(LIST).content.decode()

    assert f"of={key}&amp;as=xlsx" in page
    assert f"of={key}&amp;as=csv" in page


def test_an_empty_bench_offers_nothing_to_take_along(bench, lab):
    assert "as=csv" not in told(bench.get(LIST))
