"""Figures from memory that decided something are told beside the line, until a named person has compared exactly these with the laboratory's own copy."""

from dataclasses import replace

import pytest

from lims.decisions.memory import from_memory
from lims.decisions.verdicts import held_of
from lims.methods import actions, queries
from lims.methods.figures import Figure
from lims.people.days import today
from lims.people.queries import person
from tests.factories import plant
from tests.lims.decisions.agreed import (
    GUARDED,
    PENETRATION,
    RECIPIENT,
    R,
    agree,
    decided_by,
    ground,
    lot_with,
)


@pytest.fixture
def opened(db):
    plant.open_plant()
    plant.play(plant.periodic_pass())


def checked(*figures):
    """Somebody compares figures in force with the laboratory's own copy."""
    edition = queries.edition("ASTM D217", "21a")
    return actions.check_figures(
        edition=edition,
        checked_by="Thea Vroom",
        on=today(),
        figures=figures,
        by=person("mgr-1"),
    )


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
