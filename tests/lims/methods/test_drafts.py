"""Drafts of figures: what they begin with, how a figure is set and removed, and that the record keeps what is discarded."""

import pytest

from lims.methods import actions, queries
from lims.methods.actions import drafts
from lims.methods.models import FiguresRevision
from lims.record.models import Entry
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from tests.factories import methods
from tests.factories.meanwhile import meanwhile
from tests.factories.methods import figure

WIDE = {"level_from": "130", "level_to": "475"}


def figures_now(revision):
    return queries.figures_of(FiguresRevision.objects.get(pk=revision.pk))


def test_a_draft_begins_with_the_figures_in_force(technologist):
    edition = methods.edition()
    shipped = queries.figures_in_force(edition)

    draft = actions.open_figures_draft(
        edition=edition, note=" our copy has come ", by=technologist
    )

    assert (draft.number, draft.state, draft.note) == (2, "draft", "our copy has come")
    assert draft.figures == shipped.figures
    assert queries.figures_in_force(edition) == shipped
    assert Entry.objects.first().verb == "figures_draft_opened"


def test_an_edition_without_figures_begins_an_empty_draft(technologist):
    edition = methods.bare_edition(by=technologist)

    draft = actions.open_figures_draft(edition=edition, by=technologist)

    assert (draft.number, draft.figures) == (1, [])


def test_there_is_one_draft_at_a_time(technologist):
    edition = methods.edition()
    methods.draft(edition, by=technologist)

    with pytest.raises(WrongMove, match="There is a draft already, figures 2 of ASTM"):
        actions.open_figures_draft(edition=edition, by=technologist)


def test_a_draft_that_somebody_opened_before_the_entry_stays_the_only_one(
    technologist, monkeypatch
):
    edition = methods.edition()
    meanwhile(monkeypatch, drafts, lambda: methods.draft(edition, by=technologist))

    with pytest.raises(WrongMove, match="There is a draft already, figures 2 of ASTM"):
        methods.draft(edition, by=technologist)


def test_a_note_is_not_longer_than_its_place(technologist):
    with pytest.raises(BadInput, match="shorten it to 200") as refused:
        actions.open_figures_draft(
            edition=methods.edition(), note="x" * 201, by=technologist
        )

    assert refused.value.field == "note"


def test_a_figure_takes_the_place_of_what_says_the_same(technologist):
    draft = methods.draft(by=technologist)
    before = len(draft.figures)

    actions.set_figure(
        revision=draft, figure=figure(value="9", **WIDE), by=technologist
    )

    asked = [it for it in figures_now(draft) if it.place == figure(**WIDE).place]
    assert [it.value for it in asked] == ["9"]
    assert len(draft.figures) == before
    entry = Entry.objects.first()
    assert entry.verb == "figure_set"
    assert entry.note == "worked-penetration, repeatability from 130 to 475: 9, was 7"


def test_a_figure_that_was_not_stated_is_added_in_the_order_of_the_book(technologist):
    draft = methods.draft(by=technologist, figures=[figure("constants", "exact")])

    mine = [
        it for it in figures_now(draft) if it.characteristic == "worked-penetration"
    ]
    whats = [it.what for it in mine]
    assert whats.index("constants") < whats.index("repeatability")
    assert whats.index("constants") > whats.index("determinations a result")


def test_numbers_are_kept_without_idle_signs(technologist):
    draft = methods.draft(
        by=technologist,
        figures=[
            figure("reporting step", " 0,5 "),
            figure("determinability", "4", level_from=" 130,0"),
        ],
    )

    mine = [
        it for it in figures_now(draft) if it.characteristic == "worked-penetration"
    ]
    kept = {it.what: it for it in mine}
    assert kept["reporting step"].value == "0.5"
    assert kept["determinability"].level_from == "130.0"


def test_a_figure_is_moved_to_other_levels(technologist):
    draft = methods.draft(by=technologist)
    old = next(it for it in figures_now(draft) if it.place == figure(**WIDE).place)

    actions.set_figure(
        revision=draft,
        figure=figure(value="7", level_from="85", level_to="475"),
        instead_of=old,
        by=technologist,
    )

    levels = [
        it.level_from
        for it in figures_now(draft)
        if (it.characteristic, it.what) == ("worked-penetration", "repeatability")
    ]
    assert levels == ["85"]


def test_a_figure_that_somebody_else_changed_is_not_moved(technologist):
    draft = methods.draft(by=technologist)

    with pytest.raises(
        ChangedSince, match="is no longer 99 in the draft of revision 2"
    ):
        actions.set_figure(
            revision=draft,
            figure=figure(value="8", **WIDE),
            instead_of=figure(value="99", **WIDE),
            by=technologist,
        )


def test_a_figure_is_removed_and_then_not_stated(technologist):
    draft = methods.draft(by=technologist)
    old = next(it for it in figures_now(draft) if it.place == figure(**WIDE).place)

    actions.remove_figure(revision=draft, figure=old, by=technologist)

    assert old not in figures_now(draft)
    entry = Entry.objects.first()
    assert (entry.verb, entry.note) == (
        "figure_removed",
        "worked-penetration, repeatability from 130 to 475: was 7",
    )


def test_a_figure_that_is_not_there_is_not_removed(technologist):
    draft = methods.draft(by=technologist)

    with pytest.raises(ChangedSince, match="look at it as it is now"):
        actions.remove_figure(revision=draft, figure=figure(), by=technologist)


@pytest.mark.parametrize("act", ["set", "remove", "discard"])
def test_a_draft_that_changed_since_it_was_seen_is_left_alone(act, technologist):
    draft = methods.draft(by=technologist)
    seen = draft.version
    one = figures_now(draft)[0]
    actions.set_figure(
        revision=draft, figure=figure("constants", "exact"), by=technologist
    )
    given = {"revision": draft, "version": seen, "by": technologist}
    acts = {
        "set": lambda: actions.set_figure(figure=figure("direction", "lower"), **given),
        "remove": lambda: actions.remove_figure(figure=one, **given),
        "discard": lambda: actions.discard_draft(**given),
    }

    with pytest.raises(ChangedSince, match="changed by somebody else"):
        acts[act]()

    assert [it.value for it in figures_now(draft) if it.what == "constants"] == [
        "exact"
    ]


def test_a_discarded_draft_stays_in_the_record_whole(technologist):
    draft = methods.draft(by=technologist, figures=[figure("constants", "exact")])
    edition = draft.edition

    actions.discard_draft(revision=draft, by=technologist)

    assert queries.figures_draft(edition) is None
    entry = Entry.objects.first()
    assert entry.verb == "figures_draft_discarded"
    gone = {it["field"]: it["before"] for it in entry.changes}
    assert '"value":"1","what":"constants"' in gone["figures"].replace(" ", "") or (
        "constants" in gone["figures"]
    )
    assert actions.open_figures_draft(edition=edition, by=technologist).number == 2


@pytest.mark.parametrize("act", ["set", "remove", "discard"])
def test_what_is_in_force_is_neither_changed_nor_discarded(act, technologist):
    shipped = queries.figures_in_force(methods.edition())
    one = queries.figures_of(shipped)[0]
    given = {"revision": shipped, "by": technologist}
    acts = {
        "set": lambda: actions.set_figure(figure=figure(), **given),
        "remove": lambda: actions.remove_figure(figure=one, **given),
        "discard": lambda: actions.discard_draft(**given),
    }

    with pytest.raises(WrongMove, match="is in force and cannot change: open a draft"):
        acts[act]()

    assert queries.figures_in_force(methods.edition()).figures == shipped.figures


def test_a_technician_drafts_nothing(technologist, technician):
    draft = methods.draft(by=technologist)
    one = figures_now(draft)[0]

    for act in (
        lambda: actions.open_figures_draft(edition=methods.edition(), by=technician),
        lambda: actions.set_figure(revision=draft, figure=figure(), by=technician),
        lambda: actions.remove_figure(revision=draft, figure=one, by=technician),
        lambda: actions.discard_draft(revision=draft, by=technician),
    ):
        with pytest.raises(NotAllowed, match="Keeping methods is for the laboratory"):
            act()
