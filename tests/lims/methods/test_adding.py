"""Adding characteristics, methods and editions, and what is refused."""

import functools

import pytest

from lims.methods import actions, queries
from lims.methods.actions import adding
from lims.methods.models import Characteristic, Method, MethodEdition
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed
from tests.factories import methods
from tests.factories.meanwhile import meanwhile
from tests.factories.methods import with_reference

PLAIN = {
    "code": "bleed",
    "name": "Bleed",
    "procedure": "oil separation, cone sieve",
    "unit": "mass %",
}


def test_a_characteristic_is_added_with_its_settings(manager):
    row = actions.add_characteristic(
        **PLAIN, conditions="24 h", parameters={"step": "0.01"}, step="0.01", by=manager
    )

    assert row.in_full == "Bleed, 24 h"
    assert Characteristic.objects.get(code="bleed").parameters == {"step": "0.01"}
    assert Entry.objects.first().verb == "characteristic_added"


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("procedure", {"procedure": "guessing"}, "There is no procedure “guessing”"),
        ("procedure", {"procedure": ""}, "There is no procedure “”"),
        ("code", {"code": ""}, "The code is missing"),
        ("name", {"name": "x" * 81}, "81 characters long: shorten it to 80"),
        ("name", {"name": "a\x00b"}, "cannot be printed"),
        ("kind", {"kind": "colour"}, "“colour” is no kind: choose one of number"),
        ("kind", {"kind": "rating"}, "is of the kind number: choose that kind"),
        ("parameters", {"parameters": {"colour": "red"}}, "no setting “colour”"),
        ("parameters", {"parameters": {"step": "7"}}, "cannot be “7”: choose one of"),
        ("derived_from", {"derived_from": {"a": "b"}}, "is derived from nothing"),
        ("step", {"step": "0"}, "“0” is no step to report to"),
        ("step", {"step": "often"}, "“often” is no step"),
        ("span", {"span": ">60"}, "is only a bound"),
        ("span", {"span": "0"}, "The span is above nought"),
    ],
)
def test_a_characteristic_that_cannot_stand_is_refused(
    manager, field, change, sentence
):
    with pytest.raises(BadInput, match=sentence) as refused:
        actions.add_characteristic(**(PLAIN | change), by=manager)

    assert refused.value.field == field
    assert not Characteristic.objects.exists()


def test_a_code_is_used_once(manager):
    actions.add_characteristic(**PLAIN, by=manager)

    with pytest.raises(BadInput, match="The characteristic bleed stands here already"):
        actions.add_characteristic(**PLAIN, by=manager)


def test_a_code_that_somebody_took_before_the_entry_is_refused(manager, monkeypatch):
    again = functools.partial(actions.add_characteristic, **PLAIN, by=manager)
    meanwhile(monkeypatch, adding, again)

    with pytest.raises(BadInput, match="The characteristic bleed stands here already"):
        again()


def test_a_derived_characteristic_names_what_stands(manager):
    change = {
        "code": "change",
        "name": "Change",
        "procedure": "penetration change",
        "unit": "0.1 mm",
        "derived_from": {"worked": "worked-penetration", "prolonged": "worked-long"},
    }

    with pytest.raises(BadInput, match="no characteristic “worked-penetration”"):
        actions.add_characteristic(**change, by=manager)


def test_a_derived_characteristic_is_added_after_its_sources(manager):
    with_reference()

    row = actions.add_characteristic(
        code="change",
        name="Change",
        procedure="penetration change",
        unit="0.1 mm",
        derived_from={
            "worked": "worked-penetration",
            "prolonged": "prolonged-penetration-10000",
        },
        by=manager,
    )

    assert row.is_derived


def test_a_method_and_its_edition_are_added(manager):
    with_reference()
    method = actions.add_method(designation="IP 50", title="Cone", by=manager)

    edition = actions.add_edition(
        method=method,
        edition="2019",
        characteristics=["worked-penetration"],
        source="the laboratory's own copy",
        standing="published",
        by=manager,
    )

    assert str(edition) == "IP 50:2019"
    worked = queries.characteristic("worked-penetration")
    assert edition in queries.editions_for(worked)


def test_a_method_is_named_once(manager):
    actions.add_method(designation="IP 50", title="Cone", by=manager)

    with pytest.raises(BadInput, match="The method IP 50 stands here already"):
        actions.add_method(designation="IP 50", title="Cone", by=manager)


def test_a_method_that_somebody_added_before_the_entry_is_refused(manager, monkeypatch):
    again = functools.partial(
        actions.add_method, designation="IP 50", title="Cone", by=manager
    )
    meanwhile(monkeypatch, adding, again)

    with pytest.raises(BadInput, match="The method IP 50 stands here already"):
        again()


def test_an_edition_that_somebody_added_before_the_entry_is_refused(
    manager, monkeypatch
):
    again = functools.partial(methods.bare_edition_of, _d217(), by=manager)
    meanwhile(monkeypatch, adding, again)

    with pytest.raises(BadInput, match="ASTM D217-1 stands here already"):
        again()


def _d217():
    with_reference()
    return Method.objects.get(designation="ASTM D217")


def test_a_method_has_a_title(manager):
    with pytest.raises(BadInput, match="The title is missing") as refused:
        actions.add_method(designation="IP 50", title=" ", by=manager)

    assert refused.value.field == "title"


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("edition", {"edition": "21a"}, "ASTM D217-21a stands here already"),
        ("edition", {"edition": ""}, "The edition is missing"),
        ("source", {"source": ""}, "The source is missing"),
        ("standing", {"standing": "sure"}, "“sure” is no standing"),
        ("characteristics", {"characteristics": ["x"]}, "no characteristic “x”"),
    ],
)
def test_an_edition_that_cannot_stand_is_refused(manager, field, change, sentence):
    with_reference()
    given = {
        "method": Method.objects.get(designation="ASTM D217"),
        "edition": "25",
        "characteristics": ["worked-penetration"],
        "source": "own copy",
        "standing": "published",
    }
    before = MethodEdition.objects.count()

    with pytest.raises(BadInput, match=sentence) as refused:
        actions.add_edition(**(given | change), by=manager)

    assert refused.value.field == field
    assert MethodEdition.objects.count() == before


def test_a_technician_adds_none_of_them(technician):
    with_reference()
    method = Method.objects.first()

    with pytest.raises(NotAllowed):
        actions.add_characteristic(**PLAIN, by=technician)
    with pytest.raises(NotAllowed):
        actions.add_method(designation="IP 50", title="Cone", by=technician)
    with pytest.raises(NotAllowed):
        actions.add_edition(
            method=method,
            edition="99",
            characteristics=[],
            source="x",
            standing="published",
            by=technician,
        )


def test_the_methods_come_with_editions_and_figures_in_four_queries(
    db, django_assert_num_queries
):
    with_reference()

    with django_assert_num_queries(4):
        figures = [
            (str(edition), told["characteristic"], told["what"], told["value"])
            for method in queries.methods_with_editions()
            for edition in method.editions.all()
            for revision in edition.figures_revisions.all()
            for told in revision.figures
            if not edition.figure_checks.all()
        ]

    assert ("ASTM D217-21a", "worked-penetration", "repeatability", "7") in figures


@pytest.mark.parametrize(
    ("procedure", "kind"),
    [
        ("load of a ladder", "ladder"),
        ("copper strip", "rating"),
        ("appearance", "words"),
        ("majority of three bearings", "pass or fail"),
        ("pass or fail as found", "pass or fail"),
    ],
)
def test_a_characteristic_is_of_the_kind_that_its_procedure_finds(
    procedure, kind, manager
):
    told = PLAIN | {"procedure": procedure, "unit": ""}

    with pytest.raises(BadInput, match="choose that kind") as refused:
        actions.add_characteristic(**told, kind="number", by=manager)
    row = actions.add_characteristic(**told, kind=kind, by=manager)

    assert refused.value.field == "kind"
    assert row.kind == kind
