"""What the values of a series say together: against pandas, and by kind."""

from decimal import Decimal

import pandas as pd
import pytest

from lims.methods.models import Characteristic
from lims.trends.asked import Asked, Source
from lims.trends.queries import over_time, trend
from lims.trends.summing import mark_of, summed_up
from tests.factories import charts, history
from tests.factories.charts import CHANGE, COPPER, PENETRATION, WELD, point

WORDS = Characteristic(
    code="words", name="Words", kind="words", procedure="copper strip"
)


def summed(of, *values):
    return summed_up([point(it, n, of=of) for n, it in enumerate(values)], of)


def test_the_summary_of_a_chart_is_that_of_pandas(works, manager):
    numbers = [281, 279, 283, 276, 290, 281, 284, 277]
    history.taken_in(history.lines([str(it) for it in numbers]), by=manager)

    (series,) = trend(Asked("LX2", "worked-penetration")).series
    told = pd.Series([float(it.value) for it in series.points]).describe()
    found = series.summary
    assert [it.value for it in series.points] == [str(it) for it in numbers]
    assert float(found.mean) == pytest.approx(told["mean"])
    assert float(found.s) == pytest.approx(told["std"])
    assert (float(found.lower_quartile), float(found.upper_quartile)) == (
        told["25%"],
        told["75%"],
    )


def test_ratings_are_ordered_and_never_averaged():
    found = summed(COPPER, "1b", "1a", "1a", "4c")

    assert (found.mean, found.median, found.maximum) == (None, "1b", "4c")


def test_words_among_ratings_are_no_rating():
    assert summed(COPPER, "1a", "pass").counts == (("1a", 1),)
    assert summed(COPPER, "pass") is None


def test_of_two_joined_ratings_the_worse_counts():
    assert mark_of("1a/2b", ("1a", "1b", "2a", "2b")) == "2b"
    assert mark_of("1a/x", ("1a", "1b")) == ""


def test_loads_are_ordered_and_never_averaged():
    found = summed(WELD, "250", ">800", "315", "400")

    assert (found.mean, found.censored, found.median) == (None, 1, "315")


def test_changes_have_their_sign():
    assert summed(CHANGE, "22", "-3").minimum == "-3"
    assert summed(CHANGE, "+22", "24").mean == 23


def test_a_line_goes_through_three_values_or_more():
    line = over_time(
        charts.series(point("280"), point("281", 1), point("283", 4)), PENETRATION
    )

    assert line.first == charts.FIRST.date()
    assert line.line.count == line.moving.count == 3
    assert line.moving.S == 3


def test_the_line_runs_along_days():
    points = (point("280"), point("281", 10), point("282", 20))

    assert over_time(charts.series(*points), PENETRATION).line.slope.value == Decimal(
        "0.1"
    )


@pytest.mark.parametrize(
    ("of", "points"),
    [
        (PENETRATION, [point("280"), point("281", 1)]),
        (PENETRATION, [point("280"), point(">281", 1), point("283", 2)]),
        (PENETRATION, [point("280"), point("281"), point("283")]),
        (PENETRATION, [point("280"), point("soft", 1), point("283", 2)]),
        (COPPER, [point("1a"), point("1b", 1), point("1a", 2)]),
        (WELD, [point("250"), point("315", 1), point("400", 2)]),
    ],
)
def test_no_line_goes_through_few_values_bounds_one_day_words_marks_and_loads(
    of, points
):
    assert over_time(charts.series(*points, of=of), of) is None


def test_every_series_has_its_own_summary(lot, manager):
    history.taken_in(history.lines(["290", "292"]), by=manager)

    found = {
        it.source: it.summary for it in trend(Asked("LX2", "worked-penetration")).series
    }
    assert found[Source.NOT_RELEASED].mean == 280
    assert found[Source.HISTORY].mean == 291
