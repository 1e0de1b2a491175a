"""Sets that disagree, with the keyboard alone: the boxes of the next set take the place of the old ones, and the walk goes on in them."""

import pytest
from playwright.sync_api import expect

from lims.bench.models import Reading
from lims.record import clock
from tests.factories import plant

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SAMPLE, WORKED = "Q1-26-0417-A-01", "worked-penetration"


def fill(bench, at, *cones):
    """One fill by Enter alone, from its first box on."""
    clock.set_to(plant.at(f"2026-03-05 {at}:40"))
    expect(bench.box(WORKED, "penetrometer")).to_have_value("PEN-01")
    bench.box(WORKED, "penetrometer").focus()
    bench.types("Enter", "25.1", "Enter")
    bench.saved(WORKED, "penetrometer", "temperature")
    bench.types(f"{at}:10", "Enter")
    bench.saved(WORKED, "strokes_end")
    for text in cones:
        bench.types(text, "Enter")


def test_the_next_set_stands_where_the_old_one_stood(sampled, bench):
    bench.signs_in("tech-a")
    bench.opens(SAMPLE)
    bench.box(WORKED, "penetrometer").select_option("PEN-01")
    fill(bench, "08:10", "276", "284", "279")
    says = bench.page.locator(f"#says-{WORKED}")
    expect(says).to_contain_text("Take a fresh fill")
    says.get_by_label("What was seen?").fill("void seen at cup wall")
    bench.types("Enter")
    expect(bench.page.locator(f"#set-{WORKED}")).to_contain_text("Set 2")

    fill(bench, "08:30", "278", "281", "280")

    expect(says).to_contain_text("A second fill is asked for")
    expect(bench.page.locator(f"#set-{WORKED}")).to_contain_text("Set 3")
    expect(bench.box(WORKED, "cone_3")).to_have_value("")
    expect(bench.box(WORKED, "penetrometer")).to_be_focused()
    expect(bench.page.locator(f"#sets-{WORKED}")).to_contain_text("278, 281, 280")

    fill(bench, "08:50", "287", "290", "288")

    expect(says).to_contain_text("A third result is asked for")
    assert Reading.objects.filter(determination__place=3).count() == 3

    fill(bench, "09:10", "281", "283", "282")

    expect(bench.page.locator(f"#state-{WORKED}")).to_contain_text("reported")
    expect(bench.page.locator(f"#sets-{WORKED}")).to_contain_text(
        "cause not yet found, look for it"
    )
    assert Reading.objects.filter(determination__place=4).count() == 3
    assert [it for it in bench.said if "422" not in it] == []
