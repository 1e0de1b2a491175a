"""Beside a verdict: the probability by the laboratory's own uncertainty, and the figures from memory that decided, until a named person has checked them."""

import json
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from lims.decisions.grounds import NOTHING, grounds_of, probability_shown
from lims.decisions.review import review_of
from lims.decisions.verdicts import held_of
from lims.methods import actions, queries
from lims.people.queries import person
from lims.record import clock
from lims.record.refusals import ChangedSince
from tests.factories import plant
from tests.factories.people import PASSWORD
from tests.lims.decisions.agreed import (
    GUARDED,
    RECIPIENT,
    R,
    agree,
    decided_by,
    ground,
    lines_of,
    lot_with,
)

PENETRATION, DROPPING = "worked-penetration", "dropping-point-block"


@pytest.fixture
def opened(db):
    plant.open_plant()
    plant.play(plant.periodic_pass())


def state(uncertainty, code=PENETRATION, **levels):
    """The plant has stated 2.16 for its worked penetration; this is stated after it."""
    return actions.state_own_uncertainty(
        characteristic=queries.characteristic(code),
        uncertainty=uncertainty,
        basis="38 pairs of the reference grease",
        password=PASSWORD,
        by=person("qm-1"),
        **levels,
    )


# ---- The probability


@pytest.mark.parametrize(
    ("readings", "probability"),
    [
        ("279 281 280", ">0.9999"),
        ("286 288 287", "0.918"),
        ("288 290 289", "0.678"),
        ("290 292 291", "0.322"),
    ],
)
def test_the_probability_is_that_of_the_customers_limits(opened, readings, probability):
    agree(rule="simple acceptance", lower="270", upper="290")
    lot = lot_with(readings)

    chance = ground(lot, held=1).chance

    assert chance.probability == probability
    assert str(chance) == (
        f"probability {probability} that the true value is inside the limits, by this "
        "laboratory's own uncertainty (u 2.16)"
    )


def test_without_a_stated_uncertainty_there_is_no_probability(opened):
    assert ground(lot_with("279 281 280"), DROPPING).chance is None


def test_an_uncertainty_of_another_level_says_nothing(opened):
    state("1.5", DROPPING, level_from="250", level_to="300")

    assert ground(lot_with("279 281 280"), DROPPING).chance is None


def test_the_newest_statement_that_reaches_the_value_stands(opened):
    state("3.00", level_from="400", level_to="475")
    state("2.40")

    assert ground(lot_with("279 281 280")).chance.uncertainty == "2.40"


def test_a_mark_a_word_and_a_line_without_a_limit_have_no_probability(opened):
    state("1", "unworked-penetration")
    lot = lot_with("279 281 280")
    lines = {it.requirement.characteristic.code: it for it in held_of(lot)[0].lines}

    grounds = grounds_of(lines.values())

    for code in ("copper-strip", "unworked-penetration", "appearance"):
        assert grounds[lines[code].requirement.pk].chance is None


@pytest.mark.parametrize(
    ("probability", "shown"),
    [
        ("1", ">0.9999"),
        ("0.99995", ">0.9999"),
        ("0.9999", "0.9999"),
        ("0.99949", "0.999"),
        ("0.9996", "0.9996"),
        ("0.5", "0.500"),
        ("0.0004", "0.0004"),
        ("0.0001", "0.0001"),
        ("0.00009", "<0.0001"),
        ("0", "<0.0001"),
    ],
)
def test_no_probability_reads_as_certainty(probability, shown):
    assert probability_shown(Decimal(probability)) == shown


def test_what_was_signed_keeps_the_uncertainty_that_was_stated_then(opened):
    lot = lot_with("279 281 280")
    plant.release(lot)
    clock.set_to(plant.at("2026-03-10 09:00"))
    state("4.00")

    review = review_of(plant.lot())

    told = [it.chance for it in review.grounds.values() if it.chance]
    assert {it.uncertainty for it in told} == {"2.16"}


# ---- What was seen is what is signed


def test_what_stands_beside_a_verdict_is_part_of_what_is_signed(opened):
    agree(**GUARDED)
    lot = lot_with("279 281 280")
    decided_by(lot, R)
    before = review_of(lot)
    state("2.40")

    after = review_of(lot)

    lines = [
        it for each in json.loads(after.content)["held against"] for it in each["lines"]
    ]
    worked = [it for it in lines if it["characteristic"].startswith("Worked")]
    assert before.seen != after.seen
    assert "268.55 to 291.45" in worked[1]["rule"]
    assert worked[0]["probability"].endswith("own uncertainty (u 2.40)")
    assert "repeatability 7" in worked[0]["from memory"][0]
    assert worked[0]["sets"] == 1


def test_a_review_from_before_a_statement_cannot_be_signed(opened):
    lot = lot_with("279 281 280")
    seen = review_of(lot).seen
    state("2.40")

    with pytest.raises(ChangedSince, match="Read the page again"):
        plant.decisions.release(
            fill_lot=lot, seen=seen, password=PASSWORD, by=person("mgr-1")
        )


def test_the_grounds_take_four_queries_however_many_lines(opened):
    agree(**RECIPIENT)
    lot = lot_with("279 281 280")
    lines = lines_of(lot)

    with CaptureQueriesContext(connection) as asked:
        grounds_of(lines)

    assert len(asked) == 4
    assert grounds_of([]) == {}
    assert NOTHING.chance is None
