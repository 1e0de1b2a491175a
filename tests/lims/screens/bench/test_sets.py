"""The sets of a test on its leaf: in order, with what became of each; the next empty one when it is asked for; an earlier one corrected with a reason."""

import pytest
from django.urls import reverse

from lims.bench.actions.samples import add_test
from lims.bench.reporting import active_value
from lims.methods import actions as methods
from lims.methods import queries
from lims.people.days import today
from lims.record import clock
from lims.screens.bench import saying
from tests.lims.screens.bench.sets import (
    WORKED,
    correct,
    fill,
    page,
    put_aside,
    the_test,
)
from tests.lims.screens.bench.walking import address, conditions, cones, send, told

DROPPING = "dropping-point-block"


@pytest.fixture(autouse=True)
def _at_the_bench(sample):
    clock.set_to(sample.received_at.replace(hour=8, minute=0))


def test_one_set_that_stands_needs_no_list(bench, sample):
    answer = fill(bench, sample, "279", "281", "280")

    assert "aside-sets" not in answer
    assert "By the rule" not in answer


def test_the_answer_asks_and_brings_the_boxes_of_the_next_set(disagreeing):
    assert "A third result is asked for: result 1 (set 2) 279.67" in disagreeing
    assert f'innerHTML:#set-{WORKED}"' in disagreeing
    assert '<input type="hidden" name="set" value="4">' in disagreeing
    assert "PEN-01, in service" in disagreeing
    boxes = disagreeing.split(f'innerHTML:#set-{WORKED}"')[1]
    assert 'value="287"' not in boxes.split("innerHTML:")[0]


def test_every_set_is_listed_in_order_with_what_became_of_it(
    bench, sample, disagreeing, technician
):
    listed = page(bench, sample).split(f'id="sets-{WORKED}"')[1].split("</ol>")[0]

    assert "3 sets" in listed
    assert listed.index("276, 284, 279") < listed.index("278, 281, 280")
    assert listed.index("278, 281, 280") < listed.index("287, 290, 288")
    assert "gives 279.67" in listed
    assert f"void seen at cup wall; by {technician}." in listed
    assert listed.count("Correct set") == 4  # summary and button of sets 2 and 3


def test_after_the_third_result_the_leaf_says_which_rule_and_what_it_set_aside(
    bench, sample, disagreeing
):
    answer = fill(bench, sample, "281", "283", "282")

    assert (
        "By the rule: result 2 differs by 7.5 from the mean of the others, more than "
        "6.06 (ISO 4259, r = 7): set aside; mean of the other 2."
    ) in answer
    assert "Set 3 is set aside: cause not yet found, look for it." in answer
    assert "4 sets" in answer
    assert "; cause not yet found, look for it." in answer
    assert "ISO 5725" not in answer


def test_a_figure_from_memory_is_told_until_somebody_checked_it(
    bench, sample, disagreeing, person
):
    assert "r 7 is from memory and not checked." in disagreeing

    edition = queries.edition("ASTM D217", "21a")
    methods.check_figures(
        edition=edition,
        checked_by="Edda Harrow",
        on=today(),
        by=person("laboratory_manager"),
    )

    assert "from memory" not in page(bench, sample)


def test_the_list_says_what_is_asked_for(bench, sample, disagreeing):
    listed = told(bench.get(reverse("bench:list")))

    assert "a third result is asked for" in listed
    assert "279.67" not in listed


def test_text_for_a_set_that_no_rule_asks_for_stays_in_its_box(bench, sample):
    fill(bench, sample, "279", "281", "280")

    answer = bench.post(
        address("reading", sample, WORKED),
        {"box": "cone_1", "cone_1-text": "270", "set": "2"},
        headers={"HX-Request": "true"},
    )

    assert answer.status_code == 422
    assert "No set 2 is asked for now" in told(answer)
    assert the_test(sample).determinations.count() == 1
    assert active_value(the_test(sample)).reported == "280"


def test_a_whole_set_that_no_rule_asks_for_is_kept_on_the_page(bench, sample):
    fill(bench, sample, "279", "281", "280")

    answer = bench.post(
        address("set", sample, WORKED), {"set": "2", "cone_1-text": "270"}
    )

    assert answer.status_code == 422
    assert 'value="270"' in told(answer)


def test_text_for_a_set_put_aside_meanwhile_lands_in_no_other(bench, sample):
    fill(bench, sample, "276", "284", "279")
    put_aside(bench, sample, 1)

    answer = bench.post(
        address("reading", sample, WORKED),
        {"box": "cone_1", "cone_1-text": "270", "set": "1"},
        headers={"HX-Request": "true"},
    )

    assert answer.status_code == 422
    assert "Set 1 is set aside" in told(answer)


def test_an_earlier_set_that_no_longer_stands_is_set_aside_from_the_list(
    bench, sample, disagreeing
):
    correct(bench, sample, 2, key="cone_1", text="270", reason="figures exchanged")
    assert "Set this set aside" in page(bench, sample)

    answer = put_aside(bench, sample, 2, "two fills mixed up")

    assert answer.status_code == 303
    assert the_test(sample).determinations.get(place=2).state == "set aside"


def test_the_whole_set_is_sent_to_the_set_that_the_page_showed(
    bench, sample, disagreeing
):
    bench.post(
        address("set", sample, WORKED),
        {
            "set": "4",
            "penetrometer-text": "PEN-01",
            "temperature-text": "25.1",
            "strokes_end-text": "08:59:30",
            "cone_1-text": "281",
            "cone_2-text": "283",
            "cone_3-text": "282",
        },
    )

    assert active_value(the_test(sample)).reported == "281"


def test_two_runs_further_apart_than_r_are_to_be_made_afresh(bench, sample):
    conditions(bench, sample, DROPPING, apparatus="DP-01")
    for key, text in (
        ("observed_1", "246"),
        ("block_1", "288"),
        ("observed_2", "262"),
        ("block_2", "288"),
    ):
        answer = told(send(bench, sample, DROPPING, key, text))

    assert "more than the method&#x27;s r of 6" in answer
    assert "r 6 is from memory and not checked." in answer
    assert "begin a fresh run" in answer


def ask_for(sample, code, technician):
    it = queries.characteristic(code)
    edition = queries.editions_for(it)[0]
    return add_test(sample=sample, characteristic=it, edition=edition, by=technician)


def test_a_pressure_in_psi_is_listed_as_typed_and_in_kpa(bench, sample, technician):
    code = "oxidation-drop"
    ask_for(sample, code, technician)
    conditions(bench, sample, code, vessel_1="OX-1", unit_1="psi")
    send(bench, sample, code, "maximum_1", "109.6")
    put_aside(bench, sample, 1, "leak at the valve", code)

    listed = page(bench, sample).split(f'id="sets-{code}"')[1].split("</ol>")[0]

    assert "109.6 psi = 755.7 kPa" in listed


def test_masses_are_listed_each_with_its_unit(bench, sample):
    code = "oil-separation"
    send(bench, sample, code, "sample", "10.02")
    put_aside(bench, sample, 1, "beaker knocked over", code)

    listed = page(bench, sample).split(f'id="sets-{code}"')[1].split("</ol>")[0]

    assert "10.02\u00a0g" in listed
    assert "mass" not in listed


def test_a_reduced_cone_is_never_a_result_unconverted(bench, sample, technician):
    code = "worked-penetration-half"
    test = ask_for(sample, code, technician)
    conditions(bench, sample, code, penetrometer="PEN-01", temperature="25.1")
    cones(bench, sample, code, "120", "121", "122")
    half_way = test.determinations.get()
    conditions(bench, sample, code, strokes_end="08:59:30")

    assert half_way.value == "247"  # 2 p + 5
    assert active_value(the_test(sample, code)).reported == "247"
    assert '<span class="fig">247<' in page(bench, sample)
    assert '<span class="fig">121<' not in page(bench, sample)
    assert saying._drops(test.characteristic, half_way) == ()
