"""The keypad for gloves on a narrow screen, and where the focus goes when a set is at fault."""

import pytest
from playwright.sync_api import expect

from lims.bench.models import Reading

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SAMPLE = "Q1-26-0417-A-01"
UNWORKED = "unworked-penetration"


@pytest.fixture
def seated(sampled, bench):
    bench.signs_in("tech-a")
    bench.opens(SAMPLE)
    return bench


def test_the_keypad_of_a_phone_leaves_the_box_in_sight_and_is_put_away(seated):
    page = seated.page
    page.set_viewport_size({"width": 390, "height": 844})
    page.locator("#gloves").check()
    box = seated.box(UNWORKED, "cone_3")
    box.focus()
    for figure in "275":
        page.locator(f"[data-key='{figure}']").click()

    pad, seen = page.locator(".keypad").bounding_box(), box.bounding_box()
    assert pad["height"] <= 0.45 * 844 + 1
    assert pad["y"] + pad["height"] == 844
    assert seen["y"] >= 0
    assert seen["y"] + seen["height"] <= pad["y"]
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    assert page.locator("main").bounding_box()["width"] == 390
    expect(box).to_have_value("275")

    page.get_by_role("button", name="Put away").click()
    expect(page.locator(".keypad")).to_be_hidden()
    expect(box).to_be_focused()


def test_a_remembered_keypad_is_not_laid_over_a_phone(seated):
    page = seated.page
    page.locator("#gloves").check()
    page.reload()
    expect(page.locator(".keypad")).to_be_visible()

    page.set_viewport_size({"width": 390, "height": 844})
    page.reload()

    expect(page.locator("h1")).to_be_visible()
    expect(page.locator(".keypad")).to_be_hidden()


def test_the_focus_comes_back_to_a_set_that_spreads_too_wide(seated):
    seated.box(UNWORKED, "penetrometer").select_option("PEN-01")
    seated.saved(UNWORKED, "penetrometer")
    seated.box(UNWORKED, "temperature").focus()
    seated.types("25.1", "Enter", "268", "Enter", "284", "Enter", "275", "Enter")

    seated.saved(UNWORKED, "cone_3")
    expect(seated.box(UNWORKED, "cone_3")).to_be_focused()


def test_a_change_without_its_reason_is_told_so_and_kept(seated):
    page, box = seated.page, seated.box(UNWORKED, "cone_1")
    kept = seated.kept(UNWORKED, "cone_1")
    box.focus()
    seated.types("272", "Enter")
    seated.saved(UNWORKED, "cone_1")
    box.focus()
    box.select_text()
    seated.types("273", "Enter")
    expect(kept).to_contain_text("272 was saved here before")

    kept.get_by_role("button", name="Change it").click()

    expect(kept).to_contain_text("Choose a reason, or write one.")
    expect(kept.get_by_label("Reason")).to_be_focused()
    expect(box).to_have_value("273")
    assert [row.text for row in Reading.objects.all()] == ["272"]
    page.set_viewport_size({"width": 390, "height": 844})

    kept.get_by_label("Reason").select_option("typing slip")
    kept.get_by_role("button", name="Change it").click()
    expect(kept).to_contain_text("changed: typing slip")
    expect(box).not_to_have_attribute("aria-invalid", "true")
    expect(box).to_have_attribute("data-saved", "273")
