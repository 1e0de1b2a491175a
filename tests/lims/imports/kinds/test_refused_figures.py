"""Figures that cannot stand, or not before something is answered: what is told, and that nothing is in force by a guess."""

from dataclasses import replace

import pytest

from lims.imports import actions
from lims.imports.kinds import figures, stating
from lims.methods import queries
from lims.methods.models import FiguresRevision, OwnUncertainty
from lims.record.refusals import BadInput, WrongMove
from specs.tables.checked import Row
from tests.factories import bringing, methods
from tests.lims.imports.kinds.stated import D217, HEADS, oil, precision, row

STAY = "A/other figures"
NO_LEVELS = {"level_from": "", "level_to": ""}


@pytest.fixture
def sheet(table, book):
    def made(*rows, **choices):
        it = table("figures", HEADS, *rows)
        it.choices = {STAY: "stay", **choices}
        return it

    return made


@pytest.mark.parametrize(
    ("told", "key", "sentence"),
    [
        (row(edition="ASTM D9999-1"), "A/cannot be read", "no edition that is kept here"),
        (row(characteristic="stickiness"), "B/cannot be read", "no characteristic that is kept"),
        (row(characteristic="oil-separation"), "B/does not fit", "does not measure “Oil separation"),
        (row(figure="bias"), "C/cannot be read", "write one of determinations a result"),
        (row(figure="u"), "C/stated with a signature", "stated with a signature"),
        (row("step", "fine"), "D/does not fit", "is no step to report to"),
        (row("step", "0"), "D/does not fit", "is no step to report to"),
        (row("step", "-1"), "D/does not fit", "is no step to report to"),
        (precision(value="small"), "D/does not fit", "states no precision"),
        (precision(value="0"), "D/does not fit", "states a precision of zero"),
        (precision(value="<7"), "D/does not fit", "states no precision"),
        (row("determinations", "2.5", ""), "D/does not fit", "whole number from 1 to 99"),
        (row("how they combine", "7", ""), "D/does not fit", "choose one of mean"),
        (row("direction", "mean", ""), "D/does not fit", "choose one of lower"),
        (row("plausible from", "much"), "D/does not fit", "much"),
        (row("plausible from", ">500"), "D/does not fit", "only a bound"),
        (row("plausible from", "600"), "D/does not fit", "would go from 600 to 500"),
        (row("plausible from", "600", level_from="1"), "F/does not fit", "leave the levels out"),
        (row("route", "two more", ""), "C/does not fit", "belongs to ISO 5725-6"),
        (precision(level_from="475", level_to="130"), "G/does not fit", "correct one of them"),
        (precision(source=""), "H/missing", "The source is missing"),
        (precision(source="x" * 301), "H/does not fit", "shorten it to 300"),
        (precision(standing="own"), "I/cannot be read", "write one of published, from memory"),
        (precision(unit="mm"), "E/another unit", "A figure is not converted"),
        (precision(unit="dmm"), "E/unknown unit", "no unit that is known here"),
        (row("determinations", "2", "mm"), "E/no unit", "has no unit"),
    ],
)  # fmt: skip
def test_what_cannot_stand_is_refused_with_what_to_do(sheet, told, key, sentence):
    asked = sheet(told).asks()

    assert list(asked) == [key]
    assert sentence in asked[key].sentence
    assert asked[key].is_refusal
    assert "rows" in {it.key for it in asked[key].choices}


def test_a_kind_that_is_never_averaged_has_no_mean(sheet):
    copper = {"edition": "ASTM D4048-22", "characteristic": "copper-strip"}

    asked = sheet(row("how they combine", "mean", "", **copper)).asks()

    assert "is never averaged" in asked["D/does not fit"].sentence


def test_what_a_refused_cell_should_say_is_written_instead(sheet, technologist):
    made = sheet(row("step", "fine"))
    made.instead["D2"] = "0,5"

    made.take_in(by=technologist)

    draft = queries.figures_draft(queries.edition("ASTM D217", "21a"))
    assert "0.5" in {
        it.value for it in queries.figures_of(draft) if it.what == "reporting step"
    }


def test_a_refused_row_is_left_out_and_the_others_come_in(sheet, technologist):
    made = sheet(row("u", "1.5"), precision())
    made.choices["C/stated with a signature"] = "rows"

    it = made.take_in(by=technologist)

    assert it.counts["added"] == 1
    assert not OwnUncertainty.objects.exists()


def test_an_open_draft_of_the_edition_is_refused(sheet, technologist):
    methods.draft(by=technologist)

    asked = sheet(precision(), precision("R", "18"), oil()).asks()

    question = asked["A/a draft is open"]
    assert "There is a draft already, figures 2 of ASTM D217-21a" in question.sentence
    assert question.count == 2  # the other edition has none
    assert question.is_refusal


def test_more_figures_of_an_edition_than_anybody_signs_are_refused(sheet, monkeypatch):
    monkeypatch.setattr(figures, "MOST", 1)

    asked = sheet(precision(), precision("R", "18"), oil()).asks()

    assert asked["A/too many"].count == 2
    assert "states 2 figures of ASTM D217-21a" in asked["A/too many"].sentence


def test_a_draft_that_was_opened_meanwhile_refuses_the_file_whole(sheet, technologist):
    made = sheet(oil(), precision())
    looked = made.look()
    methods.draft(by=technologist)
    waits = bringing.received(by=technologist, kind="figures")

    with pytest.raises(WrongMove, match=r"Row 3: There is a draft already, figures 2"):
        actions.take_in(import_of=waits, tables=[looked], by=technologist)

    assert FiguresRevision.objects.filter(state="draft").count() == 1


def test_a_row_that_no_longer_fits_refuses_the_file_whole(sheet, technologist):
    looked = sheet(oil(), precision()).look()
    first, second = looked.rows
    loose = Row(second.row, {**second.values, "value": "none at all"})
    waits = bringing.received(by=technologist, kind="figures")

    with pytest.raises(BadInput, match=r"Row 3: .*states no precision"):
        actions.take_in(
            import_of=waits,
            tables=[replace(looked, rows=(first, loose))],
            by=technologist,
        )

    assert not FiguresRevision.objects.filter(state="draft").exists()


def test_two_tables_of_one_edition_are_refused(sheet, technologist):
    first, second = sheet(precision()).look(), sheet(precision("R", "18")).look()
    waits = bringing.received(by=technologist, kind="figures")

    with pytest.raises(WrongMove, match="put them into one table"):
        actions.take_in(import_of=waits, tables=[first, second], by=technologist)

    assert not FiguresRevision.objects.filter(state="draft").exists()


@pytest.mark.parametrize("value", ["6", "7.5"])
def test_the_same_at_levels_that_overlap_is_refused(sheet, value):
    asked = sheet(precision(), precision(value=value, level_to="475.0")).asks()

    assert asked["F/does not fit"].cells == ("F2", "F3")
    assert f"from 130 to 475.0 is {value} already" in asked["F/does not fit"].sentence


def test_without_a_unit_it_is_asked_once(sheet, technologist):
    made = sheet(
        precision(unit=""),
        row("step", "0.5", ""),
        row("step", "3 digits", "", characteristic="unworked-penetration"),
        oil(value="20 %", unit=""),
        row("determinations", "2", ""),
    )

    asked = made.asks()["E/unit"]
    assert (asked.cells, asked.proposed) == (("E2", "E3"), "own")
    made.choices["E/unit"] = "own"
    assert made.look().is_ready
    assert made.take_in(by=technologist).counts["added"] == 5


def test_the_unit_may_stand_beside_what_has_none(sheet):
    """As in a list of figures that was taken along from here."""
    assert sheet(row("determinations", "2", "0.1 mm")).look().is_ready


def test_per_cent_as_a_unit_is_asked_about(sheet, technologist):
    made = sheet(precision(value="5", unit="%"))

    asked = made.asks()["D/per cent"]
    assert asked.proposed == "of the level"
    made.choices["D/per cent"] = "of the level"
    made.take_in(by=technologist)

    draft = queries.figures_draft(queries.edition("ASTM D217", "21a"))
    assert "5 %" in {it.value for it in queries.figures_of(draft)}


@pytest.mark.parametrize(
    ("choice", "value"), [("of the level", "5 %"), ("in the unit", "5")]
)
def test_per_cent_of_what_has_a_unit_in_per_cent_is_not_guessed(
    sheet, technologist, choice, value
):
    made = sheet(oil(value="5", unit="%"))

    asked = made.asks()["D/per cent of what"]
    assert asked.proposed == ""
    made.choices["D/per cent of what"] = choice
    made.take_in(by=technologist)

    draft = queries.figures_draft(queries.edition("ASTM D6184", "17"))
    stands = {it.value for it in queries.figures_of(draft) if it.what[:6] == "repeat"}
    assert value in stands


def test_per_cent_beside_an_expression_and_a_range_in_mass_per_cent_are_plain(sheet):
    rows = (
        oil(value="20 %", unit="%"),
        oil("plausible to", "30", "%", **NO_LEVELS),
    )

    assert sheet(*rows).look().is_ready


def test_levels_of_what_has_none_can_be_left_empty(sheet, technologist):
    made = sheet(row("step", "0.5", level_from="100", level_to="200"))
    made.choices |= {"F/does not fit": "cells", "G/does not fit": "cells"}

    assert made.take_in(by=technologist).counts["added"] == 1


def test_the_book_is_asked_in_few_queries(book, django_assert_num_queries):
    with django_assert_num_queries(3):
        stating.book()


def test_the_first_thing_is_asked_first(sheet):
    """Of an edition whose rows cannot all stand nothing is asked as a whole."""
    made = sheet(precision(), row("step", "fine"))
    made.choices = {}

    assert list(made.asks()) == ["D/does not fit"]


def test_what_else_is_in_force_is_asked_beside_other_levels_too(sheet):
    made = sheet(row("r", "5", level_to="300"), **{"F/other levels": "take"})
    made.choices.pop(STAY)

    assert list(made.asks()) == [STAY]


def test_whether_anything_is_new_is_asked_when_the_standing_is_known(sheet, book):
    """In force stands the same value, published: as common practice it would be new."""
    edition = queries.edition("ASTM D217", "21a")
    stands = next(
        it
        for it in queries.figures_of(queries.figures_in_force(edition))
        if it.place == ("worked-penetration", "reporting step", "", "")
    )
    made = sheet(row("step", stands.value, source=stands.source, standing=""))

    assert list(made.asks()) == ["I/standing"]
    made.choices["I/standing"] = "common practice"
    assert made.look().is_ready
    made.choices["I/standing"] = "published"
    assert list(made.asks()) == ["A/nothing new"]


def test_several_editions_are_told_apart(sheet):
    made = sheet(precision(), oil())
    made.choices = {}

    asked = made.asks()[STAY]
    assert asked.count == 2
    assert asked.sentence.startswith(f"Of {D217} figures are in force")
