"""The curve of a run on its leaf, by plain posts as without a script: read in, drawn, told in words and as a table."""

import re

import pytest

from lims.bench.actions.traces import import_trace
from lims.bench.models import Determination, Test
from lims.bench.reporting import active_value
from tests.factories import curves
from tests.lims.screens.bench.curving import (
    address,
    judges,
    page_of,
    sends,
    sets,
    types_times,
)

State = Determination.State


# ---- All the way


def test_two_runs_without_a_script_give_the_result(bench, induction):
    for place, minutes in ((1, 23), (2, 24)):
        answer = sends(
            bench, induction, curves.run_of(minutes), f"{place}.csv", set=str(place)
        )
        assert answer.status_code == 303
        texts = {"calorimeter": "DSC-1", "temperature": "180", **curves.TIMES}
        fields = {f"{key}-text": text for key, text in texts.items()}
        bench.post(address("set", induction), {"set": str(place), **fields})
        assert judges(bench, induction, place=place).status_code == 303

    assert active_value(Test.objects.get(pk=induction.pk)).reported == "23.5"


def test_no_temperature_is_chosen_for_anybody(bench, induction):
    """A box without a usual answer stands empty: what nobody chose is not sent."""
    sends(bench, induction)

    types_times(bench, induction, temperature="")

    assert sets(induction)[0].asks[0] == "Temperature of the run is still to be given."
    assert '<option value="" selected>choose</option>' in page_of(bench, induction)


# ---- The picture


def test_the_curve_stands_alone_before_its_times_are_given(bench, induction):
    sends(bench, induction)

    page = page_of(bench, induction)
    assert page.count('<polyline class="line"') == 1
    assert 'class="fitted"' not in page
    assert "oxygen in" not in page
    assert "No lines are drawn yet" in page
    assert "Accept the curve" not in page
    assert "Reject the curve" in page


def test_both_lines_are_drawn_and_told(bench, induction):
    sends(bench, induction)
    types_times(bench, induction)

    page = page_of(bench, induction)
    assert page.count('class="fitted"') == 1
    assert page.count('class="extended"') == 2
    assert "oxygen in" in page
    assert (
        "Onset at 28 min of the curve, oxygen admitted at 5 min; baseline 7 to" in page
    )
    table = dict(
        re.findall(r'<th scope="row">([^<]*)</th><td class="n">([^<]*)<', page)
    )
    assert table["Oxygen admitted"] == "5 min"
    assert table["Baseline"] == "7 min to 15 min"
    assert table["Tangent"] == "through five points from 28.90 to 29.10 min"
    assert table["Onset on the curve"] == "28 min"
    assert table["Induction time"] == "23 min"
    slope = float(table["Slope of the tangent"].removesuffix(" a minute"))
    assert slope == pytest.approx(5 / (4 * curves.TAU), rel=0.01)
    assert "Slope of the baseline" in table


def test_the_line_of_a_sloping_baseline_is_told(bench, induction):
    sends(bench, induction, curves.run_of(23, slope=0.01))
    types_times(bench, induction)

    assert "0.01000 a minute" in page_of(bench, induction)


def test_a_long_curve_is_drawn_from_few_points(bench, induction):
    sends(bench, induction, curves.run_of(23, step=0.01))

    drawn = re.search(r'class="line" points="([^"]*)"', page_of(bench, induction))[1]
    assert len(drawn.split()) <= 500
    assert "6\xa0001 points" in page_of(bench, induction)


def test_a_curve_whose_exotherm_points_down_is_drawn_upside_down(
    bench, induction, technician
):
    from lims.bench.evaluation import held
    from lims.drawing.runs import drawn_from

    import_trace(
        test=induction,
        name="down.csv",
        content=curves.run_of(23, height=-5.0),
        by=technician,
    )
    it = sets(induction)[0]
    row = induction.characteristic
    row.parameters = {**row.parameters, "exotherm": "down"}

    drawn = drawn_from(row, it, held(it), ())

    assert drawn["points"][0][1] < drawn["points"][-1][1]
    assert "drawn upside down" in drawn["about"]
