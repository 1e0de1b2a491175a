"""What the internal copy tells of readings: by run and vessel, of computed lines, and the curve of a run."""

import base64
import re

import pytest

from lims.documents.internal import (
    copy_of_lot,
    internal_html,
    print_internal,
)
from lims.people.queries import person
from tests.factories import curves, plant
from tests.lims.documents.copies import copy_of, issue, line


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


def test_the_readings_of_a_table_are_told_by_its_runs_and_by_its_vessels(repeated):
    copy = copy_of(issue(repeated))

    runs = line(copy, "Dropping point").tests[0].sets[0].readings
    vessels = line(copy, "Oxidation").tests[0].sets[0].readings
    assert [it.split(" = ")[0] for it in runs] == [
        "Run 1: Observed",
        "Run 2: Observed",
    ]
    assert "Block = 232\u00a0°C" in runs[0]
    assert len(vessels) == 2
    assert vessels[1].startswith("Vessel 2: Maximum = ")
    assert ", 100\u00a0h = " in vessels[1]


def test_a_computed_line_tells_the_readings_that_it_comes_from(repeated):
    titles = [it.title for it in line(copy_of(issue(repeated)), "Change").tests]

    assert len(titles) == 2
    assert titles[0].startswith("Worked penetration")
    assert titles[1].startswith("Prolonged worked penetration")


def test_a_test_that_an_earlier_line_tells_is_only_pointed_at(repeated):
    copy = copy_of(issue(repeated))

    worked, prolonged = line(copy, "Change").tests
    first = line(copy, "Worked penetration")
    assert len(first.tests[0].sets) == 4
    assert (worked.title, worked.sets) == (first.tests[0].title, ())
    assert worked.told_at == first.number
    assert len(prolonged.sets) == 1
    assert f"Its sets are told at line {first.number}." in internal_html(copy)


def test_no_page_ends_between_the_name_of_a_test_and_its_sets(
    repeated, running_text_of
):
    pages = running_text_of(print_internal(copy_of(issue(repeated))))

    after = {
        word
        for text in pages
        for word in re.findall(r"sample Q1-26-\d{4}-A-01, ASTM D217-21a (\w+)", text)
    }
    assert after == {"Set", "Its"}


def test_the_curve_of_a_run_is_drawn_with_both_lines_and_its_figures(repeated):
    asked = curves.ask_for_induction()
    curves.carry_out(asked, curves.run_of(31), by=person("tech-a"))

    copy = copy_of_lot(plant.lot(), by=person("mgr-1"))

    [test] = [it for it in copy.also if it.title.startswith("Oxidation induction")]
    curve = test.sets[0].curve
    drawn = base64.b64decode(curve.picture.partition(",")[2]).decode()
    assert "Induction time: 31 min" in curve.told
    for kind in ("line", "fitted", "extended", "pt b"):
        assert f'class="{kind}"' in drawn, kind
    assert curve.picture in internal_html(copy)
    assert print_internal(copy).startswith(b"%PDF")


def test_every_kind_of_ink_in_a_curve_has_its_colour_on_paper(repeated):
    """A stroke without one would be invisible: SVG draws none unless told to."""
    asked = curves.ask_for_induction()
    curves.carry_out(asked, curves.run_of(31), by=person("tech-a"))
    [test] = [
        it
        for it in copy_of_lot(plant.lot(), by=person("mgr-1")).also
        if it.title.startswith("Oxidation induction")
    ]

    drawn = base64.b64decode(test.sets[0].curve.picture.partition(",")[2]).decode()

    sheet = re.search(r"<style>(.*)</style>", drawn)[1]
    kinds = {
        word
        for found in re.findall(r'class="([^"]+)"', drawn)
        for word in found.split()
    }
    without = {it for it in kinds if f".{it} {{" not in sheet}
    assert without == {"curve", "onset", "b"}
