"""Trends in the browser: readable by everybody at every width, asked with the keyboard alone, each point a way to its source."""

import pytest
from django.urls import reverse
from playwright.sync_api import expect

from lims.people.queries import person
from tests.browser import seeing
from tests.browser.driving import Seat
from tests.factories import history

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

ONE = ("trends:one", "LX2", "worked-penetration")
COMPARE = ("trends:compare", "LX2", "worked-penetration")
UNFIT = "the server responded with a status of 422"  # Chromium's word on a refused form


@pytest.fixture
def seat(works, page, live_server):
    lines = history.lines([280 + at % 7 for at in range(60)])
    history.taken_in(lines, by=person("mgr-1"))
    seat = Seat(page, live_server.url)
    seat.signs_in("mgr-1")
    return seat


def test_every_page_can_be_read_and_used_by_everybody(seat):
    found = []

    for name, *args, query in (
        ("trends:list", ""),
        ("trends:product", "LX2", ""),
        ("trends:product", "LX2", "?where=kettle"),
        (*ONE, ""),
        (*ONE, "?kettle=K9"),
        (*ONE, "?since=soon"),
        (*COMPARE, ""),
        (*COMPARE, "?a-kettle=K1&b-kettle=K2"),
    ):
        seat.goes(name, *args, query=query)
        found += seeing.look(seat.page, f"{name} {query}")
        found += [it for it in seat.said if UNFIT not in it]
        seat.said.clear()

    assert found == []


def test_a_chart_is_narrowed_with_the_keyboard_alone(seat):
    seat.goes(*ONE)
    seat.page.locator("#id_since").focus()

    seat.types("2024-05-01", "Enter")

    expect(seat.page.locator(".answer")).to_contain_text("1 May 2024")
    assert "since=2024-05-01" in seat.page.url


def test_the_address_opens_the_same_chart_elsewhere(seat, new_context):
    seat.goes(*ONE, query="?kettle=K1&along=batches&history=without")
    here = seat.page.locator(".trend .points a").count()

    other = Seat(new_context().new_page(), seat.server)
    other.signs_in("aud-1")
    other.page.goto(seat.page.url)

    assert other.page.locator(".trend .points a").count() == here > 0
    expect(other.page.locator("#id_kettle")).to_have_value("K1")


def test_a_point_leads_to_its_fill_lot(seat):
    seat.goes(*ONE, query="?lot=Q1-26-0310-A")

    seat.page.locator(".trend .points a").click()

    expect(seat.page).to_have_url(
        seat.server + reverse("batches:lot", args=["Q1-26-0310-A"])
    )


def test_a_narrow_window_scrolls_the_chart_and_not_the_page(seat):
    seeing.at_width(seat.page, seeing.PHONE)

    seat.goes(*ONE)

    chart = seat.page.locator(".scroll.drawn")
    assert seeing.too_wide(seat.page) <= 0
    assert chart.evaluate("it => it.scrollWidth > it.clientWidth")
    chart.focus()
    expect(chart).to_be_focused()


def test_on_paper_the_chart_fits_and_nothing_to_press_is_printed(seat):
    seat.goes(*ONE)

    seat.page.emulate_media(media="print")
    seeing.at_width(seat.page, 688)  # A4 between its margins

    box = seat.page.locator(".scroll.drawn svg").bounding_box()
    assert box["x"] + box["width"] <= 688
    expect(seat.page.get_by_role("button", name="Show")).to_have_count(0)
