"""The axes of a chart: round figures upwards, months or batches to the right."""

import datetime as dt

import pytest

from lims.drawing.trend_scales import Upright, across, upright
from lims.trends.asked import Along
from tests.factories.charts import COPPER, PENETRATION, point, span, trend


def labels(low, high, **more):
    return [words for _, words in Upright(low, high, **more).labels()]


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [
        (263.0, 297.0, ["265", "270", "275", "280", "285", "290", "295"]),
        (0.0, 0.31, ["0.00", "0.05", "0.10", "0.15", "0.20", "0.25", "0.30"]),
        (0.0, 70000.0, [str(it) for it in range(0, 70001, 10000)]),
        (-3.2, 3.2, ["−3", "−2", "−1", "0", "1", "2", "3"]),
    ],
)
def test_the_figures_are_round_and_few(low, high, told):
    assert labels(low, high) == told


def test_a_change_has_a_sign_and_nought_has_none():
    assert labels(-4.0, 4.0, is_signed=True) == ["−4", "−2", "0", "+2", "+4"]


def test_marks_are_told_as_they_are():
    assert labels(-0.5, 1.5, marks=("1a", "1b")) == ["1a", "1b"]


def test_every_value_and_every_limit_has_a_place():
    axis = upright(trend(point("240"), spans=[span()]))

    assert axis.low < 240
    assert axis.high > 295


def test_a_bound_stands_at_its_figure():
    axis = upright(trend(point(">300")))

    assert axis.of(">300") == 300
    assert axis.of("soft") is None


def test_a_single_value_has_room_around_it():
    axis = upright(trend(point("280"), spans=[]))

    assert axis.low < 280 < axis.high


def test_the_axis_of_marks_reaches_one_beyond_the_worst():
    axis = upright(trend(point("1a", of=COPPER), of=COPPER, spans=[span("", "1b")]))

    assert axis.marks == ("1a", "1b", "2a")


def test_words_alone_have_no_axis():
    assert upright(trend(point("soft"), of=PENETRATION)) is None
    assert upright(trend(point("pass", of=COPPER), of=COPPER)) is None


@pytest.mark.parametrize(
    ("days", "told"),
    [
        (0, ["5 Jan 2026"]),
        (10, ["5 Jan 2026", "15 Jan 2026"]),
        (100, ["Feb 2026", "Mar", "Apr"]),
        (700, ["Apr 2026", "Jul", "Oct", "Jan 2027", "Apr", "Jul", "Oct"]),
        (3000, ["2027", "2028", "2029", "2030", "2031", "2032", "2033", "2034"]),
    ],
)
def test_along_time_stand_months_or_years_as_many_as_have_room(days, told):
    ends = [point("280")] + ([point("281", days)] if days else [])

    assert [words for _, words in across(trend(*ends)).labels(840)] == told


def test_along_batches_stand_as_many_names_as_have_room():
    axis = across(trend(*(point("280", it) for it in range(40)), along=Along.BATCHES))

    assert len(axis.labels(840)) <= 840 / (6.6 * 10)
    assert len(axis.labels(100)) == 1


def test_a_day_along_batches_lies_before_the_first_batch_of_it():
    axis = across(trend(*(point("280", it) for it in (0, 2, 4)), along=Along.BATCHES))

    assert axis.of_day(dt.date(2026, 1, 1)) == -0.5
    assert axis.of_day(dt.date(2026, 1, 7)) == 0.5
    assert axis.of_day(dt.date(2026, 1, 8)) == 1.5
    assert axis.of_day(None) is None
