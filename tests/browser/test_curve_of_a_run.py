"""The curve of a pressure DSC run at the page: its file chosen, its lines appear as the times are typed, it is accepted under them, and the next run follows."""

import pytest
from playwright.sync_api import expect

from lims.record import clock
from tests.browser import seeing
from tests.factories import curves, plant

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SAMPLE, CODE = "Q1-26-0417-A-01", curves.INDUCTION


@pytest.fixture
def induction(sampled, bench):
    clock.set_to(plant.at("2026-03-05 08:10"))
    curves.ask_for_induction()
    bench.signs_in("tech-a")
    bench.opens(SAMPLE)
    return bench


def reads_in(bench, minutes, name):
    content = curves.run_of(minutes)
    bench.page.locator(f"#{CODE}-trace").set_input_files(
        {"name": name, "mimeType": "text/csv", "buffer": content}
    )
    with bench.page.expect_navigation():  # what is typed next belongs to the new page
        bench.page.get_by_role("button", name="Read the curve in").click()


def types_times(bench):
    bench.box(CODE, "calorimeter").focus()
    expect(bench.box(CODE, "calorimeter")).to_have_value("DSC-1")
    bench.types("Enter")
    bench.box(CODE, "temperature").select_option("180")
    for key, text in curves.TIMES.items():
        bench.box(CODE, key).focus()
        bench.types(text, "Enter")
        bench.saved(CODE, key)
    bench.saved(CODE, "calorimeter", "temperature")


def test_a_run_from_its_file_to_its_acceptance(induction):
    bench, page = induction, induction.page
    shown = page.locator(f"#curves-{CODE}")
    expect(shown).to_contain_text("No curve yet.")
    reads_in(bench, 23, "run-1.csv")
    expect(shown.locator("svg .line")).to_have_count(1)
    expect(shown.locator("svg .fitted")).to_have_count(0)
    expect(page.get_by_role("button", name="Accept the curve")).to_have_count(0)

    types_times(bench)

    expect(shown.locator("svg .fitted")).to_have_count(1)
    expect(shown.locator("svg .extended")).to_have_count(2)
    expect(shown).to_contain_text("Onset at 28 min of the curve")
    assert seeing.look(page, "the curve of a run") == []
    assert seeing.small_targets(page) == []

    page.get_by_role("button", name="Accept the curve").click()

    expect(page.locator(f"#says-{CODE}")).to_contain_text(
        "A second determination is asked for"
    )
    expect(shown.get_by_text("Curve of set 1, accepted")).to_be_visible()
    reads_in(bench, 24, "run-2.csv")
    types_times(bench)
    page.get_by_role("button", name="Accept the curve").click()
    expect(page.locator(f"#line-{CODE}")).to_contain_text("23.5")
    assert bench.said == []
