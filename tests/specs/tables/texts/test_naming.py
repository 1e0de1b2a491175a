"""Products by their codes, places by their words, other names as they stand."""

import pytest

from specs.tables.asking import Column
from specs.tables.known import Role
from specs.tables.saying import Fate
from specs.tables.texts.naming import read_texts
from tests.specs.tables.one_column import keys, look, table


@pytest.mark.parametrize(
    ("text", "fate"),
    [("LX2", Fate.TAKEN), ("lx2", Fate.CONVERTED), ("LX-2", Fate.CONVERTED), ("LX 2", Fate.CONVERTED)],
)  # fmt: skip
def test_a_product_is_known_by_its_code(text, fate):
    found = look(table(["281"], products=[text]))

    assert (found.at("C", 2).fate, found.at("C", 2).value) == (fate, "LX2")


def texts(role, *found, choices=None):
    column = Column("K", "Head", range(2, 9), choices or {})
    said = read_texts(column, role, {("t", it): [at] for at, it in enumerate(found)})
    return [said["t", it] for it in found], column.questions


@pytest.mark.parametrize(
    ("text", "place"),
    [("kettle", "kettle"), ("Kessel", "kettle"), ("after mill", "after mill"),
     ("Fass", "pack"), ("IBC", "tote"), ("Tank", "bulk")],
)  # fmt: skip
def test_where_a_sample_was_taken_is_known_by_many_words(text, place):
    (said,), asked = texts(Role.PLACE, text)

    assert (said.value, asked) == (place, [])


def test_an_unknown_place_is_refused_once_a_column():
    (said,), asked = texts(Role.PLACE, "roof")
    (left,), _ = texts(Role.PLACE, "roof", choices={"K/unknown place": "leave"})

    assert said.fate is Fate.REFUSED
    assert [it.level for it in asked] == ["column"]
    assert left.fate is Fate.LEFT_OUT


@pytest.mark.parametrize(
    ("role", "most"),
    [(Role.KETTLE, 20), (Role.PACK, 40), (Role.INSTRUMENT, 40), (Role.PERSON, 80), (Role.REMARK, 300)],
)  # fmt: skip
def test_a_name_longer_than_is_kept_is_refused(role, most):
    (fits, long), asked = texts(role, "x" * most, "y" * (most + 1))

    assert (fits.fate, long.fate) == (Fate.TAKEN, Fate.REFUSED)
    assert [it.key for it in asked] == ["K/too long"]


def test_a_formula_is_no_name():
    (said,), asked = texts(Role.KETTLE, "=A1")

    assert said.fate is Fate.REFUSED
    assert [it.key for it in asked] == ["K/formula"]


def test_a_dash_is_no_kettle_but_a_remark():
    (kettle,), _ = texts(Role.KETTLE, "-")
    (remark,), _ = texts(Role.REMARK, "-")

    assert (kettle.value, remark.value) == ("", "-")


def test_a_column_that_nobody_wants_is_left_out():
    found = look(table(["28l"], remarks=["x"]), left=("D", "E"))

    assert found.is_ready
    assert (found.at("D", 2).fate, keys(found)) == (Fate.LEFT_OUT, [])
    assert found.lines[0].remark == ""


def test_a_characteristic_that_nobody_knows_is_left_out():
    assert look(table(["28l"]), "no such thing").at("D", 2).fate is Fate.LEFT_OUT
