"""All characteristics of a product in one look."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from lims.products.models import Product
from lims.trends.asked import Asked, Where
from lims.trends.queries import small, trend
from tests.factories import bringing, history


def test_every_characteristic_with_a_value_is_there_in_the_order_of_the_bench(lot):
    assert [it.characteristic.code for it in small("LX2")] == [
        "appearance",
        "unworked-penetration",
        "worked-penetration",
        "prolonged-penetration-100000",
        "penetration-change-100000",
        "dropping-point-block",
        "oil-separation",
        "copper-strip",
    ]


def test_each_says_the_same_as_its_own_chart(kettle, manager):
    row = bringing.line(
        values=(bringing.value("281"), bringing.value("1b", "copper-strip"))
    )
    history.taken_in([row], by=manager)

    for where in Where:
        for found in small("LX2", where):
            alone = trend(Asked("LX2", found.characteristic.code, where))
            assert alone.series == found.series
            assert alone.spans == found.spans


def test_kettle_samples_are_in_a_look_of_their_own(kettle):
    assert [it.characteristic.code for it in small("LX2", Where.KETTLE)] == [
        "worked-penetration"
    ]
    assert small("LX2", Where.AFTER_MILL) == ()


def test_the_number_of_queries_does_not_grow(lot, manager):
    history.taken_in(history.lines(["281"]), by=manager)
    with CaptureQueriesContext(connection) as few:
        small("LX2")
    codes = ("water-washout-38", "oil-separation", "four-ball-weld")
    for place, code in enumerate(codes):
        rows = history.lines([f"1{place}0"] * 40, characteristic=code)
        history.taken_in(rows, by=manager, name=f"{code}.csv")

    with CaptureQueriesContext(connection) as many:
        found = small("LX2")

    assert len(found) == 10
    assert len(few) == len(many)


def test_a_product_that_is_not_here_is_refused(works):
    with pytest.raises(Product.DoesNotExist):
        small("NONE")
