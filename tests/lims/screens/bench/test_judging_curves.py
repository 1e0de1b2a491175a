"""What is said of a curve beneath it, and what it is said of."""

from django.urls import reverse

from lims.bench.models import Condition, Determination
from tests.factories import curves
from tests.lims.screens.bench.curving import (
    CODE,
    address,
    judges,
    page_of,
    sends,
    sets,
    told,
    types_times,
)

State = Determination.State


# ---- What is said of it


def test_a_rejected_curve_says_so_and_can_be_put_aside(bench, induction):
    sends(bench, induction)
    types_times(bench, induction)

    judges(bench, induction, "rejected")

    page = page_of(bench, induction)
    assert "curve rejected" in page
    assert "Stored, cannot count: the curve was seen and rejected." in page
    answer = bench.post(
        address("aside", induction), {"place": "1", "reason": "spike at 12 min"}
    )
    assert answer.status_code == 303
    assert [it.state for it in sets(induction)] == [State.SET_ASIDE, State.BEGUN]


def test_a_replaced_curve_asks_to_be_seen_again(bench, induction):
    sends(bench, induction)
    types_times(bench, induction)
    judges(bench, induction)
    sends(bench, induction, curves.run_of(24), "run-2.csv", reason="wrong file chosen")

    page = page_of(bench, induction)

    assert "Said of another curve or other lines: it does not stand" in page
    assert "Look at the curve with both lines, then accept or reject it." in page
    assert "Accept the curve" in page
    assert sets(induction)[0].state == State.BEGUN
    judges(bench, induction)
    assert sets(induction)[0].state == State.ACCEPTED


def test_saying_otherwise_without_a_reason_is_told_beside_it(bench, induction):
    sends(bench, induction)
    types_times(bench, induction)
    judges(bench, induction)

    answer = judges(bench, induction, "rejected")

    assert answer.status_code == 422
    assert "accepted was saved here before. Say why it changes" in told(answer)
    assert judges(bench, induction, "rejected", reason="bump").status_code == 303
    assert Condition.objects.filter(key="curve").count() == 2


def test_what_is_neither_is_told(bench, induction):
    sends(bench, induction)
    types_times(bench, induction)

    answer = judges(bench, induction, "perhaps")

    assert answer.status_code == 422
    assert "Say of the curve: accepted or rejected." in told(answer)


def test_a_picture_that_changed_meanwhile_is_not_accepted(bench, induction):
    sends(bench, induction)
    types_times(bench, induction)

    answer = bench.post(
        address("curve-judge", induction),
        {"place": "1", "seen": "0" * 40, "answer": "accepted"},
    )

    assert answer.status_code == 409
    assert "have changed since you saw them" in told(answer)


def test_a_set_that_is_not_there_has_no_curve(bench, induction):
    answer = bench.post(address("curve-judge", induction), {"place": "9"})

    assert answer.status_code == 404


def test_the_box_of_a_time_draws_the_lines_anew(bench, induction):
    """With the script one box is sent, and the answer carries the picture."""
    sends(bench, induction)
    types_times(bench, induction)

    answer = bench.post(
        address("condition", induction),
        {
            "box": "baseline_to",
            "baseline_to-text": "14",
            "baseline_to-reason": "typing slip",
            "set": "1",
        },
        headers={"HX-Request": "true"},
    )

    assert f'hx-swap-oob="innerHTML:#curves-{CODE}"' in told(answer)
    assert "baseline 7 to 14 min" in told(answer)
    assert f"#curve-file-{CODE}" not in told(answer)  # a chosen file is left alone


def test_the_file_of_the_next_set_is_asked_for_when_a_box_completes_the_one_before(
    bench, induction
):
    sends(bench, induction)
    types_times(bench, induction, temperature="")
    judges(bench, induction)

    answer = bench.post(
        address("condition", induction),
        {"box": "temperature", "temperature-text": "180", "set": "1"},
        headers={"HX-Request": "true"},
    )

    assert "File of the curve for set 2" in told(answer)


def test_an_earlier_set_is_listed_with_its_curve_and_can_be_corrected(bench, induction):
    sends(bench, induction)
    types_times(bench, induction)
    judges(bench, induction)

    page = page_of(bench, induction)

    assert "Curve of set 1, accepted" in page
    assert "set 1: curve run-1.csv; gives 23.0\u00a0min" in page
    assert "Correct set 1" in page
    assert "Curve with both lines seen: accepted" not in page  # judged, not corrected


def test_the_list_says_what_a_run_waits_for(bench, induction):
    sends(bench, induction)
    assert "pressure DSC is still to be given" in told(bench.get(reverse("bench:list")))
    types_times(bench, induction)

    page = told(bench.get(reverse("bench:list")))

    assert "look at the curve with both lines, then accept or reject it" in page
    judges(bench, induction, "rejected")
    assert "readings that cannot count" in told(bench.get(reverse("bench:list")))


def test_the_list_asks_for_a_second_run_until_its_curve_waits_to_be_seen(
    bench, induction
):
    sends(bench, induction)
    types_times(bench, induction)
    judges(bench, induction)
    page = told(bench.get(reverse("bench:list")))
    assert "a second determination is asked for" in page

    read_a_second_run(bench, induction)

    page = told(bench.get(reverse("bench:list")))
    assert "look at the curve with both lines, then accept or reject it" in page
    assert "a second determination is asked for" not in page


def test_the_page_asks_to_look_at_the_second_curve_before_anything_else(
    bench, induction
):
    sends(bench, induction)
    types_times(bench, induction)
    judges(bench, induction)
    assert "A second determination is asked for" in page_of(bench, induction)

    read_a_second_run(bench, induction)

    page = page_of(bench, induction)
    assert (
        "No result yet. Look at the curve with both lines, then accept or reject it."
        in page
    )
    assert "It cannot count before somebody has looked at it." in page
    assert "A second determination is asked for" not in page


def read_a_second_run(bench, induction):
    """The curve of set 2 with its times; nobody has looked at it yet."""
    sends(bench, induction, curves.run_of(24), "run-2.csv", set="2")
    texts = {"calorimeter": "DSC-1", "temperature": "180", **curves.TIMES}
    fields = {f"{key}-text": text for key, text in texts.items()}
    bench.post(address("set", induction), {"set": "2", **fields})
