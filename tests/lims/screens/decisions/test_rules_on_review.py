"""The review says by which rule a line was decided, how its value was repeated and reported, and what is still from memory."""

import pytest
from django.urls import reverse

from lims.methods import actions as methods
from lims.methods import queries
from lims.people.days import today
from lims.people.queries import person
from lims.screens.decisions.on_limits import ruler_of
from tests.factories import fills, plant
from tests.lims.decisions.agreed import GUARDED, RECIPIENT, agree, lot_with
from tests.lims.screens.decisions.conftest import text_of

WORKED = "worked-penetration"
NO_OTHER = ("283", "280.83")  # what another rule would report, and the value unrounded


@pytest.fixture
def played(opened):
    plant.play(plant.periodic_pass())


@pytest.fixture
def disagreeing(played):
    """Set 1 spreads too wide; A and B differ by more than r, so a third result is asked for."""
    return fills.disagreeing()


@pytest.fixture
def repeated(disagreeing):
    """C settles it: 281, by ISO 4259."""
    fills.fill("281 283 282")
    return plant.lot()


def check_all(designation="ASTM D217", name="21a"):
    """A named person compares every figure in force with the laboratory's own copy."""
    methods.check_figures(
        edition=queries.edition(designation, name),
        checked_by="Thea Vroom",
        on=today(),
        by=person("mgr-1"),
    )


def test_the_approver_sees_how_many_sets_by_which_rule_and_what_was_set_aside(
    repeated, review
):
    text = review(repeated)

    assert "4 sets, 2 set aside" in text
    assert "result 2 differs by 7.5 from the mean of the others" in text
    assert "Set 3 is set aside: cause not yet found, look for it." in text
    assert "void seen at cup wall" in text


def test_while_a_further_result_is_asked_for_the_line_is_not_evaluated(
    disagreeing, review
):
    text = review(disagreeing)

    assert "Worked penetration is not evaluated" in text
    assert "A third result is asked for" in text
    assert "differ by 8.67, more than r 7 (ISO 4259)" in text


def test_no_other_rules_value_stands_beside_the_signature(repeated, review):
    row = review(repeated).split("Worked penetration 60", 1)[1].split("Readings:")[0]

    assert "281" in row
    for other in NO_OTHER:
        assert other not in row


def test_a_figure_from_memory_is_told_until_a_named_person_has_checked_it(
    repeated, review
):
    before = review(repeated)

    check_all()
    after = review(repeated)

    told = "used in the reported value:"
    assert told in before
    assert "repeatability 7" in before
    assert "no named person has compared" in before
    assert "rest on figures that no named person has checked" in before
    assert "repeatability 7" not in after


def test_a_computed_line_tells_the_figures_behind_its_sources(repeated, review):
    assert "used in a value that this one is computed from:" in review(repeated)


def test_the_rule_of_a_customer_is_told_with_its_zone(played, review):
    agree(**GUARDED)

    text = review(lot_with("291 293 292"))

    assert "not met by this rule" not in text.split("Other specifications")[0]
    assert "BM for LX2 revision 2" in text
    assert "Worked penetration: Guarded acceptance accepts 268.55 to 291.45" in text
    assert "inside the limits, outside the acceptance zone 268.55 to 291.45" in text


def test_an_r_from_memory_in_a_customers_rule_is_told_beside_it(played, review):
    agree(**RECIPIENT)

    text = review(lot_with("279 281 280")).split("Other specifications", 1)[1]

    assert "from memory used by the decision rule: reproducibility" in text


def test_a_line_of_the_plants_own_says_its_rule_zone_verdict_and_probability(
    played, signed_in
):
    agree(customer="", number="6", **GUARDED)
    lot = lot_with("291 293 292")

    text = text_of(signed_in("mgr-1").get(reverse("decisions:lot", args=[lot.number])))

    assert "Guarded acceptance accepts 268.55 to 291.45: 3.55 inside each limit" in text
    assert "what a decision rule accepts" in text
    assert "not met by this rule" in text
    assert (
        "Worked penetration is 292, inside the limits, outside the acceptance zone "
        "268.55 to 291.45." in text
    )
    assert "below its upper limit" not in text
    assert (
        "Probability 0.918 that the true value is inside the limits, by this "
        "laboratory's own uncertainty (u 2.16)" in text
    )


def test_where_no_uncertainty_is_stated_nothing_is_said_of_a_probability(lot, review):
    row = review(lot).split("Dropping point", 1)[1].split("Readings:")[0]

    assert "probability" not in row


def test_the_zone_is_drawn_between_the_limits_with_edges_of_its_own(played):
    agree(customer="", number="6", **GUARDED)
    lot = lot_with("279 281 280")
    requirement = lot.held_against.get(is_own=True).revision.requirements.get(
        characteristic__code=WORKED, kind="limit"
    )

    kind, bar = ruler_of(requirement, "292", "not met", (), "tested on this lot")

    assert kind == "limit"
    assert (bar["lower"], bar["upper"]) == ("265", "295")
    assert bar["accept"] == ("268.55", "291.45")


def test_the_fill_lots_own_page_says_the_same(repeated, signed_in):
    page = signed_in("aud-1").get(reverse("batches:lot", args=[repeated.number]))

    text = text_of(page)
    assert "4 sets, 2 set aside" in text
    assert "no named person has compared" in text
