"""The shipped reference data: it loads whole, twice is no harm, and what people checked stays."""

import copy

import pytest

from lims.methods import actions, queries, reference
from lims.methods.models import Characteristic, Method, MethodEdition, Precision
from lims.people.days import today
from lims.record.models import Entry
from lims.record.refusals import NotAllowed
from specs.methods.catalogue import PROCEDURES
from specs.numbers import Number
from tests.factories.methods import with_reference

pytestmark = pytest.mark.django_db

SHIPPED = reference.shipped()


def test_the_shipped_data_loads_in_one_entry():
    count = actions.load_reference(data=SHIPPED, by=None)

    rows = [
        model.objects.count()
        for model in (Characteristic, Method, MethodEdition, Precision)
    ]
    assert rows == [12, 9, 9, 12]
    assert count == sum(rows)
    assert Entry.objects.filter(verb="reference_loaded").count() == 1


def test_loading_again_adds_nothing_and_tells_nothing():
    with_reference()
    entries = Entry.objects.count()

    assert actions.load_reference(data=SHIPPED, by=None) == 0
    assert Entry.objects.count() == entries


def test_a_technician_does_not_load_reference_data(technician):
    with pytest.raises(NotAllowed, match="Keeping methods is for"):
        actions.load_reference(data=SHIPPED, by=technician)


def test_a_manager_loads_it(manager):
    assert actions.load_reference(data=SHIPPED, by=manager) > 0


def test_what_stands_here_is_not_overwritten():
    with_reference()
    changed = copy.deepcopy(SHIPPED)
    changed["characteristics"][0]["name"] = "Look"
    changed["methods"][0]["editions"][0]["precisions"][0]["repeatability"] = "99"

    actions.load_reference(data=changed, by=None)

    assert not Characteristic.objects.filter(name="Look").exists()
    assert not Precision.objects.filter(repeatability="99").exists()


def test_an_edition_that_a_person_checked_gets_no_further_figures(manager):
    with_reference()
    edition = queries.edition("ASTM D942", "19")
    actions.check_figures(edition=edition, checked_by="QM-1", on=today(), by=manager)

    actions.load_reference(data=_with_figures_for("ASTM D942"), by=None)

    assert not edition.precisions.exists()


def test_an_edition_that_nobody_checked_gets_figures_that_were_missing():
    with_reference()

    added = actions.load_reference(data=_with_figures_for("ASTM D942"), by=None)

    assert added == 1
    assert queries.edition("ASTM D942", "19").precisions.get().repeatability == "6"


def _with_figures_for(designation):
    data = copy.deepcopy(SHIPPED)
    [method] = [row for row in data["methods"] if row["designation"] == designation]
    method["editions"][0]["precisions"].append(
        {
            "characteristic": "oxidation-drop",
            "level_from": "",
            "level_to": "",
            "repeatability": "6",
            "reproducibility": "",
            "source": "an example",
            "standing": "from memory",
        }
    )
    return data


@pytest.mark.parametrize(
    "row", SHIPPED["characteristics"], ids=lambda row: str(row["code"])
)
def test_each_characteristic_fits_its_procedure(row):
    procedure = PROCEDURES[row["procedure"]]

    assert row["unit"] == procedure.unit
    assert set(row.get("parameters", {})) <= {each.key for each in procedure.parameters}
    assert set(row.get("derived_from", {})) == set(procedure.derived_from)


def test_each_name_that_the_data_uses_is_there():
    codes = {row["code"] for row in SHIPPED["characteristics"]}
    used = {
        code for row in SHIPPED["characteristics"] for code in row.get("derived_from", {}).values()
    }  # fmt: skip
    for method in SHIPPED["methods"]:
        for edition in method["editions"]:
            used |= set(edition["characteristics"])
            used |= {figure["characteristic"] for figure in edition["precisions"]}

    assert used <= codes


def test_every_figure_tells_its_source_and_is_not_checked_by_anybody():
    with_reference()

    assert all(row.source and row.standing for row in Precision.objects.all())
    assert not Precision.objects.exclude(checked_by="").exists()
    assert not MethodEdition.objects.exclude(checked_by="").exists()


def test_only_the_bath_dropping_point_has_published_figures():
    with_reference()

    published = Precision.objects.filter(standing="published")

    assert [str(row.edition) for row in published] == ["ASTM D566-20"]


def test_an_edition_that_states_no_figure_has_none():
    with_reference()
    oxidation = queries.characteristic("oxidation-drop")
    edition = queries.edition("ASTM D942", "19")

    found = queries.precision_at(edition, oxidation, Number.of(38))

    assert found is None


@pytest.mark.parametrize(
    ("level", "repeatability"), [("100", "6"), ("186", "8"), ("250", "6"), ("300", "7")]
)
def test_the_figures_of_the_block_follow_the_observed_temperature(level, repeatability):
    with_reference()
    block = queries.characteristic("dropping-point-block")
    edition = queries.edition("ASTM D2265", "20")

    found = queries.precision_at(edition, block, Number.stored(level))

    assert found.repeatability == repeatability


@pytest.mark.parametrize("level", ["100", "476"])
def test_outside_the_stated_range_there_is_no_figure(level):
    with_reference()
    worked = queries.characteristic("worked-penetration")
    edition = queries.edition("ASTM D217", "21a")

    assert queries.precision_at(edition, worked, Number.stored(level)) is None


def test_without_an_edition_there_is_no_figure():
    with_reference()
    worked = queries.characteristic("worked-penetration")

    assert queries.precision_at(None, worked, Number.of(280)) is None
