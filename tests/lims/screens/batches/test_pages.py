"""The pages of batches, fill lots and retains, as they are read."""

import html
import re

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from lims.certificates import actions
from lims.people.queries import person
from lims.products.models import Customer
from tests.factories import plant


@pytest.fixture
def played(db):
    """Batch 0310 released, 0417 A awaiting its decision; the kettle of 0420 was checked."""
    plant.open_plant()
    checked = plant.story("0420") | {
        "lots": [],
        "kettle_sample": {
            "taken": "2026-03-05 06:10",
            "by": "kettle operator",
            "tests": {"worked": "288 289 290"},
        },
    }
    plant.play(plant.periodic_pass(), plant.story(), checked)


def read(address, account="aud-1"):
    page = fetch(address, account)
    assert page.status_code == 200
    bare = re.sub(r"<[^>]*>", " ", page.content.decode())
    return " ".join(html.unescape(bare).split())


def fetch(address, account="aud-1"):
    client = Client()
    client.force_login(person(account))
    return client.get(address)


def test_the_list_answers_how_the_lots_stand(played):
    text = read(reverse("batches:list"))

    assert "3 batches. 1 fill lot awaits a decision; 1 is released." in text
    assert "Q1-26-0420 LX2 K1 6000 4 March 2026 none yet" in text


@pytest.mark.parametrize(
    ("query", "found"),
    [
        ("?state=released", {"0310"}),
        ("?number=041", {"0417"}),
        ("?product=PU2", set()),
        ("", {"0310", "0417", "0420"}),
    ],
)
def test_the_list_narrows_to_what_is_asked_for(played, query, found):
    text = read(reverse("batches:list") + query)

    assert set(re.findall(r"Q1-26-(\d{4})", text)) == found


def test_only_whoever_registers_batches_sees_the_button(played):
    address = reverse("batches:list")

    assert "Register a batch" in read(address, "chem-1")
    assert "Register a batch" not in read(address, "aud-1")


def test_the_list_asks_as_often_for_three_batches_as_for_one(played):
    assert queries_of("?number=0417") == queries_of("")


def queries_of(query):
    client = Client()
    client.force_login(person("aud-1"))
    with CaptureQueriesContext(connection) as asked:
        client.get(reverse("batches:list") + query)
    return len(asked)


def test_a_batch_shows_its_kettle_check_against_the_target(played):
    text = read(reverse("batches:batch", args=["Q1-26-0420"]))

    assert "Nothing of this batch is filled yet." in text
    assert "284, 269 to 299 × 0.1 mm" in text
    assert "Worked penetration 289 × 0.1 mm met" in text
    assert "An in-process check never stands for a finished test." in text


def test_a_fill_lot_shows_verdicts_samples_and_retain(played):
    text = read(reverse("batches:lot", args=["Q1-26-0417-A"]))

    assert "Awaiting decision: 7 of 7 requirements met." in text
    assert "from pack, drum 11 of 30" in text
    assert "R-12-04 , of sample Q1-26-0417-A-01" in text
    assert "No packs are allotted to an order." in text


def test_a_released_fill_lot_shows_its_orders_and_its_signature(played):
    actions.allot(
        fill_lot=plant.lot("0310"),
        customer=Customer.objects.get(code="TT"),
        order="TT-7702",
        pack_count=6,
        by=person("desk-1"),
    )

    text = read(reverse("batches:lot", args=["Q1-26-0310-A"]))

    assert "TT-7702 6 none yet" in text
    assert "reviewed and authorised" in text


@pytest.mark.parametrize("query", ["?q=R-12", "?q=Q1-26-0417+A", "?q=0417"])
def test_a_retain_is_found_by_place_and_by_lot(played, query):
    text = read(reverse("batches:retains") + query)

    assert "R-12-04 Q1-26-0417-A-01 Q1-26-0417 A" in text
    assert "R-11-02" not in text


@pytest.mark.parametrize(
    ("name", "number"),
    [
        ("batches:batch", "Q1-26-9999"),
        ("batches:lot", "Q1-26-9999-A"),
        ("batches:new-lot", "Q1-26-9999"),
        ("batches:retain", "Q1-26-9999-A-01"),
    ],
)
def test_an_unknown_number_is_not_found(played, name, number):
    assert fetch(reverse(name, args=[number]), "mgr-1").status_code == 404


def test_a_fill_lot_page_takes_a_bounded_number_of_queries(
    played, django_assert_max_num_queries
):
    client = Client()
    client.force_login(person("mgr-1"))

    with django_assert_max_num_queries(39):
        client.get(reverse("batches:lot", args=["Q1-26-0417-A"]))


def test_the_states_to_choose_from_are_in_the_words_of_the_marks(played):
    page = fetch(reverse("batches:list"), "aud-1").content.decode()

    assert '<option value="on test">on test</option>' in page


@pytest.mark.parametrize(
    ("name", "kind", "number"),
    [("lot", "fill lot", "Q1-26-0417-A"), ("batch", "batch", "Q1-26-0417")],
)
def test_its_record_is_all_that_is_about_it(played, name, kind, number):
    page = fetch(reverse(f"batches:{name}", args=[number]), "aud-1")

    address = reverse("record:about", args=[kind, number])
    assert f'<a href="{address}">Its record</a>' in page.content.decode()
    assert fetch(address, "aud-1").status_code == 200
