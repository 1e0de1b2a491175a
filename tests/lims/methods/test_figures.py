"""Figures of an edition: entering and correcting them, and saying who checked them."""

import datetime as dt

import pytest

from lims.methods import actions, queries
from lims.people.days import today
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories.methods import characteristic, edition


def set_figures(by, **change):
    given = {
        "edition": edition("ASTM D942", "19"),
        "characteristic": characteristic("oxidation-drop"),
        "repeatability": "41.4",
        "reproducibility": "",
        "source": "the laboratory's own copy",
        "standing": "published",
    }
    return actions.set_precision(**(given | change), by=by)


def test_a_missing_figure_is_entered_and_the_other_stays_missing(manager):
    row = set_figures(manager)

    assert (row.repeatability, row.reproducibility) == ("41.4", "")
    assert Entry.objects.first().verb == "precision_set"


def test_the_same_range_is_corrected_not_doubled(manager):
    set_figures(manager)

    set_figures(manager, repeatability="40", reason="misread")

    row = edition("ASTM D942", "19").precisions.get()
    assert row.repeatability == "40"
    assert Entry.objects.first().reason == "misread"


def test_a_figure_may_grow_with_the_root_of_the_level(manager):
    row = set_figures(manager, repeatability="1.151 √m")

    assert row.repeatability == "1.151 √m"


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("repeatability", {"repeatability": ""}, "Neither figure is given"),
        ("repeatability", {"repeatability": "some"}, "is no number"),
        ("reproducibility", {"reproducibility": "0"}, "0 is no precision"),
        ("level_from", {"level_from": "low"}, "is no number"),
        ("level_to", {"level_from": "9", "level_to": "8"}, "below its beginning at 9"),
        ("source", {"source": ""}, "The source is missing"),
        ("standing", {"standing": "sure"}, "is no standing"),
    ],
)
def test_figures_that_cannot_stand_are_refused(manager, field, change, sentence):
    with pytest.raises(BadInput, match=sentence) as refused:
        set_figures(manager, **change)

    assert refused.value.field == field
    assert not edition("ASTM D942", "19").precisions.exists()


def test_figures_belong_to_a_characteristic_that_the_edition_measures(manager):
    with pytest.raises(BadInput, match="does not measure “Worked penetration"):
        set_figures(manager, characteristic=characteristic("worked-penetration"))


def test_a_check_is_told_on_the_edition_and_on_each_figure(manager):
    checked = actions.check_figures(
        edition=edition(), checked_by=" QM-1, own copy ", on=today(), by=manager
    )

    assert (checked.checked_by, checked.checked_on) == ("QM-1, own copy", today())
    assert {row.checked_by for row in edition().precisions.all()} == {"QM-1, own copy"}
    assert Entry.objects.first().verb == "figures_checked"


def test_the_same_check_is_not_recorded_twice(manager):
    given = {"checked_by": "QM-1", "on": today(), "by": manager}
    actions.check_figures(edition=edition(), **given)

    with pytest.raises(WrongMove, match="stands in the record already"):
        actions.check_figures(edition=edition(), **given)


def test_a_check_has_a_name(manager):
    with pytest.raises(BadInput, match="Say who compared") as refused:
        actions.check_figures(edition=edition(), checked_by=" ", on=today(), by=manager)

    assert refused.value.field == "checked_by"


def test_a_check_is_not_to_come(manager):
    tomorrow = today() + dt.timedelta(days=1)

    with pytest.raises(BadInput, match="is still to come") as refused:
        actions.check_figures(
            edition=edition(), checked_by="QM-1", on=tomorrow, by=manager
        )

    assert refused.value.field == "on"


def test_a_correction_asks_for_a_new_check(manager):
    given = {"checked_by": "QM-1", "on": today(), "by": manager}
    actions.check_figures(edition=edition("ASTM D942", "19"), **given)

    set_figures(manager)

    found = queries.edition("ASTM D942", "19")
    assert (found.checked_by, found.checked_on) == ("", None)


def test_a_technician_neither_sets_nor_checks_figures(technician):
    with pytest.raises(NotAllowed):
        set_figures(technician)
    with pytest.raises(NotAllowed):
        actions.check_figures(
            edition=edition(), checked_by="me", on=today(), by=technician
        )
