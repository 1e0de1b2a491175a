"""The page of a sample: what it says of each kind of sample, and of each state of its tests."""

import datetime as dt

import pytest
from django.urls import reverse

from lims.bench.actions.samples import receive_sample
from lims.people.queries import person
from lims.record import clock
from tests.factories import plant
from tests.lims.screens.bench.conftest import FILLED, MORNING_AFTER
from tests.lims.screens.bench.walking import (
    conditions,
    cones,
    readings,
    send,
    told,
)

WORKED = "worked-penetration"


def page_of(client, sample):
    return told(client.get(reverse("bench:sample", args=[sample.number])))


@pytest.fixture
def kettle(batch, technician):
    clock.set_to(MORNING_AFTER)
    return receive_sample(
        batch=batch,
        place="kettle",
        taken_at=MORNING_AFTER,
        taken_by="operator",
        by=technician,
    )


def kettle_conditions(client, kettle):
    conditions(
        client,
        kettle,
        WORKED,
        penetrometer="PEN-01",
        temperature="25",
        strokes_end="073000",
    )


def test_each_test_is_a_leaf_in_the_order_of_the_bench(bench, sample):
    page = page_of(bench, sample)

    codes = ["unworked-penetration", WORKED, "dropping-point-block", "oil-separation"]
    places = [page.index(f'id="t-{code}"') for code in codes]
    assert places == sorted(places)
    assert "265 to 295" in page
    assert "internal 270 to 290" in page
    assert "ASTM D217, edition 21a" in page
    assert "Computed from" in page


def test_boxes_are_text_and_say_their_unit_as_a_factor(bench, sample):
    page = page_of(bench, sample)

    assert 'type="number"' not in page
    assert "×\u00a00.1\u00a0mm" in page
    assert 'id="worked-penetration-cone_1" name="cone_1-text" type="text"' in page
    observed = page[page.index('id="dropping-point-block-observed_1"') :][:160]
    assert 'inputmode="text"' in observed


def test_a_kettle_sample_answers_against_the_kettle_target(bench, kettle):
    kettle_conditions(bench, kettle)
    soft = told(cones(bench, kettle, WORKED, "283", "284", "285"))
    page = page_of(bench, kettle)

    assert "It never stands for a finished test" in page
    assert "Kettle target 284: pack target 280, kettle offset −4." in page
    assert "269 to 299" in page
    assert "met</span>" in soft


def test_a_kettle_sample_outside_its_target_is_not_met(bench, kettle):
    kettle_conditions(bench, kettle)

    hard = told(cones(bench, kettle, WORKED, "257", "258", "259"))

    assert "not met</span>" in hard


def test_a_sample_that_does_not_count_says_why_at_the_top(bench, lot, technician):
    early = FILLED + dt.timedelta(hours=2)
    clock.set_to(early)
    sample = receive_sample(
        batch=lot.batch,
        fill_lot=lot,
        place="pack",
        taken_at=early,
        taken_by="Tech-A",
        by=technician,
    )

    page = page_of(bench, sample)

    assert "This sample does not count for release." in page
    assert "asks for at least 12 h" in page


def test_a_finished_test_folds_into_one_line_and_can_be_opened(bench, sample):
    readings(bench, sample, "copper-strip", {"strip_1": "1a"})

    page = page_of(bench, sample)

    line = page[page.index('id="line-copper-strip"') :][:400]
    assert "met" in line
    assert "Open to read or to correct" in page
    assert "1 is reported" in page


def test_a_periodic_test_is_added_and_its_vessels_are_a_table_in_kpa(bench, sample):
    where = reverse("bench:add-test", args=[sample.number])

    added = bench.post(where, {"characteristic": "oxidation-drop"})
    twice = bench.post(where, {"characteristic": "oxidation-drop"})
    conditions(
        bench,
        sample,
        "oxidation-drop",
        started_at="0730",
        vessel_1="OX-1",
        vessel_2="OX-2",
        unit_2="psi",
    )
    maximum = told(send(bench, sample, "oxidation-drop", "maximum_2", "109.6"))
    clock.set_to(MORNING_AFTER + dt.timedelta(hours=63))
    page = page_of(bench, sample)

    assert added.status_code == 303
    assert twice.status_code == 409
    assert "= 755.7 kPa" in maximum
    assert "OX-2, psi gauge" in page
    assert "63<span" in page
    assert "of 100 hours" in page
    assert "Nothing is judged before the hours are over." in page
    assert "due Mon 9 March 11:30" in page


def test_a_released_lot_is_read_only_and_says_so(db, client):
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story())
    plant.release(plant.lot())
    client.force_login(person("tech-a"))

    page = page_of(client, plant.sample())
    sent = send(client, plant.sample(), WORKED, "cone_1", "281", reason="read again")

    assert "is released; its readings stand" in page
    assert "data-box" not in page
    assert "279" in page
    assert sent.status_code == 422
    assert "its readings stand" in told(sent)


def test_an_unknown_sample_is_not_found(bench, lab):
    assert bench.get("/bench/samples/Q1-26-9999-A-01/").status_code == 404


def test_a_saved_reading_costs_a_bounded_number_of_queries(
    bench, sample, django_assert_max_num_queries
):
    cones(bench, sample, WORKED, "279", "281")

    with django_assert_max_num_queries(55):
        send(bench, sample, WORKED, "cone_3", "280")


def test_pages_are_read_without_a_write(bench, sample, django_assert_max_num_queries):
    with django_assert_max_num_queries(30) as asked:
        page_of(bench, sample)

    assert not [q for q in asked if q["sql"].startswith(("INSERT", "UPDATE"))]
