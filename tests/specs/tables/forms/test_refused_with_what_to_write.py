"""A refusal says what to write instead: codes that are kept here, or the column that the file lacks."""

import pytest

from specs.tables.forms.asking import ask
from specs.tables.forms.kept import Kept, names_of
from specs.tables.forms.objections import Objection
from specs.tables.forms.table import begun
from specs.tables.saying import Answers
from tests.factories import tables
from tests.specs.tables.forms.logged import looked
from tests.specs.tables.forms.test_checking import FORM, GOOD, HEADS, KEPT
from tests.specs.tables.forms.test_checking import looked as looked_at

MANY = names_of((f"Colour {it}", f"C{it}") for it in range(40))


def kept(names):
    return Kept(KEPT.today, {"oil": names})


def test_of_a_short_list_all_is_offered():
    it = looked_at((*GOOD[:2], "rape", *GOOD[3:]))

    assert it.at("C", 2).why == (
        "“rape” is no oil that is kept here: write one that is, such as M150 or M220 or "
        "P100, or add it first."
    )


def test_of_a_long_list_what_is_written_alike_is_offered():
    assert "C7" in kept(MANY).near("oil", "Color 7")
    assert len(kept(MANY).near("oil", "Color 7")) <= 4
    assert kept(MANY).near("oil", "zzz") == ()


def test_a_list_of_thousands_is_not_searched():
    thousands = names_of((f"Q1-26-{it:04d}", f"Q1-26-{it:04d}") for it in range(2000))

    assert kept(thousands).near("oil", "Q1-26-00O1") == ()


def test_nothing_is_offered_of_an_empty_list():
    assert kept({}).near("oil", "rape") == ()


@pytest.mark.parametrize(("heads", "is_told"), [(HEADS[:3], True), (HEADS, False)])
def test_a_column_that_the_file_lacks_is_named(heads, is_told):
    sheet = tables.sheet(heads, GOOD[: len(heads)])
    block = tables.block(sheet)
    mapping = dict(zip("ABCDEF", [it.key for it in FORM.columns], strict=True))
    own = {it: mapping[it] for it in block.letters}
    table = begun(FORM, sheet, block, own, Answers())

    ask(table, [Objection(2, "mass", "Write the mass.")])

    (question,) = table.questions.values()
    told = "The file has no column “Mass”: add it, or leave these rows out."
    assert (told in question.sentence) is is_told
    assert question.takes_text is not is_told


def log(*rows, **more):
    return looked(("Time", "P"), *rows, **more)


def test_a_sensor_without_a_unit_is_asked_of_all_its_readings_though_the_time_waits():
    it = log(("0", "758"), ("30", "757"), ("60", "756"))
    asked = {one.key: one for one in it.questions}

    assert asked["B/unit"].count == 3
    assert asked["B/unit"].cells == ("B2", "B3", "B4")


def test_one_cell_and_one_row_are_told_as_one():
    rows = [(str(it), "757") for it in range(12)]
    rows[3], rows[5] = ("3", "n/a"), ("later", "757")
    it = log(*rows, units={"A": "min", "B": "kPa"})
    asked = {one.key: one.sentence for one in it.questions}

    assert asked["B/no number"].startswith("1 cell holds no number.")
    assert asked["A/no time"].startswith("1 row has no time that can be read.")


def test_where_one_answer_holds_for_all_a_dozen_cells_are_shown():
    rows = [(str(it), "757" if 5 < it < 90 else str(700 + it)) for it in range(100)]
    it = log(*rows, units={"A": "min", "B": "kPa"})

    (question,) = it.questions
    assert (question.key, question.count) == ("B/stood still", 83)
    assert len(question.cells) == 12
