"""A file with one result a row, from its columns to the charts: what other programs write when they are asked for everything."""

from lims.imports.models import HistoryLine, Import
from lims.people.queries import person
from lims.sheets import jobs, looking
from tests.lims.screens.imports.conftest import (
    address,
    answered,
    brought,
    columns_sent,
    fresh,
    map_as_proposed,
    text_of,
)

LONG = """\
Batch;Date;Product;Test;Result;Unit
Q1-25-0391;2025-12-03;LX2;Worked penetration;281;0.1 mm
Q1-25-0391;2025-12-03;LX2;Drop pt;388;°F
Q1-25-0392;2025-12-04;LX2;Worked penetration;283;0.1 mm
Q1-25-0392;2025-12-04;LX2;Drop pt;390;°F
"""
SAYS = {"D/unknown test drop pt": "as dropping-point-block"}


def test_the_results_come_in_with_their_characteristics(chemist, opened):
    row = brought(LONG, "long.csv")
    map_as_proposed(chemist, row)
    page = text_of(chemist.get(address("questions", row.pk)))
    answered(chemist, row, SAYS)
    jobs.take(fresh(row), by=person("chem-1"))

    assert "“Drop pt” in “Test” is no name that is kept here (2 rows)." in page
    assert fresh(row).state == Import.State.TAKEN_IN
    found = {
        line.batch: {it["characteristic"]: it["value"] for it in line.values}
        for line in HistoryLine.objects.all()
    }
    assert found == {
        "Q1-25-0391": {"worked-penetration": "281", "dropping-point-block": "197.8"},
        "Q1-25-0392": {"worked-penetration": "283", "dropping-point-block": "198.9"},
    }


def test_what_a_test_is_called_is_remembered(chemist, opened):
    row = brought(LONG, "long.csv")
    map_as_proposed(chemist, row)
    answered(chemist, row, SAYS)
    jobs.take(fresh(row), by=person("chem-1"))

    again = brought(LONG.replace("Q1-25", "Q1-24"), "the year before.csv")
    map_as_proposed(chemist, again)

    (block,) = looking.looked(fresh(again)).blocks
    assert block.questions == ()


def test_a_result_without_what_was_tested_is_refused_with_what_to_do(chemist, opened):
    row = brought(LONG, "long.csv")
    given = columns_sent(chemist, row)
    (tested,) = (name for name, it in given.items() if it == "what was tested")

    page = chemist.post(address("columns", row.pk), given | {tested: "left out"})

    assert "none says what was tested. Choose the one that does" in text_of(page)
