"""Beside a verdict: the probability by the laboratory's own uncertainty, and the figures from memory that decided, until a named person has checked them."""

import json
from dataclasses import replace
from decimal import Decimal
from itertools import chain

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from lims.bench.models import ReportedValue
from lims.decisions.grounds import NOTHING, grounds_of, probability_shown
from lims.decisions.memory import from_memory
from lims.decisions.review import review_of
from lims.decisions.verdicts import held_of
from lims.methods import actions, queries
from lims.methods.figures import Figure
from lims.people.days import today
from lims.people.queries import person
from lims.record import clock
from lims.record.gate import entry
from lims.record.refusals import ChangedSince
from tests.factories import plant
from tests.factories.people import PASSWORD
from tests.lims.decisions.agreed import GUARDED, RECIPIENT, agree, lot_with

PENETRATION, DROPPING = "worked-penetration", "dropping-point-block"
R = Figure(
    characteristic=PENETRATION,
    what="repeatability",
    value="7",
    source="ASTM D217, precision",
    standing="from memory",
)


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


def lines_of(lot):
    return list(chain.from_iterable(held.lines for held in held_of(lot)))


def ground(lot, code=PENETRATION, held=0):
    line = next(
        line
        for line in held_of(lot)[held].lines
        if line.requirement.characteristic.code == code
        and line.requirement.kind == "limit"
    )
    return grounds_of(lines_of(lot))[line.requirement.pk]


def decided_by(lot, *figures, code=PENETRATION):
    """The reported value of a test made anew, with the figures of D217-21a that decided it."""
    edition = queries.edition("ASTM D217", "21a")
    whose = {"edition": str(edition), "edition_id": edition.pk}
    row = ReportedValue.objects.filter(
        test__sample__fill_lot=lot, test__characteristic__code=code
    ).latest("pk")
    row.replaces_id, row.pk = row.pk, None
    row.figures = [{**whose, **it.told} for it in figures]
    with entry(by=person("tech-a"), verb="reading_recorded", about=row.test):
        row.save(force_insert=True)
    return row


def checked(*figures):
    """The same figures put in force, and compared with the laboratory's own copy."""
    edition = queries.edition("ASTM D217", "21a")
    return actions.check_figures(
        edition=edition,
        checked_by="Thea Vroom",
        on=today(),
        figures=figures,
        by=person("mgr-1"),
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


# ---- Figures from memory


def test_a_figure_from_memory_that_decided_is_told_until_it_is_checked(opened):
    lot = lot_with("279 281 280")
    decided_by(lot, R)

    [told] = ground(lot).from_memory

    assert told == (
        "used in the reported value: repeatability 7 (ASTM D217-21a); no named person "
        "has compared it with the laboratory's own copy yet."
    )


def test_figures_of_one_edition_are_told_together(opened):
    lot = lot_with("279 281 280")
    school = Figure(PENETRATION, "repeat rule", "ISO 4259", "", "from memory")
    decided_by(lot, R, school, R)

    [told] = ground(lot).from_memory

    assert "repeatability 7, repeat rule ISO 4259 (ASTM D217-21a)" in told
    assert "has compared them with" in told


def test_a_published_figure_is_not_told(opened):
    lot = lot_with("279 281 280")
    published = Figure(PENETRATION, "repeatability", "7", "ASTM D217", "published")
    decided_by(lot, published)

    assert ground(lot).from_memory == ()


def test_a_checked_figure_is_no_longer_told_but_another_value_is(opened):
    standing = queries.asked_by(
        queries.edition("ASTM D217", "21a"), queries.characteristic(PENETRATION)
    ).figures
    recalled = next(it for it in standing if it.standing == "from memory")
    lot = lot_with("279 281 280")
    decided_by(lot, recalled, R)
    assert recalled.value in ground(lot).from_memory[0]

    checked(recalled)

    [told] = ground(lot).from_memory
    assert told.startswith("used in the reported value: repeatability 7 (")


def test_a_computed_value_tells_the_figures_of_the_values_it_comes_from(opened):
    lot = lot_with("279 281 280")
    source = decided_by(lot, R)
    line = next(
        it
        for it in held_of(lot)[0].lines
        if it.requirement.characteristic.code == "penetration-change-100000"
    )
    rests = replace(line, result=replace(line.result, sources=(source.pk,)))

    [told] = from_memory([rests])[line.requirement.pk]

    assert told.startswith(
        "used in a value that this one is computed from: repeatability 7 ("
    )


def test_an_r_that_no_figure_states_stands_as_from_memory(opened):
    agree(**RECIPIENT | {"uncertainty": "19"})
    lot = lot_with("279 281 280")

    told = " ".join(ground(lot, held=1).from_memory)

    assert "used by the decision rule: reproducibility" in told


def test_the_laboratorys_own_uncertainty_is_no_figure_from_memory(opened):
    agree(**GUARDED)
    lot = lot_with("279 281 280")

    assert "decision rule" not in " ".join(ground(lot, held=1).from_memory)


@pytest.mark.parametrize(
    ("standing", "checked_by", "is_told"),
    [
        ("from memory", "", True),
        ("from memory", "A. Person", False),
        ("published", "", False),
    ],
)
def test_limits_quoted_from_memory_are_told_until_somebody_checked_them(
    opened, standing, checked_by, is_told
):
    lot = lot_with("279 281 280")
    line = held_of(lot)[0].lines[0]
    requirement = line.requirement
    requirement.origin = "ASTM D4950-22, table 2"
    requirement.origin_standing = standing
    requirement.origin_checked_by = checked_by

    told = " ".join(from_memory([line])[requirement.pk])

    assert ("the limits: ASTM D4950-22, table 2; no named person" in told) is is_told


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
