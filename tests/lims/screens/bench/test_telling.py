"""What the page says for itself: what to do, what is missing, what was understood, and that nothing is left."""

import pytest
from django.urls import reverse

from lims.batches.models import FillLot
from lims.bench.actions.samples import receive_sample
from lims.instruments.actions import take_out_of_service
from lims.instruments.models import Instrument
from lims.people.queries import person as the_person
from lims.record import clock
from tests.factories import plant
from tests.lims.screens.bench.conftest import MORNING_AFTER
from tests.lims.screens.bench.walking import address, conditions, cones, send, told

UNWORKED, WORKED = "unworked-penetration", "worked-penetration"


def page_of(client, sample):
    return told(client.get(reverse("bench:sample", args=[sample.number])))


def line_of(page, code):
    return page[page.index(f'id="line-{code}"') :].split("</p>")[0]


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


@pytest.mark.parametrize(
    ("texts", "sentence"),
    [
        (("301", "301", "301"), "too soft by 2\u00a0×\u00a00.1\u00a0mm."),
        (("266", "266", "266"), "too firm by 3\u00a0×\u00a00.1\u00a0mm."),
    ],
)
def test_the_kettle_operator_is_to_be_told_by_how_much(bench, kettle, texts, sentence):
    conditions(
        bench,
        kettle,
        WORKED,
        penetrometer="PEN-01",
        temperature="25",
        strokes_end="073000",
    )

    now = told(cones(bench, kettle, WORKED, *texts))
    later = line_of(page_of(bench, kettle), WORKED)

    assert f"Tell the kettle operator: {sentence}" in now
    assert f"Tell the kettle operator: {sentence}" in later


def test_a_pack_sample_outside_its_limits_tells_no_kettle_operator(bench, sample):
    conditions(
        bench,
        sample,
        WORKED,
        penetrometer="PEN-01",
        temperature="25",
        strokes_end="073000",
    )
    cones(bench, sample, WORKED, "301", "301", "301")

    page = page_of(bench, sample)

    assert "Belongs to no NLGI number" in line_of(page, WORKED)
    assert "kettle operator" not in page


def test_a_change_without_a_reason_is_told_what_is_missing(bench, sample):
    cones(bench, sample, UNWORKED, "297")

    silent = send(bench, sample, UNWORKED, "cone_1", "279", reason="", why="")
    other = send(bench, sample, UNWORKED, "cone_1", "279", reason="other", why="it")

    assert silent.status_code == other.status_code == 422
    assert "Choose a reason, or write one." in told(silent)
    assert '<option value="other" selected>' not in told(silent)
    assert 'name="cone_1-why" type="text" maxlength="200" value="it"' in told(other)
    assert '<option value="other" selected>' in told(other)


def test_a_value_that_is_hardly_right_is_told_with_the_unit_of_the_page(bench, sample):
    answer = told(send(bench, sample, UNWORKED, "cone_1", "2800"))

    assert "2800 lies outside 85 to 500 × 0.1 mm." in answer


def test_a_corrected_end_of_the_strokes_is_told_beside_what_was_read(bench, sample):
    conditions(bench, sample, WORKED, strokes_end="07:29:00")
    cones(bench, sample, WORKED, "279")

    answer = told(
        send(
            bench,
            sample,
            WORKED,
            "strokes_end",
            "07:29:30",
            name="condition",
            reason="typing slip",
        )
    )

    kept = answer[answer.index(f"#{WORKED}-cone_1-kept") :]
    assert "read 30 s after the strokes ended" in kept
    assert f"#{WORKED}-cone_2-kept" not in answer


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("23:59", "taken as yesterday, Wed 4 March 23:59<"),
        ("2026-03-04 23:59", "= 4 March 2026, 23:59:00 CET"),
        ("07:20", "= 5 March 2026, 07:20:00 CET"),
    ],
)
def test_a_time_that_has_not_come_yet_is_taken_as_yesterday_in_words(
    bench, sample, typed, words
):
    answer = send(bench, sample, WORKED, "strokes_end", typed, name="condition")

    assert words in told(answer)


def test_a_reading_of_another_day_says_its_day(bench, sample):
    cones(bench, sample, WORKED, "279")
    late = {"slot": "cone_1", "read_at": "23:59", "reason": "written on paper"}

    bench.post(address("time", sample, WORKED), late)

    assert "read Wed 4 March 23:59" in page_of(bench, sample)


def test_an_instrument_that_cannot_count_says_so_after_the_page_is_opened_again(
    bench, sample, person
):
    manager = person("laboratory_manager")
    pen = Instrument.objects.get(number="PEN-01")
    take_out_of_service(instrument=pen, reason="the cone is bent", by=manager)

    conditions(bench, sample, UNWORKED, penetrometer="PEN-01")
    page = page_of(bench, sample)

    box = page[page.index(f'id="{UNWORKED}-penetrometer"') :].split("</select>")[0]
    kept = page[page.index(f'id="{UNWORKED}-penetrometer-kept"') :].split("</div>")[0]
    assert "PEN-01, out of service: cannot count" in box
    assert "out of service: cannot count" in kept


def test_a_set_at_fault_keeps_the_walk_and_the_next_begins_with_its_instrument(
    bench, sample
):
    conditions(bench, sample, UNWORKED, penetrometer="PEN-01", temperature="25")
    even = cones(bench, sample, UNWORKED, "268", "284")
    wide = cones(bench, sample, UNWORKED, "268", "284", "275")
    bench.post(address("aside", sample, UNWORKED), {"place": "1", "reason": "a void"})
    page = page_of(bench, sample)

    box = page[page.index(f'id="{UNWORKED}-penetrometer"') :].split("</select>")[0]
    warm = page[page.index(f'id="{UNWORKED}-temperature"') :][:160]
    assert not even.has_header("HX-Trigger")
    assert wide["HX-Trigger"] == "bench:stay"
    assert '<option value="PEN-01" selected>' in box
    assert "not saved yet" in page
    assert 'value=""' in warm


def test_the_last_four_figures_of_a_batch_open_its_one_open_sample(
    bench, sample, kettle
):
    several = bench.get(reverse("bench:open"), {"code": "0417"})
    conditions(
        bench,
        kettle,
        WORKED,
        penetrometer="PEN-01",
        temperature="25",
        strokes_end="073000",
    )
    cones(bench, kettle, WORKED, "283", "284", "285")
    one = bench.get(reverse("bench:open"), {"code": " 0417 "})
    none = bench.get(reverse("bench:open"), {"code": "0416"})

    assert several.status_code == none.status_code == 404
    assert "fits several open samples" in told(several)
    assert kettle.number in told(several)
    assert one["Location"] == f"/bench/samples/{sample.number}/"
    assert "“0416” is known here" in told(none)


def test_the_counts_of_the_answer_are_those_of_the_sections(bench, sample):
    page = page_of(bench, sample)

    assert "All 6 tests are due. 1 more is computed from them." in page
    assert page.count('class="leaf" id="t-') == 6 + 1


@pytest.fixture
def walked(db, client):
    """A lot of the plant, all of whose tests are reported."""
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story())
    assert plant.lot().state == FillLot.State.AWAITING_DECISION
    return client


@pytest.mark.parametrize(
    ("account", "way"), [("tech-a", False), ("mgr-1", True), ("aud-1", False)]
)
def test_when_nothing_is_left_the_page_says_so_and_leads_on(walked, account, way):
    walked.force_login(the_person(account))

    page = page_of(walked, plant.sample())

    assert "All tests are reported; the lot awaits its decision." in page
    assert f'<a href="{reverse("bench:list")}">Back to the bench</a>' in page
    assert (reverse("decisions:lot", args=[plant.lot().number]) in page) is way


def test_a_customer_whose_limits_are_not_met_is_named_in_the_folded_line(walked):
    walked.force_login(the_person("tech-a"))

    page = page_of(walked, plant.sample())

    line = line_of(page, "penetration-change-100000")
    assert "not met for OL" in line
    assert "not met for" not in line_of(page, WORKED)
