"""The laboratory's own uncertainty: signed, never changed, the newest that reaches a level stands."""

from decimal import Decimal

import pytest

from lims.methods import actions, queries
from lims.record import clock, signatures
from lims.record.gate import entry
from lims.record.models import Entry, Signature
from lims.record.refusals import BadInput, GateError, NotAllowed
from tests.factories.methods import characteristic
from tests.factories.people import PASSWORD


def stated(by, **change):
    given = {
        "characteristic": characteristic(),
        "uncertainty": "2.5",
        "basis": "40 results on the reference grease, March to May",
        "password": PASSWORD,
    }
    return actions.state_own_uncertainty(**given | change, by=by)


def test_it_is_stated_with_a_signature(technologist):
    row = stated(technologist, site_precision="6,9", level_from="265", level_to="295")

    signature = Signature.objects.get()
    told = signatures.signed_content(signature)
    assert (row.number, row.uncertainty, row.site_precision) == (1, "2.5", "6.9")
    assert (row.signature, signature.meaning) == (
        signature,
        "stated as the laboratory's own",
    )
    assert (row.stated_by, row.stated_at) == (technologist, clock.now())
    assert told == {
        "characteristic": "worked-penetration",
        "number": 1,
        "uncertainty": "2.5",
        "site_precision": "6.9",
        "level_from": "265",
        "level_to": "295",
        "basis": "40 results on the reference grease, March to May",
    }
    assert Entry.objects.first().verb == "own_uncertainty_stated"


def test_the_newest_stands_and_the_older_stays(technologist):
    stated(technologist)
    stated(technologist, uncertainty="3")

    found = queries.own_uncertainty(characteristic())

    assert (found.number, found.uncertainty) == (2, "3")
    rows = queries.own_uncertainties([characteristic()])[characteristic().pk]
    assert [it.number for it in rows] == [2, 1]


@pytest.mark.parametrize(
    ("level", "expected"),
    [("279", "3"), ("260", "2.5"), ("265", "3"), ("295", "3"), ("296", "2.5")],
)
def test_at_a_level_the_newest_that_reaches_it_stands(level, expected, technologist):
    stated(technologist)
    stated(technologist, uncertainty="3", level_from="265", level_to="295")

    found = queries.own_uncertainty(characteristic(), Decimal(level))

    assert found.uncertainty == expected


def test_where_none_reaches_there_is_none(technologist):
    stated(technologist, level_from="265")

    assert queries.own_uncertainty(characteristic(), Decimal(200)) is None
    assert queries.own_uncertainty(characteristic("oil-separation")) is None


def test_many_characteristics_are_asked_for_at_once(
    technologist, django_assert_num_queries
):
    stated(technologist)
    rows = list(queries.characteristics())

    with django_assert_num_queries(1):
        found = queries.own_uncertainties(rows)

    assert [it.uncertainty for it in found[characteristic().pk]] == ["2.5"]


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("uncertainty", {"uncertainty": " "}, "The uncertainty is missing"),
        ("uncertainty", {"uncertainty": "0"}, "0 is no uncertainty: write a number"),
        ("uncertainty", {"uncertainty": "-1"}, "-1 is no uncertainty"),
        ("uncertainty", {"uncertainty": "small"}, "is no number"),
        ("uncertainty", {"uncertainty": "<2"}, "is only a bound"),
        ("site_precision", {"site_precision": "0.0"}, "0.0 is no uncertainty"),
        ("level_to", {"level_from": "9", "level_to": "8"}, "The range ends at 8"),
        ("level_from", {"level_from": "low"}, "is no number"),
        ("basis", {"basis": " "}, "The basis is missing"),
        ("basis", {"basis": "x" * 301}, "shorten it to 300"),
        ("password", {"password": "wrong"}, "not your password"),
    ],
)
def test_what_cannot_stand_is_refused_beside_its_box(
    field, change, sentence, technologist
):
    with pytest.raises(BadInput, match=sentence) as refused:
        stated(technologist, **change)

    assert refused.value.field == field
    assert queries.own_uncertainty(characteristic()) is None


def test_a_rating_has_no_uncertainty(technologist):
    with pytest.raises(BadInput, match="is of the kind rating"):
        stated(technologist, characteristic=characteristic("copper-strip"))


@pytest.mark.parametrize("role", ["laboratory_manager", "technician"])
def test_who_does_not_approve_figures_states_none(role, person):
    with pytest.raises(NotAllowed, match="Approving figures of methods is for"):
        stated(person(role))


def test_a_statement_is_never_changed(technologist):
    row = stated(technologist)
    row.uncertainty = "1"

    with (
        pytest.raises(GateError, match="is never changed"),
        entry(by=None, verb="own_uncertainty_stated", about=row),
    ):
        row.save()
