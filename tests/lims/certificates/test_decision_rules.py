"""A certificate prints the rule by which each line was decided; packs of a lot that the rule does not accept go to nobody."""

import pytest

from lims.certificates import actions
from lims.certificates.data import CertificateData
from lims.people.queries import person
from lims.products.models import Customer
from lims.record.refusals import WrongMove
from tests.factories import plant
from tests.lims.decisions.agreed import GUARDED, RECIPIENT, agree, lot_with


@pytest.fixture
def opened(db):
    plant.open_plant()
    plant.play(plant.periodic_pass())


def allot(lot, customer="BM"):
    plant.release(lot)
    return actions.allot(
        fill_lot=plant.lot(),
        customer=Customer.objects.get(code=customer),
        order="BM-2166",
        pack_count=4,
        by=person("desk-1"),
    )


def issued_data(allotment):
    issued = actions.issue(allotment=allotment, by=person("desk-1"))
    return CertificateData.from_json(issued.data)


def test_a_line_with_a_guard_band_carries_its_zone_and_figures(opened):
    agree(**GUARDED)

    data = issued_data(allot(lot_with("279 281 280")))

    [row] = data.rows
    assert (row.ruled.rule, row.ruled.basis) == (
        "guarded acceptance",
        "own uncertainty",
    )
    assert (row.ruled.lower, row.ruled.upper) == ("268.55", "291.45")
    assert (row.ruled.factor, row.ruled.uncertainty) == ("1.645", "2.16")
    assert row.ruled.confidence == "0.95"
    assert data.statement.rule == "guarded acceptance"


def test_a_bound_by_the_methods_reproducibility_carries_it(opened):
    agree(**RECIPIENT)

    [row] = issued_data(allot(lot_with("279 281 280"))).rows

    assert (row.ruled.lower, row.ruled.upper) == ("253.13", "306.87")
    assert (row.ruled.factor, row.ruled.basis) == ("0.593", "reproducibility")


def test_a_paper_of_simple_acceptance_alone_says_nothing_of_zones(opened):
    data = issued_data(allot(lot_with("279 281 280"), customer="TT"))

    assert {row.ruled for row in data.rows} == {None}
    assert data.statement.rule == "simple acceptance"
    assert '"ruled"' not in data.to_json()


def test_where_one_line_has_a_zone_the_statement_names_the_rule_of_the_others(opened):
    agree(customer="", number="6", **GUARDED)

    data = issued_data(allot(lot_with("279 281 280"), customer="TT"))

    assert data.statement.rule == "simple acceptance"
    assert [row.line for row in data.rows if row.ruled] == [1]


def test_a_lot_outside_the_zone_is_not_allotted_and_the_sentence_says_why(opened):
    agree(**GUARDED)
    lot = lot_with("291 293 292")

    with pytest.raises(WrongMove) as refused:
        allot(lot)

    assert (
        "Worked penetration 292 (265 to 295 × 0.1 mm; inside the limits, outside the "
        "acceptance zone 268.55 to 291.45)" in str(refused.value)
    )
