"""Journey 10, customers' limits tighter than the grade: five lots held against three specifications, and what the laboratory's own uncertainty says of them."""

from decimal import Decimal

import pytest

from lims.decisions.verdicts import held_of_all
from lims.methods import actions as methods
from lims.methods.queries import editions_for, own_uncertainty
from lims.people.queries import person
from lims.products import actions, queries
from lims.products.lines import Line
from lims.products.models import Customer
from lims.record.refusals import BadInput
from specs.judging.rules import zone_of
from specs.judging.zones import probability_of_conformity
from tests.factories import plant
from tests.factories.methods import characteristic, edition
from tests.factories.people import PASSWORD

WORKED, CHANGE, DROPPING = (
    "worked-penetration",
    "penetration-change-100000",
    "dropping-point-block",
)
SIMPLE = {"comparing": "rounding", "rule": "simple acceptance"}
# batch: worked, prolonged, observed dropping points with the block at 232
LOTS = {
    "0417": ("279 281 280", "301 303 302", "187/232 187/232"),
    "0418": ("287 289 288", "306 308 307", "182/232 183/232"),
    "0419": ("291 293 292", "308 310 309", "191/232 192/232"),
    "0420": ("270 272 271", "297 299 298", "178/232 178/232"),
    "0421": ("280 282 281", "296 298 297", "190/232 190/232"),
}
RESULTS = {
    "0417": ("280", "22", "202"),
    "0418": ("288", "19", "199"),
    "0419": ("292", "17", "205"),
    "0420": ("271", "27", "196"),
    "0421": ("281", "16", "204"),
}
# batch: the lines that are not met, by whom
NOT_MET = {
    "0417": {"TT": (), "OL": (CHANGE,), "BM": ()},
    "0418": {"TT": (), "OL": (DROPPING,), "BM": ()},
    "0419": {"TT": (), "OL": (WORKED,), "BM": (WORKED,)},
    "0420": {"TT": (), "OL": (CHANGE, DROPPING), "BM": ()},
    "0421": {"TT": (), "OL": (), "BM": ()},
}


def worked_by(lower, upper, **rule):
    return Line(
        characteristic=characteristic(WORKED),
        edition=edition(),
        lower=lower,
        upper=upper,
        **SIMPLE | rule,
    )


def guarded(uncertainty, basis="own uncertainty"):
    return {
        "rule": "guarded acceptance",
        "basis": basis,
        "uncertainty": uncertainty,
        "confidence": "0.95",
    }


@pytest.fixture
def plant_open(db):
    plant.open_plant()
    assert own_uncertainty(characteristic(WORKED)).uncertainty == "2.16"


@pytest.fixture
def agreed(plant_open):
    """OL revision C as the demo has it; BM revision 2 with a guard band; TT with the grade itself."""
    stated = own_uncertainty(characteristic(WORKED)).uncertainty
    put_in_force("BM", "2", [worked_by("265", "295", **guarded(stated))])
    put_in_force("TT", "1", [worked_by("265", "295")])
    assert queries.in_force(queries.product("LX2"), customer("OL")).number == "C"


def customer(code):
    return Customer.objects.get(code=code)


def put_in_force(code, number, lines):
    draft = draft_for(code, number)
    for line in lines:
        actions.set_requirement(revision=draft, line=line, by=person("chem-1"))
    actions.approve_revision(revision=draft, password=PASSWORD, by=person("qm-1"))


def draft_for(code, number):
    return actions.open_draft(
        product=queries.product("LX2"),
        customer=customer(code),
        number=number,
        by=person("chem-1"),
    )


@pytest.fixture
def lots(agreed):
    """The five lots, tested; the oil separation and the copper strip met alike."""
    stories = [
        plant.story(
            number,
            retain=f"R-12-{number}",
            tests=plant.READY
            | {
                "worked": worked,
                "prolonged": f"W-2: {prolonged}",
                "dropping": dropping,
            },
        )
        for number, (worked, prolonged, dropping) in LOTS.items()
    ]
    plant.play(plant.periodic_pass(), *stories)
    return [plant.lot(number) for number in LOTS]


def test_j10_the_table_of_five_lots_and_three_customers(lots):
    held = held_of_all(lots)

    for number, lot in zip(LOTS, lots, strict=True):
        own, *theirs = held[lot.pk]
        assert results(own) == RESULTS[number]
        assert own.verdict == "met"
        assert {who(each): not_met(each) for each in theirs} == NOT_MET[number]
        assert {line.verdict for each in theirs for line in each.lines} <= {
            "met",
            "not met",
        }


def results(held):
    by_code = {line.requirement.characteristic.code: line for line in held.lines}
    return tuple(by_code[code].result.reported for code in (WORKED, CHANGE, DROPPING))


def who(held):
    return held.revision.specification.customer.code


def not_met(held):
    return tuple(
        line.requirement.characteristic.code
        for line in held.lines
        if line.verdict == "not met"
    )


def test_j10_a_guard_band_refuses_inside_the_limits_and_says_so(lots):
    held = {
        who(it): it for it in held_of_all(lots)[plant.lot("0419").pk] if not it.is_own
    }

    line = next(it for it in held["BM"].lines if it.verdict == "not met")

    assert line.requirement.limits == "265 to 295"
    assert "inside the limits, outside the acceptance zone 268.55 to 291.45" in line.why


def test_j10_a_blocked_lot_shows_the_one_line_that_blocks(lots):
    held = held_of_all([plant.lot("0418")])[plant.lot("0418").pk]
    theirs = next(it for it in held if not it.is_own and who(it) == "OL")

    assert [it.requirement.characteristic.code for it in theirs.blocking] == [DROPPING]
    assert theirs.verdict == "not met"


def test_j10_what_was_not_tested_is_never_met(agreed):
    """A customer asks for a thing that nobody measured on the lot."""
    put_in_force("FA", "1", [line_for_the_bath()])
    plant.play(plant.periodic_pass(), plant.story("0419", retain="R-12-9"))

    held = held_of_all([plant.lot("0419")])[plant.lot("0419").pk]
    asked = next(it for it in held if not it.is_own and who(it) == "FA").lines[0]

    assert asked.verdict == "not tested"
    assert asked.requirement.characteristic.code == "dropping-point-bath"


def line_for_the_bath():
    bath = characteristic("dropping-point-bath")
    return Line(
        characteristic=bath,
        edition=editions_for(bath)[0],
        lower="190",
        **SIMPLE,
    )


@pytest.mark.parametrize(
    ("worked", "probability"),
    [("280", "0.9999"), ("287", "0.918"), ("289", "0.678"), ("291", "0.322")],
)
def test_j10_how_likely_the_true_value_is_inside_osprey_lunes_band(
    worked, probability, plant_open
):
    stated = own_uncertainty(characteristic(WORKED)).uncertainty

    found = probability_of_conformity(worked, stated, "270", "290")

    if worked == "280":
        assert found > Decimal(probability)
    else:
        assert round(found, 3) == Decimal(probability)


def test_j10_published_r_leaves_a_narrow_zone_of_the_grade(plant_open):
    put_in_force(
        "BM", "2", [worked_by("265", "295", **guarded("20", "reproducibility"))]
    )
    row = queries.in_force(queries.product("LX2"), customer("BM")).requirements.get()

    zone = zone_of(
        row.rule,
        row.lower,
        row.upper,
        uncertainty=row.uncertainty,
        basis=row.basis,
        confidence=row.confidence,
    )

    assert zone.told(1) == "276.9 to 283.1"


def test_j10_published_r_leaves_nothing_of_osprey_lunes_band(plant_open):
    draft = draft_for("BM", "2")
    line = worked_by("270", "290", **guarded("20", "reproducibility"))

    with pytest.raises(
        BadInput, match="270 to 290 leaves nothing to accept"
    ) as refused:
        actions.set_requirement(revision=draft, line=line, by=person("chem-1"))

    assert refused.value.field == "rule"
    assert not draft.requirements.exists()


def test_j10_a_newer_statement_leaves_the_line_as_it_was_agreed(agreed):
    methods.state_own_uncertainty(
        characteristic=characteristic(WORKED),
        uncertainty="3",
        basis="a year of the reference grease",
        password=PASSWORD,
        by=person("qm-1"),
    )

    row = queries.in_force(queries.product("LX2"), customer("BM")).requirements.get()

    assert own_uncertainty(characteristic(WORKED)).uncertainty == "3"
    assert row.uncertainty == "2.16"
