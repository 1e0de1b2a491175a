"""Days in every form that sheets hold: taken, converted with how, or refused with what to write instead."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.tables.days.reading import read_days
from specs.tables.days.written import of_count, written
from specs.tables.saying import Answers, Fate
from specs.tables.sheet import DAY, FAULT, FORMULA, MOMENT, NUMBER, YES_NO
from tests.specs.tables.typed import TODAY, column_of


def read(*texts, kinds="", is_1904=False, **answers):
    cells = column_of(*texts, kinds=kinds)
    return read_days(cells, today=TODAY, is_1904=is_1904, answers=Answers(**answers))


@pytest.mark.parametrize(
    "text",
    [
        "2025-12-03", "2025/12/03", "2025.12.3", "20251203", " 2025-12-03 ", "'2025-12-03",
        "03.12.2025", "3.12.25", "3. 12. 2025", "3 Dec 2025", "3. Dezember 2025", "03-Dec-25",
        "Dec 3, 2025", "December 3rd, 2025", "3-Dez-2025", "2025 Dec 3", "3rd of Dec 2025",
        "Wed, 3 Dec 2025", "Mi, 03.12.2025", "Mittwoch, den 3. Dezember 2025", "２０２５-12-03",
    ],
)  # fmt: skip
def test_a_day_that_is_certain_is_taken(text):
    (said,) = read(text).said

    assert (said.fate, said.value) == (Fate.TAKEN, "2025-12-03")


@pytest.mark.parametrize(
    "text",
    ["2025-12-03 07:30", "2025-12-03T07:30:00Z", "2025-12-03T07:30:00+01:00", "03.12.2025, 7:30 Uhr", "3 Dec 2025 7:30 pm"],
)  # fmt: skip
def test_the_time_of_day_is_left_out_and_said(text):
    (said,) = read(text).said

    assert (said.fate, said.value) == (Fate.CONVERTED, "2025-12-03")
    assert said.rule.endswith("the time of day is left out")


@pytest.mark.parametrize(
    ("text", "kind"), [("2025-12-03", DAY), ("2025-12-03 00:00:00", MOMENT)]
)
def test_typed_days_are_taken_as_the_file_has_them(text, kind):
    (said,) = read(text, kinds=kind).said

    assert said.value == "2025-12-03"


@pytest.mark.parametrize(
    ("text", "matter", "words"),
    [
        ("31/02/2025", "no such day", "no day of the calendar"),
        ("2025-02-30", "no such day", "no day of the calendar"),
        ("00.00.2025", "no such day", "no day of the calendar"),
        ("Thu, 3 Dec 2025", "no such day", "another weekday"),
        ("2026-02-11", "after today", "after today, 10 Feb 2026"),
        ("1989-12-31", "before 1990", "before 1990"),
        ("03.12.89", "after today", "after today"),
        ("3 Dec 60", "after today", "after today"),
        ("03.12.25x", "not a day", "2025-12-03"),
        ("Dec 2025", "not a day", "names a month"),
        ("12/2025", "not a day", "says no day"),
        ("3.12.", "not a day", "says no year"),
        ("3.12.202", "not a day", "year of two or four figures"),
        ("yesterday", "not a day", "2025-12-03"),
        ("\u202e2025-12-03", "not a day", "2025-12-03"),
        ("3 Dec 2025 " * 9, "not a day", "2025-12-03"),
        ("٣.١٢.٢٠٢٥", "not a day", "2025-12-03"),
    ],
)
def test_what_is_no_day_is_refused_with_what_to_write(text, matter, words):
    found = read(text)

    (said,), (asked,) = found.said, found.questions
    assert said.fate is Fate.REFUSED
    assert words in said.why
    assert (asked.matter, asked.level, asked.key) == (matter, "cell", said.question)
    assert asked.is_refusal
    assert asked.takes_text


@pytest.mark.parametrize(
    ("text", "kind", "matter"),
    [
        ("2025-12-03", FORMULA, "formula"),
        ("", FORMULA, "formula"),
        ("#N/A", FAULT, "not a day"),
        ("TRUE", YES_NO, "not a day"),
        ("280.5", NUMBER, "before 1990"),
        ("-5", NUMBER, "not a day"),
    ],
)
def test_cells_that_hold_something_else_are_refused(text, kind, matter):
    found = read(text, kinds=kind)

    assert found.said[0].fate is Fate.REFUSED
    assert [it.matter for it in found.questions] == [matter]


def test_years_of_two_figures_begin_with_1990():
    assert [it.value for it in read("03.12.90", "3 Dec 99", "03.12.00").said] == [
        "1990-12-03",
        "1999-12-03",
        "2000-12-03",
    ]


def test_a_refused_cell_may_be_left_out_or_written_instead():
    left = read("soon", choices={"B/not a day": "leave"})
    written_anew = read("soon", instead={"B3": "3.12.2025"})

    assert left.said[0].fate is Fate.LEFT_OUT
    assert left.said[0].why
    assert left.questions == ()
    assert written_anew.said[0].value == "2025-12-03"
    assert written_anew.said[0].rule.startswith("written instead of “soon”")
    assert [it.key for it in written_anew.answered] == ["B/not a day"]


def test_an_empty_cell_is_empty_and_may_be_written():
    empty = read("", "  ")
    written_anew = read("", instead={"B3": "2025-12-03"})

    assert [it.fate for it in empty.said] == [Fate.EMPTY, Fate.EMPTY]
    assert empty.questions == ()
    assert written_anew.said[0].rule == "written where nothing stood"


# ECMA-376 part 1, 18.17.4.1 gives the two ways of counting; 39448 is 1 January 2008 there
# counted from 1900 and 37986 counted from 1904 (from memory).
@pytest.mark.parametrize(
    ("count", "is_1904", "day"),
    [
        (1, False, dt.date(1900, 1, 1)), (59, False, dt.date(1900, 2, 28)), (60, False, None),
        (61, False, dt.date(1900, 3, 1)), (39448, False, dt.date(2008, 1, 1)), (0, False, None),
        (0, True, dt.date(1904, 1, 1)), (60, True, dt.date(1904, 3, 1)), (37986, True, dt.date(2008, 1, 1)),
        (2958465, False, dt.date(9999, 12, 31)), (2958466, False, None), (-1, True, None),
    ],
)  # fmt: skip
def test_counts_of_days(count, is_1904, day):
    assert of_count(count, is_1904=is_1904) == day


def test_a_count_that_only_one_epoch_can_mean_is_converted_and_says_so():
    (said,) = read("46009").said

    assert (said.fate, said.value) == (Fate.CONVERTED, "2025-12-18")
    assert "counted in days from 1900" in said.rule
    assert "19 Dec 2029, after today" in said.rule


def test_a_count_that_both_epochs_can_mean_is_asked_once():
    found = read("44000", "44001")

    (asked,) = found.questions
    assert (asked.key, asked.level, asked.count) == ("B/serial epoch", "column", 2)
    assert [it.key for it in asked.choices] == ["1900", "1904"]
    assert asked.choices[0].makes == "44000 = 18 Jun 2020; 44001 = 19 Jun 2020"
    assert asked.proposed == ""


def test_the_days_beside_it_speak_for_an_epoch():
    found = read("2024-06-12", "44000", "2024-06-30")

    assert [it.proposed for it in found.questions] == ["1904"]


@pytest.mark.parametrize(
    ("epoch", "day"), [("1900", "2020-06-18"), ("1904", "2024-06-19")]
)
def test_the_epoch_is_taken_as_answered(epoch, day):
    found = read("44000", choices={"B/serial epoch": epoch})

    assert found.said[0].value == day
    assert found.questions == ()


@pytest.mark.parametrize(
    ("is_1904", "day"), [(False, "2020-06-18"), (True, "2024-06-19")]
)
def test_a_number_cell_counts_as_its_workbook_does(is_1904, day):
    found = read("44000", kinds=NUMBER, is_1904=is_1904)

    assert found.said[0].value == day
    assert "as the workbook counts" in found.said[0].rule


def test_a_number_cell_that_the_workbook_cannot_mean_is_asked():
    found = read("46009", kinds=NUMBER, is_1904=True)

    assert [it.key for it in found.questions] == ["B/serial epoch"]
    assert [it.key for it in found.questions[0].choices] == ["1900"]


def test_counts_after_today_or_before_1990_are_refused():
    found = read("60000", "2025", "60")

    assert [it.matter for it in found.questions] == ["after today", "before 1990"]


def test_equal_cells_share_one_said():
    said = read(*["15/12/2025"] * 3).said

    assert said[0] is said[1] is said[2]


@given(st.text(max_size=70))
def test_any_text_is_a_day_or_says_why_not(text):
    it = written(text)

    assert bool(it.why) != bool(it.figures or it.day or it.count is not None)
    assert bool(it.why) == bool(it.matter)


ANYTHING = st.one_of(
    st.text(max_size=30),
    st.from_regex(r"[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{1,4}", fullmatch=True),
    st.from_regex(r"[0-9]{1,8}([.,][0-9]{1,3})?", fullmatch=True),
    st.dates().map(str),
)
KINDS = st.text(alphabet=" tndmbfe", min_size=6, max_size=6)


@given(st.lists(ANYTHING, min_size=6, max_size=6), KINDS, st.booleans(), st.data())
def test_whatever_stands_there_every_question_can_be_answered(
    texts, kinds, is_1904, data
):
    answers = {}
    for _ in range(4):
        found = read(*texts, kinds=kinds, is_1904=is_1904, choices=answers)
        check(found)
        for asked in found.questions:
            choices = [it.key for it in asked.choices]
            answers[asked.key] = data.draw(st.sampled_from(choices))

    assert found.questions == ()


def check(found):
    keys = {it.key for it in found.questions}
    assert not keys & {it.key for it in found.answered}
    for said in found.said:
        if said.fate in (Fate.TAKEN, Fate.CONVERTED):
            assert dt.date(1990, 1, 1) <= dt.date.fromisoformat(said.value) <= TODAY
            assert said.question == ""
        elif said.fate in (Fate.ASKS, Fate.REFUSED):
            assert said.why
            assert said.question in keys
