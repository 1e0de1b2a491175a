"""Products that a sheet names otherwise than they are kept: asked about once a name."""

from dataclasses import replace

import pytest

from specs.tables.saying import Fate, RowRole
from specs.tables.texts.unknown_products import MOST_NAMES, spoken_for
from tests.specs.tables.one_column import KNOWN, keys, look, question, table

NAMES = {
    "LX2": "LX2 lithium EP grease, NLGI 2",
    "LC2": "LC2 lithium complex grease, NLGI 2",
    "PU2": "Diurea grease, NLGI 2",
}
NAMED = replace(KNOWN, names=NAMES)


def test_an_unknown_product_is_asked_about_once_a_name():
    found = look(
        table(["281", "282", "283", "284"], products=["LX9", "LX2", "lx-9", "X"])
    )

    assert keys(found) == ["C/unknown product lx9", "C/unknown product x"]
    asked = question(found, "C/unknown product lx9")
    assert (asked.count, asked.cells, asked.level) == (2, ("C2", "C4"), "column")
    assert [it.key for it in asked.choices] == ["as LC2", "as LX2", "as PU2", "leave"]
    assert asked.proposed == ""
    assert found.at("C", 2).fate is Fate.ASKS
    assert found.role(2) is RowRole.HELD
    assert [it.rows for it in found.lines] == [(3,)]


def test_each_name_is_taken_for_the_product_that_was_said():
    sheet = table(["281", "282", "283"], products=["LX9", "Complex", "old one"])
    found = look(
        sheet,
        choices={
            "C/unknown product lx9": "as LX2",
            "C/unknown product complex": "as LC2",
            "C/unknown product oldone": "leave",
        },
    )

    assert found.is_ready
    assert [(it.rows, it.product) for it in found.lines] == [
        ((2,), "LX2"),
        ((3,), "LC2"),
    ]
    assert found.at("C", 2).rule == "“LX9” is LX2, as answered"
    assert found.held.keys() == {4}


def test_the_name_of_a_product_stands_for_its_code():
    found = look(table(["281"], products=["Diurea Grease NLGI-2"]), known=NAMED)

    assert found.is_ready
    assert (found.at("C", 2).fate, found.lines[0].product) == (Fate.CONVERTED, "PU2")


def test_a_name_that_two_products_have_is_asked_about():
    known = replace(KNOWN, names={"LX2": "Grease", "LC2": "Grease", "PU2": ""})

    assert keys(look(table(["281"], products=["grease"]), known=known)) == [
        "C/unknown product grease"
    ]


def test_what_the_words_speak_for_is_proposed_and_never_taken_by_itself():
    found = look(table(["281"], products=["Lithium EP 2"]), known=NAMED)

    assert question(found, "C/unknown product lithiumep2").proposed == "as LX2"
    assert found.lines == ()


@pytest.mark.parametrize(
    ("text", "code"),
    [("Lithium EP 2", "LX2"), ("Li-Complex NLGI 2", "LC2"), ("drum of LX2", "LX2"),
     ("Lithium 2", ""), ("Lithium EP 3", ""), ("EP 2", ""), ("LX2 or LC2", ""), ("CaSulf 2", ""), ("", "")],
)  # fmt: skip
def test_one_product_alone_has_to_fit_every_word(text, code):
    assert spoken_for(text, NAMES) == code


def test_very_many_names_are_asked_about_together_in_the_end():
    names = [f"Grease {chr(65 + it % 26)}{it}" for it in range(MOST_NAMES + 2)]
    sheet = table(["281"] * len(names), products=names)

    found = look(sheet)
    last = question(found, "C/unknown product")
    assert len(found.questions) == MOST_NAMES + 1
    assert (last.count, last.takes_text, [it.key for it in last.choices]) == (
        2,
        True,
        ["leave"],
    )

    choices = {it.key: "leave" for it in found.questions}
    address = f"C{len(names) + 1}"
    written = look(sheet, choices=choices, instead={address: "PU2"})
    assert written.is_ready
    assert [it.product for it in written.lines] == ["PU2"]


def test_a_sheet_named_in_the_words_of_a_product_speaks_for_it():
    sheet = replace(table(["281"]), name="Li-Complex")

    asked = question(look(sheet, known=NAMED, left=("C",)), "/product of all")

    assert asked.proposed == "LC2"
    assert [it.words for it in asked.choices] == [
        "LC2 lithium complex grease, NLGI 2",
        "LX2 lithium EP grease, NLGI 2",
        "PU2: Diurea grease, NLGI 2",
        "Leave them out",
    ]
