"""The plant's own figures of methods: drafts that are approved by hand, never in force by a file."""

import pytest

from lims.imports import queries as brought
from lims.methods import figures as words
from lims.methods import queries
from lims.methods.actions import approve_figures
from lims.methods.models import FiguresRevision, MethodEdition
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed
from specs.tables.forms import figures as form
from tests.factories import bringing, methods
from tests.factories.people import PASSWORD
from tests.lims.imports.kinds.stated import HEADS, OWN_COPY, oil, precision, row

STAY = {"A/other figures": "stay"}


@pytest.fixture
def d217(book):
    return queries.edition("ASTM D217", "21a")


@pytest.fixture
def sheet(table, book):
    """`sheet(row, …)`: a table of figures; what else is in force stays."""

    def made(*rows, **choices):
        it = table("figures", HEADS, *rows)
        it.choices = {**STAY, **choices}
        return it

    return made


def worked(revision):
    """The figures of the worked penetration: what each says, over which levels."""
    return {
        (it.what, it.level_from, it.level_to): it
        for it in queries.figures_of(revision)
        if it.characteristic == "worked-penetration"
    }


def test_the_words_of_the_table_are_those_of_the_method_book():
    assert set(words.What) == set(form.SAYS)
    assert set(form.PRECISIONS) == set(words.PRECISIONS)
    assert set(MethodEdition.Standing.values) == set(form.STANDINGS)
    assert {it for some in words.WORDS.values() for it in some} == set(form.WORDS)


def test_figures_become_a_draft_of_the_next_revision(sheet, d217, technologist):
    old = queries.figures_in_force(d217)

    it = sheet(precision(), row("reporting step", "0,5")).take_in(by=technologist)

    draft = queries.figures_draft(d217)
    assert (draft.number, draft.state, draft.approved_by) == (2, "draft", None)
    assert draft.note == f"From the file penbook.csv (import {it.pk})"
    found = worked(draft)["repeatability", "130", "475"]
    assert (found.value, found.source, found.standing) == ("6", *OWN_COPY)
    assert worked(draft)["reporting step", "", ""].value == "0.5"
    assert len(draft.figures) == len(old.figures)
    assert it.counts["added"] == 2
    assert it.counts["drafts"] == 1


def test_what_is_in_force_stays_in_force(sheet, d217, technologist):
    before = queries.figures_in_force(d217).figures

    sheet(precision()).take_in(by=technologist)

    assert queries.figures_in_force(d217).figures == before
    assert worked(queries.figures_in_force(d217))["repeatability", "130", "475"]


def test_the_usual_approval_puts_it_in_force(sheet, d217, technologist):
    sheet(precision()).take_in(by=technologist)

    approve_figures(
        revision=queries.figures_draft(d217), password=PASSWORD, by=technologist
    )

    now = queries.figures_in_force(d217)
    assert now.number == 2
    assert worked(now)["repeatability", "130", "475"].value == "6"


def test_all_of_it_is_one_entry(sheet, technologist):
    made = sheet(precision(), oil())
    bringing.received(by=technologist, kind="figures", content=b"a table")
    entries = Entry.objects.count()

    made.take_in(by=technologist)

    assert Entry.objects.count() == entries + 1
    assert Entry.objects.first().verb == "file_taken_in"
    assert Entry.objects.first().note == "added: 2, drafts: 2"


def test_the_file_knows_its_drafts(sheet, d217, technologist):
    it = sheet(precision(), oil()).take_in(by=technologist)

    assert [str(one) for one in brought.figures_brought_by(it)] == [
        "figures 2 of ASTM D217-21a",
        "figures 2 of ASTM D6184-17",
    ]


def test_a_file_that_waits_has_brought_nothing(book, technologist):
    it = bringing.received(by=technologist, kind="figures")

    assert brought.figures_brought_by(it) == []


def test_the_same_again_adds_nothing(sheet, d217, technologist):
    sheet(precision()).take_in(by=technologist)

    with pytest.raises(BadInput, match="This very file was taken in on"):
        sheet(precision()).take_in(by=technologist)

    assert FiguresRevision.objects.filter(edition=d217).count() == 2


def test_figures_that_are_in_force_make_no_draft(sheet, d217, technologist):
    sheet(precision()).take_in(by=technologist)
    draft = queries.figures_draft(d217)
    approve_figures(revision=draft, password=PASSWORD, by=technologist)
    again = sheet(precision(value="6,0"))

    asked = again.asks()["A/nothing new"]

    assert "is in force already" in asked.sentence
    assert asked.proposed == "rows"
    again.choices["A/nothing new"] = "rows"
    assert again.look().rows == ()


def test_a_draft_of_what_is_in_force_can_be_wanted_all_the_same(
    sheet, d217, technologist
):
    old = queries.figures_in_force(d217)
    step = worked(old)["reporting step", "", ""]
    told = {"source": step.source, "standing": step.standing}
    made = sheet(row("step", "1", **told), **{"A/nothing new": "take"})

    it = made.take_in(by=technologist, content=b"other bytes")

    assert set(queries.figures_of(queries.figures_draft(d217))) == set(
        queries.figures_of(old)
    )
    assert (it.line_count, it.counts["figures in force already"]) == (0, 1)


def test_a_better_source_alone_is_new(sheet, d217, technologist):
    sheet(precision(value="7")).take_in(by=technologist)

    found = worked(queries.figures_draft(d217))["repeatability", "130", "475"]
    assert (found.value, found.source) == ("7", OWN_COPY[0])


def test_what_the_file_does_not_state_can_go(sheet, d217, technologist):
    made = sheet(precision())
    made.choices = {}

    asked = made.asks()["A/other figures"]
    assert "Of ASTM D217-21a figures are in force that the file does not state" in (
        asked.sentence
    )
    assert (asked.level, asked.proposed) == ("column", "stay")
    made.choices = {"A/other figures": "go"}
    made.take_in(by=technologist)

    assert len(queries.figures_draft(d217).figures) == 1


def test_an_edition_without_figures_gets_its_first_ones(sheet, technologist):
    house = methods.bare_edition(by=technologist)

    sheet(precision(edition=str(house))).take_in(by=technologist)

    draft = queries.figures_draft(house)
    assert (draft.number, len(draft.figures)) == (1, 1)


def test_other_levels_take_the_place_of_those_in_force(sheet, d217, technologist):
    made = sheet(row("r", "5", level_to="300"), row("r", "9", level_from="300"))

    asked = made.asks()["F/other levels"]
    assert "stands over other levels (from 130 to 475: 7)" in asked.sentence
    made.choices["F/other levels"] = "take"
    made.take_in(by=technologist)

    draft = worked(queries.figures_draft(d217))
    assert [
        (it.level_from, it.level_to, it.value)
        for it in draft.values()
        if it.what == "repeatability"
    ] == [("", "300", "5"), ("300", "", "9")]


@pytest.mark.parametrize("role", ["technician", "despatch", "auditor"])
def test_who_does_not_keep_methods_brings_none_in(sheet, person, role):
    with pytest.raises(NotAllowed, match="Keeping methods"):
        sheet(precision()).take_in(by=person(role))


@pytest.mark.parametrize(
    "role", ["laboratory_manager", "quality_manager", "technologist"]
)
def test_who_keeps_methods_may(sheet, person, role):
    assert sheet(precision()).take_in(by=person(role)).state == "taken in"
