"""The table of figures of methods: by which words its cells go, and what its rows say by themselves."""

import datetime as dt

import pytest

from specs.tables.forms import FORMS, Kept, check, proposed
from specs.tables.forms import figures as form
from specs.tables.forms.kept import names_of
from specs.tables.saying import Answers, Fate
from tests.factories import tables

HEADS = (
    "Methode", "Merkmal", "Kenngröße", "Wert", "Einheit", "Gültig von", "Gültig bis",
    "Quelle", "Standing",
)  # fmt: skip
KEPT = Kept(
    dt.date(2026, 3, 4),
    {
        "edition": names_of([("D217", "ASTM D217-21a"), ("D1403", "ASTM D1403-20b")]),
        "characteristic": names_of([("pen", "pen")]),
    },
)
R = ("D217", "pen", "r", "7", "0.1 mm", "130", "475", "own copy", "published")


def looked(*rows, choices=None, heads=HEADS):
    sheet = tables.sheet(heads, *rows)
    block = tables.block(sheet)
    return check(
        form.FIGURES,
        sheet,
        block,
        proposed(block, form.FIGURES),
        answers=Answers(choices or {}),
        kept=KEPT,
        objects=lambda rows: list(form.against(form.whole(rows))),
    )


def row(**instead):
    keys = [it.key for it in form.FIGURES.columns]
    return tuple({**dict(zip(keys, R, strict=True)), **instead}.values())


def asks(*rows, **more):
    return {it.key: it for it in looked(*rows, **more).questions}


@pytest.mark.parametrize("key", ["figure", "value", "standing"])
def test_other_words_lead_to_those_words_alone(key):
    column = FORMS["figures"].column(key)
    known = {*form.SAYS, form.OWN_UNCERTAINTY, *form.WORDS, *form.STANDINGS}

    assert set(column.means.values()) <= known
    assert {it.casefold() for it in column.means} - {"r"} == set(column.means) - {
        "r",
        "R",
    }


def test_a_row_is_read_under_german_heads():
    it = looked(R)

    assert it.is_ready
    assert it.rows[0].values == {
        "edition": "ASTM D217-21a",
        "characteristic": "pen",
        "figure": "repeatability",
        "value": "7",
        "unit": "0.1 mm",
        "level_from": "130",
        "level_to": "475",
        "source": "own copy",
        "standing": "published",
    }


@pytest.mark.parametrize(
    ("figure", "means"),
    [
        ("r", "repeatability"),
        ("R", "reproducibility"),
        ("Repeatability r", "repeatability"),
        ("Vergleichgrenze", "reproducibility"),
        ("Rundung", "reporting step"),
    ],
)
def test_a_figure_goes_by_other_names_and_says_so(figure, means):
    said = looked(row(figure=figure)).at("C", 2)

    assert (said.fate, said.value) == (Fate.CONVERTED, means)
    assert said.rule == f"“{figure}” is {means}"


@pytest.mark.parametrize(
    ("cell", "value", "fate"),
    [
        ("0,5", "0.5", Fate.CONVERTED),
        (7, "7", Fate.TAKEN),
        ("0.20", "0.20", Fate.TAKEN),
        ("Mittelwert", "mean", Fate.CONVERTED),
        ("iso 4259", "ISO 4259", Fate.CONVERTED),
        ("0,42 √m", "0,42 √m", Fate.TAKEN),
        ("23 %", "23 %", Fate.TAKEN),
        ("<7", "<7", Fate.TAKEN),  # refused by what its figure can say
    ],
)
def test_a_value_is_a_number_a_word_or_an_expression(cell, value, fate):
    said = looked(row(value=cell)).at("D", 2)

    assert (said.value, said.fate) == (value, fate)


def test_edition_and_characteristic_stand_for_the_rows_below():
    it = looked(R, ("", "", "R", *R[3:]), row(edition="D1403", characteristic=""))

    assert it.rows[1].values["edition"] == "ASTM D217-21a"
    assert it.at("B", 3).rule == "as in row 2"
    assert (
        it.at("B", 4).fate == Fate.REFUSED
    )  # of another edition nothing is carried on


@pytest.mark.parametrize(
    ("instead", "key", "sentence"),
    [
        ({"edition": "D9"}, "A/cannot be read", "no edition that is kept here"),
        ({"characteristic": "tar"}, "B/cannot be read", "no characteristic that is kept"),
        ({"figure": "bias"}, "C/cannot be read", "write one of determinations a result"),
        ({"value": ""}, "D/missing", "The value is missing"),
        ({"level_from": "low"}, "F/cannot be read", "low"),
        ({"source": ""}, "H/missing", "The source is missing"),
        ({"standing": "own"}, "I/cannot be read", "write one of published, from memory"),
        ({"figure": "u"}, "C/stated with a signature", "state it under Methods"),
    ],
)  # fmt: skip
def test_a_cell_that_cannot_be_taken_is_asked_about(instead, key, sentence):
    asked = asks(row(**instead))

    assert list(asked) == [key]
    assert sentence in asked[key].sentence


def test_it_is_asked_once_how_all_figures_are_known():
    rows = [row(standing=""), row(figure="R", standing="")]

    asked = asks(*rows)["I/standing"]
    assert (asked.count, asked.level, asked.proposed) == (2, "column", "")

    it = looked(*rows, choices={"I/standing": "derived"})
    assert it.is_ready
    assert {one.values["standing"] for one in it.rows} == {"derived"}


def test_without_its_column_the_standing_is_asked_all_the_same():
    asked = asks(R[:8], heads=HEADS[:8])

    assert list(asked) == ["A/standing"]


def test_without_a_source_nothing_is_read():
    asked = asks(R[:7], heads=HEADS[:7])

    assert list(asked) == ["A/no source"]


@pytest.mark.parametrize(
    ("value", "sentence", "proposed_choice"),
    [("7", "in the same words", "rows"), ("8", "keep one of them", "")],
)
def test_a_figure_that_stands_twice_is_asked_about(value, sentence, proposed_choice):
    asked = asks(R, row(value=value))["D/stands twice"]

    assert sentence in asked.sentence
    assert (asked.cells, asked.proposed) == (("D3",), proposed_choice)
    assert not asked.takes_text


def test_the_same_over_other_levels_is_not_the_same():
    assert looked(row(level_to="300"), row(level_from="300")).is_ready
