"""Day or month first: what the column itself decides is told, what it does not decide is asked once."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.tables.days.reading import read_days
from specs.tables.saying import Answers, Fate
from tests.specs.tables.typed import TODAY, column_of

TAKEN = (Fate.TAKEN, Fate.CONVERTED)


def read(*texts, kinds="", is_1904=False, today=TODAY, **answers):
    cells = column_of(*texts, kinds=kinds)
    return read_days(cells, today=today, is_1904=is_1904, answers=Answers(**answers))


def values(found):
    return [it.value for it in found.said]


def test_a_day_above_twelve_decides_for_the_whole_column_and_is_named():
    found = read("03/12/2025", "15/12/25", "03/01/2026")

    assert values(found) == ["2025-12-03", "2025-12-15", "2026-01-03"]
    assert found.said[0].fate is Fate.CONVERTED
    assert found.said[0].rule == "day first: 15/12/25 (B4) cannot be month first"
    assert found.questions == ()


def test_a_month_above_twelve_decides_for_month_first():
    found = read("03/12/2025", "12/15/2025")

    assert values(found) == ["2025-03-12", "2025-12-15"]
    assert "month first" in found.said[0].rule


def test_a_day_after_today_is_never_meant_and_so_decides():
    found = read("03/01/2026", "04/01/2026", today=dt.date(2026, 2, 10))

    assert values(found) == ["2026-01-03", "2026-01-04"]
    assert found.said[0].rule == (
        "day first: month first, 03/01/2026 (B3) would be 1 Mar 2026, after today"
    )


def test_an_impossible_day_decides_and_is_refused_itself():
    found = read("03/04/2025", "31/02/2025")

    assert found.said[0].value == "2025-04-03"
    assert found.said[1].fate is Fate.REFUSED
    assert found.said[1].question == "B/no such day"


def test_what_nothing_decides_is_asked_once_for_all_cells():
    found = read("03/04/2025", "05/06/2025", "07/07/2025")

    (asked,) = found.questions
    assert (asked.key, asked.level, asked.count) == ("B/date order", "column", 2)
    assert asked.cells == ("B3", "B4")
    assert [it.key for it in asked.choices] == ["day first", "month first"]
    assert asked.choices[0].makes.startswith("03/04/2025 = 3 Apr 2025")
    assert [it.fate for it in found.said] == [Fate.ASKS, Fate.ASKS, Fate.TAKEN]
    assert found.said[0].value == ""


@pytest.mark.parametrize(
    ("choice", "wanted"),
    [
        ("day first", ["2025-04-03", "2025-06-05"]),
        ("month first", ["2025-03-04", "2025-05-06"]),
    ],
)
def test_the_answer_holds_for_the_column(choice, wanted):
    found = read("03/04/2025", "05/06/2025", choices={"B/date order": choice})

    assert values(found) == wanted
    assert found.said[0].rule == f"{choice}, as answered"
    assert found.questions == ()
    assert [it.key for it in found.answered] == ["B/date order"]


def test_an_answer_that_is_none_of_the_choices_is_no_answer():
    found = read("03/04/2025", choices={"B/date order": "year last"})

    assert [it.key for it in found.questions] == ["B/date order"]


def test_an_answer_does_not_overrule_what_the_column_decides():
    found = read("03/04/2025", "15/04/2025", choices={"B/date order": "month first"})

    assert values(found) == ["2025-04-03", "2025-04-15"]


def test_years_of_two_figures_may_come_first_and_are_asked():
    found = read("25-12-15", "25-12-16", "26-01-07")

    (asked,) = found.questions
    assert [it.key for it in asked.choices] == ["day first", "year first"]
    assert asked.proposed == "year first"  # all within a month


def test_one_year_of_four_figures_settles_that_years_come_last():
    found = read("05/12/25", "15/12/2025")

    assert values(found) == ["2025-12-05", "2025-12-15"]
    assert found.questions == ()


def test_a_column_at_odds_with_itself_is_asked_and_then_cell_by_cell():
    texts = "03/12/2025", "15/12/2025", "12/30/2025", "16/12/2025"

    first = read(*texts)
    then = read(*texts, choices={"B/date order": "day first"})

    assert [it.proposed for it in first.questions] == ["day first"]
    assert [it.key for it in then.questions] == ["B/other order"]
    assert then.questions[0].cells == ("B5",)
    assert then.said[2].fate is Fate.ASKS


@pytest.mark.parametrize(
    ("answers", "wanted"),
    [
        ({"choices": {"B/other order": "as read"}}, "2025-12-30"),
        ({"choices": {"B/other order": "leave"}}, ""),
        ({"instead": {"B4": "29/12/2025"}}, "2025-12-29"),
    ],
)
def test_a_day_against_the_order_is_settled_by_itself(answers, wanted):
    choices = {"B/date order": "day first", **answers.get("choices", {})}
    texts = "15/12/2025", "12/30/2025"

    found = read(*texts, choices=choices, instead=answers.get("instead", {}))

    assert values(found) == ["2025-12-15", wanted]
    assert found.questions == ()


def test_days_with_points_are_day_first_without_a_question():
    found = read("03.04.2025", "3.4.25")

    assert values(found) == ["2025-04-03", "2025-04-03"]
    assert found.said[0].fate is Fate.TAKEN
    assert "day first" in found.said[0].rule


def test_points_with_the_month_first_are_asked():
    found = read("12.30.2025", "03.04.2025")

    assert [it.proposed for it in found.questions] == ["month first"]


def test_days_with_points_decide_nothing_for_those_with_strokes():
    found = read("15.12.2025", "03/04/2025")

    assert [it.key for it in found.questions] == ["B/date order"]


def test_two_marks_that_are_unsure_are_asked_apart():
    choices = {"B/date order /": "day first", "B/date order -": "month first"}

    found = read("03/04/2025", "03-04-2025")
    then = read("03/04/2025", "03-04-2025", choices=choices)

    assert {it.key for it in found.questions} == set(choices)
    assert values(then) == ["2025-04-03", "2025-03-04"]


def test_a_weekday_decides_where_it_stands():
    found = read("Wed 04/12/2024", "03/12/2024")

    assert values(found) == ["2024-12-04", "2024-12-03"]


def test_what_is_written_instead_is_read_in_the_order_of_the_column():
    found = read("15/12/2025", "31/02/2025", instead={"B4": "03/02/2025"})

    assert found.said[1].value == "2025-02-03"
    assert found.said[1].rule.startswith("written instead of “31/02/2025”")
    assert found.questions == ()
    assert [it.key for it in found.answered] == ["B/no such day"]


def test_what_is_written_instead_in_an_order_nobody_knows_is_refused():
    found = read("2025-12-15", "soon", instead={"B4": "03/04/2025"})

    assert found.said[1].fate is Fate.REFUSED
    assert "2025-12-03" in found.said[1].why


def test_days_that_lie_as_close_in_both_orders_speak_for_none():
    found = read("01/02/2025", "02/03/2025")

    assert [it.proposed for it in found.questions] == [""]


def as_written(day, order, mark):
    parts = {"d": f"{day.day:02}", "m": f"{day.month:02}", "y": str(day.year)}
    return mark.join(parts[it] for it in order)


DAYS = st.dates(min_value=dt.date(1990, 1, 1), max_value=TODAY)


@given(
    st.lists(DAYS, min_size=1, max_size=12),
    st.sampled_from(["dmy", "mdy"]),
    st.booleans(),
)
def test_days_are_read_as_they_were_written_or_asked(days, order, is_stroke):
    texts = [as_written(it, order, "/" if is_stroke else "-") for it in days]

    found = read(*texts)

    for said, day in zip(found.said, days, strict=True):
        assert said.fate is Fate.ASKS or said.value == day.isoformat()


FIGURES = st.tuples(
    st.integers(1, 31),
    st.integers(1, 31),
    st.sampled_from(["25", "2025", "19", "2026"]),
).map(lambda it: f"{it[0]:02}/{it[1]:02}/{it[2]}")


def in_order(text, order):
    first, second, year = text.split("/")
    year = year if len(year) == 4 else f"20{year}"
    month, day = (second, first) if order == "day first" else (first, second)
    if order == "year first":
        day, year = text.split("/")[2], f"20{first}" if int(first) < 90 else ""
        month = second
        if len(day) > 2:
            return "does not fit"
    if not 1 <= int(month) <= 12 or not 1 <= int(day) <= 31:
        return "does not fit"
    try:
        return dt.date(int(year), int(month), int(day))
    except ValueError:
        return "no day"


@given(st.lists(FIGURES, min_size=1, max_size=6))
def test_no_order_is_taken_while_another_would_do(texts):
    found = read(*texts)

    for said, text in zip(found.said, texts, strict=True):
        if said.fate not in TAKEN:
            continue
        for other in ("day first", "month first", "year first"):
            if in_order(text, other) in ("does not fit", "no day"):
                continue
            if in_order(text, other).isoformat() == said.value:
                continue
            readings = [in_order(it, other) for it in texts]
            assert any(
                it == "does not fit" or (it != "no day" and it > TODAY)
                for it in readings
            ), (text, said, other)
