"""A box of the bench: what is typed is never lost, never changed by accident, and each answer stands beside it."""

import pytest
from playwright.sync_api import expect

from lims.bench.models import Reading
from tests.factories import plant

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SAMPLE = "Q1-26-0417-A-01"
UNWORKED = "unworked-penetration"
CUP = (UNWORKED, "cone_1")


@pytest.fixture
def seated(sampled, bench):
    """A technician before the first cone reading; PEN-01 and the temperature are noted."""
    bench.signs_in("tech-a")
    bench.opens(SAMPLE)
    bench.box(UNWORKED, "penetrometer").select_option("PEN-01")
    bench.saved(UNWORKED, "penetrometer")
    bench.box(UNWORKED, "temperature").focus()
    bench.types("25.1", "Enter")
    bench.saved(UNWORKED, "temperature")
    return bench


def stored(key="cone_1"):
    return [row.text for row in Reading.objects.filter(slot=key).order_by("pk")]


def retypes(bench, text):
    box = bench.box(*CUP)
    box.focus()
    box.select_text()
    bench.types(text, "Enter")


def test_a_box_keeps_what_is_typed_and_says_what_became_of_it(seated):
    what_is_refused_stays_in_the_box(seated)
    a_scanned_label_is_caught(seated)
    a_slip_by_ten_is_to_be_typed_again(seated)
    a_number_is_saved_and_told(seated)
    escape_restores(seated)
    the_wheel_changes_nothing(seated)
    a_change_asks_for_its_reason(seated)
    a_list_is_walked_through_without_saving(seated)


def what_is_refused_stays_in_the_box(bench):
    box, kept = bench.box(*CUP), bench.kept(*CUP)
    retypes(bench, "1.234,5")
    expect(kept.locator(".bad-words")).to_be_visible()
    expect(box).to_have_value("1.234,5")
    expect(box).to_have_attribute("aria-invalid", "true")
    expect(box).to_be_focused()
    assert stored() == []


def a_scanned_label_is_caught(bench):
    box, kept = bench.box(*CUP), bench.kept(*CUP)
    retypes(bench, SAMPLE)
    expect(box).to_have_value(SAMPLE)
    expect(kept.locator(".bad-words")).to_be_visible()
    expect(box).to_be_focused()
    assert stored() == []


def a_slip_by_ten_is_to_be_typed_again(bench):
    box, kept = bench.box(*CUP), bench.kept(*CUP)
    retypes(bench, "27.2")
    expect(kept).to_contain_text("27.2 was typed; it is not saved.")
    expect(box).to_have_value("")
    assert stored() == []


def a_number_is_saved_and_told(bench):
    retypes(bench, "272")
    bench.saved(*CUP)
    expect(bench.kept(*CUP)).to_contain_text("= 272 × 0.1 mm")
    expect(bench.box(*CUP)).not_to_have_attribute("aria-invalid", "true")
    assert stored() == ["272"]


def escape_restores(bench):
    box = bench.box(*CUP)
    box.focus()
    box.select_text()
    bench.types("999", "Escape")
    expect(box).to_have_value("272")
    expect(box).to_be_focused()


def the_wheel_changes_nothing(bench):
    box = bench.box(*CUP)
    box.hover()
    bench.page.mouse.wheel(0, -40)
    bench.types("ArrowDown")
    expect(box).to_have_value("272")
    assert box.get_attribute("type") == "text"
    assert box.get_attribute("inputmode") == "decimal"


def a_change_asks_for_its_reason(bench):
    box, kept = bench.box(*CUP), bench.kept(*CUP)
    retypes(bench, "273")
    expect(kept).to_contain_text("272 was saved here before")
    expect(box).to_have_value("273")
    assert stored() == ["272"]
    kept.get_by_label("Reason").select_option("typing slip")
    kept.get_by_role("button", name="Change it").click()
    expect(kept).to_contain_text("changed: typing slip")
    expect(box).to_be_focused()
    expect(box).to_have_value("273")
    assert stored() == ["272", "273"]


def a_list_is_walked_through_without_saving(bench):
    """Arrows pass by choices that nobody means."""
    code = "worked-penetration"
    box, kept = bench.box(code, "penetrometer"), bench.kept(code, "penetrometer")
    box.focus()
    bench.types("ArrowDown", "ArrowDown")
    expect(box).to_have_value("PEN-02")
    expect(kept).not_to_contain_text("Saved")
    bench.types("Escape")
    expect(box).to_have_value("")
    bench.types("PEN-02", "Enter")
    bench.saved(code, "penetrometer")
    noted = plant.the_test(code).determinations.get().conditions.get()
    assert noted.text == "PEN-02"


@pytest.mark.parametrize("width", [1280, 390])
def test_a_mass_of_seven_figures_is_seen_whole(seated, width):
    seated.page.set_viewport_size({"width": width, "height": 900})
    box = seated.box("oil-separation", "sample")

    box.fill("102.520")

    assert box.evaluate("it => it.scrollWidth <= it.clientWidth")
    box.fill("102.520123456")
    assert not box.evaluate("it => it.scrollWidth <= it.clientWidth")


def test_a_reading_waits_for_the_server_and_outlives_the_window(seated):
    page, box, kept = seated.page, seated.box(*CUP), seated.kept(*CUP)
    page.route("**/reading/", lambda route: route.abort())

    retypes(seated, "272")
    expect(kept).to_contain_text("Not saved.")
    expect(box).to_have_value("272")
    assert stored() == []

    page.unroute("**/reading/")
    page.evaluate("window.dispatchEvent(new Event('online'))")
    seated.saved(*CUP)
    assert stored() == ["272"]

    page.close()
    again = seated.page = page.context.new_page()
    seated.opens(SAMPLE)
    expect(again.locator(f"#{UNWORKED}-cone_1")).to_have_value("272")
