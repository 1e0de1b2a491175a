"""Letting a reading count from the bench: the link, the page, the reason told."""

import pytest
from django.urls import reverse

from lims.bench.actions import entering
from lims.bench.actions.allowing import allow_use
from lims.bench.models import Condition, UseAllowed
from lims.bench.reporting import active_value
from lims.documents.internal import copy_of_lot, internal_html
from lims.people.queries import person
from tests.factories import plant

CODE = "dropping-point-block"
REASON = "Ice point checked today: 0.1 °C."


@pytest.fixture
def overdue(db, client):
    """Measured with a thermometer that is overdue; the manager is signed in."""
    plant.open_plant()
    plant.play(plant.story(tests={}), until="2026-03-05 08:53")
    by = person("tech-a")
    entering.record_condition(
        test=plant.the_test(CODE), key="apparatus", text="TH-14", by=by
    )
    for slot, text in (
        ("observed_1", "186"),
        ("block_1", "232"),
        ("observed_2", "188"),
        ("block_2", "232"),
    ):
        entering.record_reading(test=plant.the_test(CODE), slot=slot, text=text, by=by)
    client.force_login(person("mgr-1"))
    return Condition.objects.get(key="apparatus")


def address(use, **change):
    given = {"number": plant.sample().number, "code": CODE, "key": use.pk} | change
    return reverse("bench:allow", kwargs=given)


def page_of(client):
    return client.get(
        reverse("bench:sample", args=[plant.sample().number])
    ).content.decode()


def test_a_reason_lets_it_count_and_is_told_at_the_bench_and_at_review(overdue, client):
    assert address(overdue) in page_of(client)
    assert "TH-14 was overdue" in client.get(address(overdue)).content.decode()

    answer = client.post(address(overdue), {"reason": REASON})

    assert answer.status_code == 303
    assert active_value(plant.the_test(CODE)).reported == "202"
    assert REASON in page_of(client)
    assert address(overdue) not in page_of(client)
    review = client.get(reverse("decisions:lot", args=[plant.lot().number]))
    assert "let it count" in review.content.decode()
    assert REASON in review.content.decode()


def test_the_internal_copy_names_who_let_it_count_and_why(overdue):
    by = person("mgr-1")
    lot = plant.lot()
    assert "let it count" not in internal_html(copy_of_lot(lot, by=by))

    allow_use(condition=overdue, reason=REASON, by=by)

    page = internal_html(copy_of_lot(lot, by=by))
    assert f"overdue; {by.name} let it count: {REASON}" in page


def test_no_reason_is_refused_and_a_long_one_is_kept(overdue, client):
    answer = client.post(address(overdue), {"reason": " "})
    assert answer.status_code == 422
    assert "Say why the reading may count." in answer.content.decode()

    long = "x" * 301
    answer = client.post(address(overdue), {"reason": long})
    assert answer.status_code == 422
    assert long in answer.content.decode()
    assert not UseAllowed.objects.exists()


def test_a_technician_sees_no_link_and_is_refused(overdue, client):
    client.force_login(person("tech-b"))

    assert address(overdue) not in page_of(client)
    answer = client.post(address(overdue), {"reason": REASON})
    assert answer.status_code == 403


def test_what_is_no_use_of_this_test_is_not_found(overdue, client):
    for change in ({"key": 0}, {"code": "worked-penetration"}):
        assert client.get(address(overdue, **change)).status_code == 404
