"""The queue of decisions: worst verdict first, the line that decides, and what is on hold."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from lims.decisions import actions as decisions
from lims.decisions.review import review_of
from lims.people.queries import person
from lims.screens.decisions.lasts import lasts_of
from tests.factories import plant
from tests.factories.people import PASSWORD
from tests.lims.screens.decisions.conftest import text_of

FAR_OUT = plant.READY | {"prolonged": "W-2: 313 315 314"}


@pytest.fixture
def three(opened):
    """One met that leaves late, one met that leaves soon, one not met."""
    plant.play(
        plant.periodic_pass(),
        plant.story("0417", leaves_on="2026-03-20"),
        plant.story(
            "0418", retain="R-12-05", leaves_on="2026-03-10", order_note="TT-9"
        ),
        plant.story("0419", retain="R-12-06", tests=FAR_OUT),
    )


def queue(signed_in, query="", account="mgr-1"):
    page = signed_in(account).get(reverse("decisions:list") + query)
    assert page.status_code == 200
    return text_of(page)


def test_nothing_waiting_is_said_with_the_next_step(opened, signed_in):
    text = queue(signed_in)

    assert "No fill lot awaits a decision." in text
    assert "See what is on test" in text
    assert "No fill lot is on hold." in text


def test_the_worst_verdict_stands_first_then_what_must_leave_first(three, signed_in):
    text = queue(signed_in)

    assert (
        "3 fill lots await a decision. 2 meet every requirement; "
        "1 has a requirement not met." in text
    )
    assert text.index("Q1-26-0419 A") < text.index("Q1-26-0418 A")
    assert text.index("Q1-26-0418 A") < text.index("Q1-26-0417 A")
    assert "must leave 10 March 2026" in text


def test_a_row_shows_the_line_that_decides(three, signed_in):
    text = queue(signed_in)

    assert "Change of penetration 4 above its upper limit +34" in text


def test_a_row_names_the_customers_whose_revision_is_not_met(three, signed_in):
    text = queue(signed_in)

    row_of_0417 = text[text.index("Q1-26-0417 A") :]
    assert "periodic not for OL" in row_of_0417


def test_the_measure_of_the_nearest_line_is_said(opened, signed_in):
    assert "nearest to a limit, by the width between its limits" in queue(signed_in)


def test_the_queue_narrows_to_a_product_or_to_lots_with_an_order(three, signed_in):
    ordered = queue(signed_in, "?order=yes")
    of_another = queue(signed_in, "?product=PU2")

    assert "Q1-26-0418 A" in ordered
    assert "Q1-26-0417 A" not in ordered
    assert "No waiting fill lot fits" in of_another


def test_a_page_number_beyond_the_end_shows_the_last_page(three, signed_in):
    assert "Q1-26-0417 A" in queue(signed_in, "?page=99")


def test_a_lot_on_hold_stands_apart_with_its_reason(three, signed_in):
    lot = plant.lot()
    decisions.hold(
        fill_lot=lot,
        seen=review_of(lot).seen,
        password=PASSWORD,
        remark="seal of a drum open",
        by=person("qm-1"),
    )

    text = queue(signed_in, account="aud-1")

    on_hold = text[text.index("On hold Stopped") :]
    assert "Q1-26-0417 A" in on_hold
    assert "seal of a drum open" in on_hold
    assert person("qm-1").name in on_hold


def test_the_queue_asks_as_often_for_three_lots_as_for_two(three, signed_in):
    client = signed_in("mgr-1")
    of_three = queries_of(client)
    plant.release(plant.lot("0418"))

    of_two = queries_of(client)

    assert of_two == of_three
    assert of_three <= 32


def queries_of(client):
    with CaptureQueriesContext(connection) as asked:
        client.get(reverse("decisions:list"))
    return len(asked)


def test_the_dots_are_released_lots_filled_before_this_one(three):
    earlier = plant.lot("0310")
    this = plant.lot()
    worked = plant.the_test("worked-penetration").characteristic_id

    found = lasts_of([this, earlier], {worked})

    assert found[this.pk] == {worked: ["279"]}
    assert found[earlier.pk] == {}
