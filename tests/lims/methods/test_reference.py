"""Loading the shipped reference data: it loads whole, twice is no harm, and what stands here stays."""

import copy

import pytest

from lims.methods import actions, queries, reference
from lims.methods.actions import adding
from lims.methods.models import (
    Characteristic,
    FigureCheck,
    FiguresRevision,
    Method,
    MethodEdition,
)
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed
from specs.methods.catalogue import PROCEDURES
from tests.factories import methods
from tests.factories.meanwhile import meanwhile
from tests.factories.methods import figure, with_reference

pytestmark = pytest.mark.django_db

SHIPPED = reference.shipped()


def editions():
    return [it for method in SHIPPED["methods"] for it in method["editions"]]


def test_the_shipped_data_loads_in_one_entry():
    count = actions.load_reference(data=SHIPPED, by=None)

    rows = [
        model.objects.count()
        for model in (Characteristic, Method, MethodEdition, FiguresRevision)
    ]
    assert rows == [
        len(SHIPPED["characteristics"]),
        len(SHIPPED["methods"]),
        len(editions()),
        sum(bool(it["figures"]) for it in editions()),
    ]
    assert count == sum(rows)
    assert Entry.objects.filter(verb="reference_loaded").count() == 1


def test_figures_are_in_force_as_shipped_and_nobody_signed_or_checked_them():
    with_reference()

    for row in FiguresRevision.objects.all():
        assert (row.number, row.state, row.is_shipped) == (1, "in force", True)
        assert (row.signature, row.approved_by, row.approved_at) == (None, None, None)
    assert not FigureCheck.objects.exists()


def test_loading_again_adds_nothing_and_tells_nothing():
    with_reference()
    entries = Entry.objects.count()

    assert actions.load_reference(data=SHIPPED, by=None) == 0
    assert Entry.objects.count() == entries


def test_the_factory_puts_down_what_the_command_loads():
    with_reference()
    put_down = _told()
    with_reference()

    assert _told() == put_down
    assert len(put_down) == len(editions())


def _told():
    return {
        (str(it.edition), it.number): it.figures for it in FiguresRevision.objects.all()
    }


def test_what_was_loaded_before_the_entry_is_not_loaded_again(monkeypatch):
    less = _without_figures("ASTM D566")
    meanwhile(monkeypatch, adding, lambda: actions.load_reference(data=less, by=None))

    assert actions.load_reference(data=SHIPPED, by=None) == 1
    assert FiguresRevision.objects.count() == sum(
        bool(it["figures"]) for it in editions()
    )


def test_a_technician_does_not_load_reference_data(technician):
    with pytest.raises(NotAllowed, match="Keeping methods is for"):
        actions.load_reference(data=SHIPPED, by=technician)


def test_a_manager_loads_it(manager):
    assert actions.load_reference(data=SHIPPED, by=manager) > 0


def test_what_stands_here_is_not_overwritten():
    with_reference()
    changed = copy.deepcopy(SHIPPED)
    changed["characteristics"][0]["name"] = "Look"
    changed["methods"][0]["editions"][0]["figures"][0]["value"] = "99"

    assert actions.load_reference(data=changed, by=None) == 0
    assert not Characteristic.objects.filter(name="Look").exists()


def test_an_edition_with_a_draft_of_its_own_gets_no_further_figures(technologist):
    data = _without_figures("ASTM D566")
    actions.load_reference(data=data, by=None)
    edition = queries.edition("ASTM D566", "20")
    draft = methods.draft(
        edition,
        by=technologist,
        figures=[figure(characteristic="dropping-point-bath")],
    )

    assert actions.load_reference(data=SHIPPED, by=None) == 0
    assert list(edition.figures_revisions.all()) == [draft]


def test_an_edition_without_a_revision_gets_the_figures_that_were_missing():
    actions.load_reference(data=_without_figures("ASTM D566"), by=None)

    assert actions.load_reference(data=SHIPPED, by=None) == 1
    edition = queries.edition("ASTM D566", "20")
    assert queries.figures_in_force(edition).number == 1


def _without_figures(designation):
    data = copy.deepcopy(SHIPPED)
    [method] = [row for row in data["methods"] if row["designation"] == designation]
    for edition in method["editions"]:
        edition["figures"] = []
    return data


def test_a_procedure_that_the_program_does_not_know_is_refused():
    data = copy.deepcopy(SHIPPED)
    data["characteristics"][0]["procedure"] = "guessing"

    with pytest.raises(BadInput, match="There is no procedure “guessing”"):
        actions.load_reference(data=data, by=None)


def test_levels_that_a_figure_leaves_out_are_empty():
    [told] = reference.figures_of({"figures": [{"what": "direction"}]})

    assert (told["level_from"], told["level_to"]) == ("", "")


def test_two_files_may_tell_of_one_method_and_the_first_is_heard():
    first = {"edition": "1", "title": "heard"}
    later = {"edition": "1", "title": "not heard"}
    other = {"edition": "2", "title": "another"}

    [row] = reference.joined(
        [
            {"designation": "X", "editions": [first]},
            {"designation": "X", "editions": [later, other]},
        ]
    )

    assert row["editions"] == [first, other]


@pytest.mark.parametrize(
    "row", SHIPPED["characteristics"], ids=lambda row: str(row["code"])
)
def test_each_characteristic_fits_its_procedure(row):
    procedure = PROCEDURES[row["procedure"]]

    assert procedure.unit in {"", row["unit"]}
    assert set(row.get("parameters", {})) <= {each.key for each in procedure.parameters}
    assert set(row.get("derived_from", {})) == set(procedure.derived_from)


def test_each_name_that_the_data_uses_is_there():
    codes = {row["code"] for row in SHIPPED["characteristics"]}
    used = {
        code
        for row in SHIPPED["characteristics"]
        for code in row.get("derived_from", {}).values()
    }
    for edition in editions():
        used |= set(edition["characteristics"])
        used |= {it["characteristic"] for it in edition["figures"]}

    assert used <= codes
