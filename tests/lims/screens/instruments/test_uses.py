"""The page of an instrument names the tests that it was used in."""

import pytest
from django.test import Client
from django.urls import reverse

from lims.people.queries import person
from tests.factories import plant


@pytest.fixture
def reader(db):
    plant.open_plant()
    plant.play(plant.story(), until="2026-03-09 09:00")
    client = Client()
    client.force_login(person("aud-1"))
    return client


def test_each_test_stands_once_the_latest_first(reader, django_assert_max_num_queries):
    with django_assert_max_num_queries(11):
        page = reader.get(reverse("instruments:one", args=["PEN-01"]))

    codes = [use.test.characteristic.code for use in page.context["uses"]]
    assert codes == [
        "prolonged-penetration-100000",
        "worked-penetration",
        "unworked-penetration",
    ]
    assert "Q1-26-0417-A-01" in page.content.decode()
