"""Leaves that share a name and differ by their conditions are told apart, also by a screen reader; and a share that means nothing says so at once."""

import pytest
from playwright.sync_api import expect

from lims.record import clock
from tests.browser import seeing
from tests.factories import plant
from tests.journeys import resting

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def test_the_leaves_of_a_rest_are_told_apart(transactional_db, own_files, bench):
    resting.works("289 291 290")
    clock.set_to(plant.at("2026-03-07 12:55"))
    bench.signs_in("tech-b")
    bench.opens(resting.SAMPLE)
    page = bench.page
    for hours in ("24 h at rest, undisturbed", "7 d at rest, undisturbed"):
        name = f"Structure recovery {hours}"
        expect(page.get_by_role("region", name=name)).to_have_count(1)

    code = resting.RESTED
    bench.box(code, "worker").select_option("W-2")
    bench.box(code, "started_at").focus()
    bench.types(resting.BEGAN, "Enter")
    bench.box(code, "penetrometer").select_option("PEN-01")
    bench.box(code, "temperature").focus()
    bench.types("25.0", "Enter")
    bench.saved(code, "worker", "started_at", "penetrometer", "temperature")
    for text in ("283", "285", "284"):
        bench.types(text, "Enter")

    expect(bench.outcome(resting.RECOVERY)).to_contain_text(
        "Not meaningful: softening +9 is within the repeatability 15."
    )
    expect(bench.verdict(resting.RECOVERY)).to_have_text("not evaluated")
    assert seeing.look(page, "after a rest") == []
