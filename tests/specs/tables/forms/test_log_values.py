"""Sensors that are broken, units, and what a log is of: asked once a column."""

from dataclasses import replace

from specs.tables.forms.log_checking import check_log
from specs.tables.forms.log_subjects import Around
from specs.tables.saying import Answers, Fate
from tests.factories import tables
from tests.specs.tables.forms.logged import TODAY, looked, minutes


def values(*numbers, choices=None, unit="°C", **more):
    rows = [(str(place), number) for place, number in enumerate(numbers)]
    return looked(
        ("Time (min)", "Bath T"), *rows, units={"B": unit}, choices=choices, **more
    )


def test_numbers_that_stand_for_no_reading_are_asked_about():
    it = values("99", "99.1", "9999", "99.2", "-200")

    (question,) = it.questions
    assert question.key == "B/no reading"
    assert question.proposed == "leave"
    assert "-200, 9999" in question.sentence
    left = values(
        "99", "99.1", "9999", "99.2", "-200", choices={"B/no reading": "leave"}
    )
    assert minutes(left, "B") == ["99", "99.1", "99.2"]
    kept = values(
        "99", "99.1", "9999", "99.2", "-200", choices={"B/no reading": "take"}
    )
    assert len(minutes(kept, "B")) == 5


def test_a_sensor_that_stands_still_is_told():
    still = ["98", "99", *["101.5"] * 40, "99"]
    (question,) = values(*still).questions

    assert question.key == "B/stood still"
    assert "for 40 readings at 101.5, from B4 on" in question.sentence
    left = values(*still, choices={"B/stood still": "leave"})
    assert minutes(left, "B") == ["98", "99", "101.5", "99"]


def test_a_signal_that_never_moves_is_taken_as_it_is():
    assert values(*["99"] * 50).is_ready


def test_cells_that_hold_no_number_are_asked_about_once():
    it = values("99", "OL", "Err 3", "99.2")

    (question,) = it.questions
    assert question.key == "B/no number"
    assert question.count == 2
    assert it.at("B", 3).fate == Fate.REFUSED
    assert minutes(
        values("99", "OL", "99.2", choices={"B/no number": "leave"}), "B"
    ) == ["99", "99.2"]
    assert minutes(values("99", "OL", "99.2", instead={"B3": "99,1"}), "B") == [
        "99",
        "99.1",
        "99.2",
    ]


def test_a_unit_of_something_else_is_said():
    it = looked(
        ("Time (min)", "Temperature"), ("0", "12"), ("1", "13"), units={"B": "rpm"}
    )

    (question,) = it.questions
    assert question.key == "B/unit"
    assert "says “rpm”, which is neither" in question.sentence


def test_rows_without_a_time_are_asked_about_once():
    rows = [
        ("0", "758"),
        ("power failure", ""),
        *[(str(it), "757") for it in range(1, 12)],
    ]
    it = looked(("Time (min)", "P"), *rows, units={"B": "kPa"})

    (question,) = it.questions
    assert question.key == "A/no time"
    assert "“power failure” is no time" in question.sentence
    left = looked(
        ("Time (min)", "P"), *rows, units={"B": "kPa"}, choices={"A/no time": "leave"}
    )
    assert left.is_ready
    assert list(left.held) == [3]


def test_what_was_logged_is_asked_and_can_be_written():
    it = values("99", "98", choices={"B/subject": ""})
    (question,) = it.questions
    assert [one.words for one in question.choices] == [
        "As the heading says: Bath T",
        "As the sheet says: Sheet1",
    ]
    assert question.cells == ("B1",)

    written = values(
        "99", "98", choices={"B/subject": ""}, instead={"B1": " Kettle  K2 "}
    )
    assert written.rows[0].values["subject"] == "Kettle K2"
    too_long = values("99", "98", choices={"B/subject": ""}, instead={"B1": "x" * 61})
    assert "at most 60 characters" in too_long.questions[0].sentence


def test_a_column_that_is_missing_is_said():
    sheet = tables.sheet(("Time", "P"), ("0", "758"))
    block = tables.block(sheet)

    it = check_log(sheet, block, {"A": {"role": "time"}}, Answers(), Around(TODAY))

    assert "No column is taken for “Pressure”" in it.questions[0].sentence
    assert it.rows == ()


def test_formulas_faults_and_bounds_are_no_readings():
    sheet = tables.sheet(
        ("Time (min)", "P"), ("0", "758"), ("1", "757"), ("2", "#N/A"), ("3", ">999")
    )
    pressure = replace(sheet.columns[1], kinds="ttfet")
    sheet = replace(sheet, columns=(sheet.columns[0], pressure))
    block = tables.block(sheet, units={"B": "kPa"})
    mapping = {"A": {"role": "time"}, "B": {"role": "value"}}

    it = check_log(
        sheet, block, mapping, Answers({"B/subject": "heading"}), Around(TODAY)
    )

    assert "formula" in it.at("B", 3).why
    assert "fault" in it.at("B", 4).why
    assert "is a bound" in it.at("B", 5).why


def test_the_noise_of_a_stored_number_is_told():
    sheet = tables.sheet(("Time (min)", "P"), ("0", 0.3), ("1", 0.1 + 0.2))
    block = tables.block(sheet, units={"B": "°C"})
    mapping = {"A": {"role": "time"}, "B": {"role": "value"}}

    it = check_log(
        sheet, block, mapping, Answers({"B/subject": "heading"}), Around(TODAY)
    )

    assert it.at("B", 3).value == "0.3"
    assert it.at("B", 3).rule.startswith("0.30000000000000004 is stored")


def test_only_the_unit_of_the_person_goes_before_that_of_the_head():
    sheet = tables.sheet(("Time (min)", "P"), ("0", "110"), ("1", "109"))
    block = tables.block(sheet, units={"B": "kPa"})
    mapping = {"A": {"role": "time"}, "B": {"role": "value", "unit": "psi"}}

    it = check_log(
        sheet, block, mapping, Answers({"B/subject": "heading"}), Around(TODAY)
    )

    assert it.rows[0].values["unit"] == "psi"
