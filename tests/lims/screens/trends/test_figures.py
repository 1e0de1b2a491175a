"""What stands beneath a chart: each series summed up by itself, its line over time, the limits as they stood."""

import datetime as dt
import html
import re
import statistics

from lims.people.queries import person
from tests.factories import history
from tests.lims.screens.trends.conftest import (
    NUMBERS,
    one,
    points_of,
    rows_of,
    text_of,
)


def told(numbers, *, every=3, **more):
    lines = history.lines(numbers, every=every, **more)
    return history.taken_in(lines, by=person("mgr-1"))


def row_of(page, heading):
    """The cells of the summary's row with this heading."""
    markup = page.content.decode()
    table = markup.split('id="h-sum"')[1].split("</table>")[0]
    row = next(it for it in table.split("<tr ")[1:] if heading in it)
    cells = re.findall(r'data-label="([^"]*)">(.*?)</td>', row, re.DOTALL)
    return {
        name: " ".join(html.unescape(re.sub("<[^>]*>", " ", it)).split())
        for name, it in cells
    }


def test_a_series_is_summed_up_by_itself(as_, tested):
    told(NUMBERS)

    page = as_("tech-a").get(one())

    row = row_of(page, "Unverified history")
    assert row["Number"] == "8"
    assert row["Mean"] == f"{statistics.mean(NUMBERS):.1f}"
    assert row["s"] == f"{statistics.stdev(NUMBERS):.2f}"
    assert row["Median"] == "282"
    assert row_of(page, "Released")["Number"] == "2"


def test_of_one_value_there_is_no_spread(as_, tested):
    row = row_of(as_("tech-a").get(one(lot="Q1-26-0417 A")), "Released")

    assert (row["Number"], row["Mean"], row["s"]) == ("1", "280.0", "none")


def test_bounds_are_counted_and_never_averaged(as_, opened):
    told(("198", "203", ">288"), characteristic="dropping-point-block")

    page = as_("tech-a").get(one(code="dropping-point-block"))

    row = row_of(page, "Unverified history")
    assert row["Number"] == "3 1 as a bound only"
    assert row["Mean"] == row["s"] == "none"
    assert row["Median"] == "203"
    assert row["Greatest"] == ">288"
    assert "1 value is known only as a bound" in text_of(page)


def test_marks_are_counted_and_ordered_but_never_averaged(as_, opened):
    told(("1a", "1b", "1a"), characteristic="copper-strip")

    page = as_("tech-a").get(one(code="copper-strip"))

    row = row_of(page, "Unverified history")
    assert "Mean" not in row
    assert row["Best"] == row["Median"] == "1a"
    assert row["Worst"] == "1b"
    assert "1a: 2, 1b: 1" in text_of(page)


def test_a_rise_is_told_with_its_interval(as_, opened):
    told(range(260, 300), every=30)

    page = text_of(as_("tech-a").get(one())).replace("\xa0", " ")

    assert "Unverified history rises by 12.18 × 0.1 mm a year (95 % interval" in page
    assert "Mann and Kendall p < 0.001" in page


def test_a_rise_that_chance_can_give_is_not_told(as_, opened):
    told((280, 283, 279, 282, 280, 281), every=5)

    page = text_of(as_("tech-a").get(one()))

    assert "No rise or fall of unverified history can be told" in page


def test_three_weeks_are_not_told_as_a_year(as_, opened):
    told((280, 283, 279, 282, 280, 281), every=4)

    page = text_of(as_("tech-a").get(one()))

    assert " a day (95 % interval" in page
    assert " a year" not in page


def test_of_two_values_no_line_is_told(as_, opened):
    told((280, 283))

    assert "Over time" not in text_of(as_("tech-a").get(one()))


def test_the_limits_stand_with_their_revision_and_its_days(as_, tested):
    page = text_of(as_("tech-a").get(one())).replace("\xa0", " ")

    assert "5 265 to 295 × 0.1 mm 1 December 2025 until today" in page


def test_a_value_older_than_every_revision_says_so(as_, opened):
    told((280, 300), first=dt.date(2024, 1, 8))

    page = text_of(as_("tech-a").get(one()))

    assert "2 values are older than revision 5" in page


def test_the_answer_says_where_the_last_value_lies(as_, opened):
    told((280, 300), first=dt.date(2026, 1, 5))

    page = text_of(as_("tech-a").get(one()))

    assert "the last is 300, beyond the limits of its day." in page


def test_what_is_not_built_is_said(as_, tested):
    page = text_of(as_("tech-a").get(one()))

    assert "Control limits and capability Not yet." in page


def test_words_have_no_place_on_a_chart_and_stand_in_the_table(as_, opened):
    lines = history.lines(("pass", "fail"), characteristic="copper-strip")
    history.taken_in(lines, by=person("mgr-1"))

    page = as_("tech-a").get(one(code="copper-strip"))

    assert "they have no place on a chart, and stand in the table" in text_of(page)
    assert [row[2] for row in rows_of(page)] == ["fail", "pass"]
    assert points_of(page) == []


def test_loads_of_a_ladder_are_ordered_and_never_averaged(as_, opened):
    told(("250", "315", "250"), characteristic="four-ball-weld")

    row = row_of(as_("tech-a").get(one(code="four-ball-weld")), "Unverified history")

    assert "Mean" not in row
    assert row["Median"] == "250"
    assert row["Greatest"] == "315"
