"""What is refused at the bench keeps everything typed, says why, and writes nothing but the attempt."""

import pytest
from django.urls import reverse

from lims.bench.models import Determination, Reading
from tests.lims.screens.bench.walking import address, cones, send, told

UNWORKED = "unworked-penetration"


def test_a_changed_reading_asks_for_its_reason_and_then_replaces(bench, sample):
    cones(bench, sample, UNWORKED, "297")

    asked = send(bench, sample, UNWORKED, "cone_1", "279")
    changed = send(bench, sample, UNWORKED, "cone_1", "279", reason="typing slip")

    assert asked.status_code == 422
    assert "297 was saved here before" in told(asked)
    assert 'name="cone_1-reason"' in told(asked)
    assert changed.status_code == 200
    assert "changed: typing slip" in told(changed)
    newest = Reading.objects.get(text="279")
    assert (newest.replaces.text, newest.reason) == ("297", "typing slip")


def test_another_reason_is_told_in_words(bench, sample):
    cones(bench, sample, UNWORKED, "297")

    send(bench, sample, UNWORKED, "cone_1", "279", reason="other", why="dial misread")

    assert Reading.objects.get(text="279").reason == "dial misread"


def test_an_implausible_value_is_typed_again_before_it_is_saved(bench, sample):
    once = send(bench, sample, UNWORKED, "cone_1", "2800")
    other = send(bench, sample, UNWORKED, "cone_1", "2900", again="2800")
    twice = send(bench, sample, UNWORKED, "cone_1", "2800", again="2800")

    assert once.status_code == other.status_code == 422
    assert once["HX-Trigger"] == "bench:again"
    assert 'name="cone_1-again" value="2800"' in told(once)
    assert twice.status_code == 200
    assert [row.text for row in Reading.objects.all()] == ["2800"]


def test_an_empty_box_saves_nothing_and_empties_nothing(bench, sample):
    empty = send(bench, sample, UNWORKED, "cone_1", "")
    cones(bench, sample, UNWORKED, "272")

    emptied = send(bench, sample, UNWORKED, "cone_1", "")

    assert empty.status_code == 200
    assert emptied.status_code == 422
    assert "272 is saved here and is not emptied" in told(emptied)
    assert Reading.objects.count() == 1


def test_a_whole_set_is_saved_without_script_and_what_was_refused_is_kept(
    bench, sample
):
    sent = {"cone_1-text": "272", "cone_2-text": "27A", "cone_3-text": "275"}

    page = bench.post(address("set", sample, UNWORKED), sent)

    assert page.status_code == 422
    assert 'value="27A"' in told(page)
    assert "“27A” has letters or signs after the number" in told(page)
    assert [row.text for row in Reading.objects.all()] == ["272", "275"]


def test_a_set_that_was_saved_leads_back_to_its_test(bench, sample):
    answer = bench.post(address("set", sample, UNWORKED), {"cone_1-text": "272"})

    assert answer.status_code == 303
    assert answer["Location"].endswith(f"{sample.number}/#t-{UNWORKED}")


def test_a_set_that_spreads_too_wide_is_put_aside_with_what_was_seen(bench, sample):
    wide = told(cones(bench, sample, UNWORKED, "268", "284", "275"))
    where = address("aside", sample, UNWORKED)

    silent = bench.post(where, {"place": "1", "reason": ""})
    answer = bench.post(where, {"place": "1", "reason": "void at the cup wall"})
    twice = bench.post(where, {"place": "1", "reason": "void at the cup wall"})
    page = told(bench.get(reverse("bench:sample", args=[sample.number])))

    assert "Take a fresh fill" in wide
    assert "not evaluated</span>" not in wide  # a line that is only reported
    assert silent.status_code == 422
    assert "Say what was seen" in told(silent)
    assert answer.status_code == 303
    assert twice.status_code == 409
    assert Determination.objects.get(place=1).state == "set aside"
    assert "268, 284, 275" in page
    assert "void at the cup wall" in page
    assert "Set 2" in page


def test_the_time_of_a_reading_is_corrected_with_a_reason(bench, sample):
    code = "worked-penetration"
    cones(bench, sample, code, "279")
    where = address("time", sample, code)

    silent = bench.post(where, {"slot": "cone_1", "read_at": "07:10"})
    told_why = {"slot": "cone_1", "read_at": "07:10", "reason": "written on paper"}
    answer = bench.post(where, told_why)

    assert silent.status_code == 422
    assert answer.status_code == 303
    newest = Reading.objects.order_by("-pk").first()
    assert (newest.text, newest.reason) == ("279", "written on paper")
    assert newest.read_at.isoformat() == "2026-03-05T06:10:00+00:00"


@pytest.mark.parametrize("role", ["auditor", "despatch", "quality_manager"])
def test_who_may_not_record_reads_the_page_and_cannot_send(
    client, person, bench, sample, role
):
    cones(bench, sample, UNWORKED, "272")
    client.force_login(person(role))

    page = client.get(reverse("bench:sample", args=[sample.number]))
    sent = send(client, sample, UNWORKED, "cone_2", "274")

    assert page.status_code == 200
    assert "272" in told(page)
    assert "data-box" not in told(page)
    assert sent.status_code == 403
    assert Reading.objects.count() == 1


def test_a_box_that_a_test_does_not_have_is_not_found(bench, sample):
    answer = send(bench, sample, UNWORKED, "cone_9", "272")

    assert answer.status_code == 404
