"""Methods of the book at the bench: what holds the walk, what is missing, where a result stands on its scale."""

import pytest

from lims.bench.actions.samples import add_test
from lims.methods import queries as methods
from lims.products.actions.approval import approve_revision
from lims.products.actions.drafts import open_draft, set_requirement
from lims.products.lines import Line
from tests.factories import curves
from tests.factories.people import PASSWORD
from tests.lims.screens.bench.curving import judges, sends, types_times
from tests.lims.screens.bench.test_telling import page_of
from tests.lims.screens.bench.walking import conditions, readings, send, told

STAYS = "bench:stay"
EMCOR, WELD, ROLL = "emcor-distilled-water", "four-ball-weld", "roll-stability"
INDUCTION = "oxidation-induction-180"


def line(code, **limits):
    asked = methods.characteristic(code)
    edition = methods.editions_for(asked)[0]
    rule = {"comparing": "rounding", "rule": "simple acceptance"}
    return Line(characteristic=asked, edition=edition, **rule, **limits)


def ask(sample, code, by):
    asked = methods.characteristic(code)
    return add_test(
        sample=sample,
        characteristic=asked,
        edition=methods.editions_for(asked)[0],
        by=by,
    )


@pytest.fixture
def weld(sample, technician):
    return ask(sample, WELD, technician)


@pytest.fixture
def emcor_limit(lab, person):
    """A revision in force that also asks for a rust rating of 1 at the most."""
    draft = open_draft(product=lab, number="9", by=person("technologist"))
    set_requirement(
        revision=draft, line=line(EMCOR, upper="1"), by=person("technologist")
    )
    approve_revision(revision=draft, password=PASSWORD, by=person("quality_manager"))


def kept_beside(page, code, key):
    return page[page.index(f'id="{code}-{key}-kept"') :].split("</div>")[0]


def test_a_load_between_two_steps_holds_the_walk_and_is_told_the_ladder(
    bench, sample, weld
):
    answer = send(bench, sample, WELD, "load", "255")

    assert answer["HX-Trigger"] == STAYS
    assert "it lies between 250 and 315" in told(answer)
    assert "250, 315, 400, 500, 620, 800 kgf." in told(answer)


def test_a_load_of_the_ladder_lets_the_walk_go_on(bench, sample, weld):
    assert not send(bench, sample, WELD, "load", "250").has_header("HX-Trigger")


def test_a_curve_that_waits_to_be_looked_at_holds_the_walk(bench, induction):
    sends(bench, induction)
    types_times(bench, induction, baseline_to="")
    before = _condition(bench, induction, "baseline_from", "7")
    after = _condition(bench, induction, "baseline_to", "15")
    judges(bench, induction)

    assert not before.has_header("HX-Trigger")
    assert after["HX-Trigger"] == STAYS


def test_a_curve_that_gives_no_onset_holds_the_walk(bench, induction):
    sends(bench, induction, b"min,mW\n0,1\n1,2\n")
    types_times(bench, induction, baseline_to="")

    answer = _condition(bench, induction, "baseline_to", "15")

    assert "an onset needs" in told(answer)
    assert answer["HX-Trigger"] == STAYS


def _condition(bench, test, key, text):
    return send(bench, test.sample, INDUCTION, key, text, name="condition")


def test_to_a_reader_sets_that_were_put_aside_are_no_missing_reading(
    bench, client, induction, person
):
    client.force_login(person("auditor"))
    assert "No reading yet." in page_of(client, induction.sample)
    sends_two_that_differ(induction, person("technician"))

    page = page_of(client, induction.sample)
    leaf = page[page.index(f'id="t-{INDUCTION}"') :].split("</section>")[0]

    assert "No set is open; what was read stands below." in leaf
    assert "No reading yet." not in leaf


def sends_two_that_differ(test, by):
    for minutes in (23, 26):
        curves.carry_out(test, curves.run_of(minutes), by=by)


def test_where_no_instrument_of_a_kind_is_registered_it_is_said_where_to_ask(
    bench, sample, technician, weld
):
    ask(sample, ROLL, technician)

    page = page_of(bench, sample)

    assert "No roll tester is registered yet: ask for one under Instruments." in (
        kept_beside(page, ROLL, "roller")
    )
    assert "No " not in kept_beside(page, ROLL, "penetrometer")
    assert "if it is used; none is registered yet" in (
        kept_beside(page, WELD, "apparatus")
    )


def test_a_pair_of_ratings_stands_on_the_scale_at_the_worse(emcor_limit, bench, sample):
    conditions(bench, sample, EMCOR, water="distilled water")

    answer = told(readings(bench, sample, EMCOR, {"bearing_1": "1", "bearing_2": "2"}))

    outcome = answer[answer.index(f"#outcome-{EMCOR}") :].split("hx-swap-oob")[0]
    assert "not met" in outcome
    assert "1/2" in outcome
    assert 'class="cone out"' in outcome


def test_a_figure_from_memory_begins_its_sentence_with_a_capital(
    bench, sample, technician
):
    ask(sample, "oil-separation-storage", technician)
    conditions(bench, sample, "oil-separation-storage", temperature="25")

    answer = told(
        readings(
            bench, sample, "oil-separation-storage", {"taken": "20.00", "found": "0.37"}
        )
    )

    assert "Number of determinations 2 and way of combining mean are from memory" in (
        answer
    )
