"""Checks of figures: they hold for exactly what was compared, in whatever revision it stands."""

import datetime as dt

import pytest

from lims.methods import actions, queries
from lims.methods.actions import checking
from lims.methods.models import FigureCheck
from lims.people.days import today
from lims.record.gate import entry
from lims.record.models import Entry
from lims.record.refusals import (
    BadInput,
    ChangedSince,
    GateError,
    NotAllowed,
    WrongMove,
)
from tests.factories import methods
from tests.factories.meanwhile import meanwhile
from tests.factories.methods import figure

WIDE = {"level_from": "130", "level_to": "475"}


def checked(by, **change):
    given = {
        "edition": methods.edition(),
        "checked_by": "QM-1, own copy",
        "on": today(),
    }
    return actions.check_figures(**given | change, by=by)


def in_force():
    return queries.figures_of(queries.figures_in_force(methods.edition()))


def unchecked():
    edition = methods.edition()
    figures = queries.figures_in_force(edition).figures
    return queries.from_memory_unchecked(figures, edition)


def test_a_check_of_all_leaves_no_figure_resting_on_memory(manager):
    methods.with_reference()
    before = unchecked()

    row = checked(manager, checked_by=" QM-1, own copy ")

    assert before
    assert unchecked() == []
    assert (row.checked_by, row.checked_on) == ("QM-1, own copy", today())
    assert [it["value"] for it in row.figures] == [it.value for it in in_force()]
    assert Entry.objects.first().verb == "figures_checked"


def test_a_check_of_chosen_figures_leaves_the_others(manager):
    methods.with_reference()
    one, *others = unchecked()

    checked(manager, figures=[one])

    assert unchecked() == others


def test_a_figure_carried_over_stays_checked_and_a_changed_one_does_not(
    manager, technologist
):
    checked(manager)

    methods.in_force(
        by=technologist,
        figures=[figure(value="9", standing="from memory", **WIDE)],
    )

    assert [it.value for it in unchecked()] == ["9"]


def test_another_source_is_another_figure(manager, technologist):
    checked(manager)
    old = next(it for it in in_force() if it.place == figure(**WIDE).place)

    methods.in_force(
        by=technologist,
        figures=[
            figure(value=old.value, standing=old.standing, source="hearsay", **WIDE)
        ],
    )

    assert [it.source for it in unchecked()] == ["hearsay"]


def test_a_published_figure_never_rests_on_memory(technologist):
    methods.in_force(by=technologist, figures=[figure(value="9", **WIDE)])

    assert "9" not in [it.value for it in unchecked()]


def test_figures_of_many_editions_are_asked_for_at_once(
    manager, django_assert_num_queries
):
    editions = [methods.edition(), methods.edition("ASTM D2265", "20")]
    checked(manager)
    told = [
        {"edition": str(edition), "edition_id": edition.pk, **it}
        for edition in editions
        for it in queries.figures_in_force(edition).figures
    ]

    with django_assert_num_queries(1):
        found = queries.from_memory_unchecked_all(told)

    assert {it.characteristic for it in found} == {"dropping-point-block"}


def test_nothing_asked_asks_nothing(db, django_assert_num_queries):
    with django_assert_num_queries(0):
        assert queries.from_memory_unchecked_all([]) == []


def test_the_same_check_is_not_recorded_twice(manager):
    checked(manager)

    with pytest.raises(WrongMove, match="stands in the record already"):
        checked(manager)

    assert checked(manager, checked_by="somebody else").pk


def test_a_check_names_its_figures(manager):
    with pytest.raises(BadInput, match="Choose the figures") as refused:
        checked(manager, figures=[])

    assert refused.value.field == "figures"


def test_figures_that_are_not_in_force_are_not_checked(manager):
    with pytest.raises(ChangedSince, match="decide again"):
        checked(manager, figures=[figure(value="99")])


def test_figures_superseded_before_the_entry_are_not_checked(
    manager, technologist, monkeypatch
):
    methods.with_reference()
    others = [figure(value="9", **WIDE)]
    draft = methods.draft(by=technologist, figures=others)
    meanwhile(
        monkeypatch,
        checking,
        lambda: methods.approved(draft, by=technologist),
    )

    with pytest.raises(ChangedSince, match="decide again"):
        checked(manager)

    assert not FigureCheck.objects.exists()


def test_the_same_check_recorded_before_the_entry_is_not_recorded_again(
    manager, monkeypatch
):
    meanwhile(monkeypatch, checking, lambda: checked(manager))

    with pytest.raises(WrongMove, match="stands in the record already"):
        checked(manager)

    assert FigureCheck.objects.count() == 1


def test_an_edition_without_figures_has_nothing_to_check(manager):
    bare = actions.add_edition(
        method=methods.edition().method,
        edition="99",
        characteristics=["worked-penetration"],
        source="x",
        standing="published",
        by=manager,
    )

    with pytest.raises(WrongMove, match="No figure of ASTM D217-99 is in force"):
        checked(manager, edition=bare)


def test_a_check_has_a_name(manager):
    with pytest.raises(BadInput, match="Say who compared") as refused:
        checked(manager, checked_by=" ")

    assert refused.value.field == "checked_by"


def test_a_name_is_not_longer_than_its_place(manager):
    with pytest.raises(BadInput, match="shorten it to 80"):
        checked(manager, checked_by="x" * 81)


def test_a_check_is_not_to_come(manager):
    with pytest.raises(BadInput, match="is still to come") as refused:
        checked(manager, on=today() + dt.timedelta(days=1))

    assert refused.value.field == "on"


def test_a_check_on_an_absurd_day_is_refused(manager):
    with pytest.raises(BadInput, match="between 1990 and 2100"):
        checked(manager, on=dt.date(1, 1, 1))


def test_a_technician_checks_no_figures(technician):
    with pytest.raises(NotAllowed):
        checked(technician)


def test_a_check_is_never_changed(manager):
    row = checked(manager)
    row.checked_by = "somebody else"

    with (
        pytest.raises(GateError, match="is never changed"),
        entry(by=None, verb="figures_checked", about=row.edition),
    ):
        row.save()
