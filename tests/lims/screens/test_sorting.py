"""Rows that a column cannot tell apart stand in the order of their keys, so that no page shows a row twice."""

import django_tables2 as tables
import pytest

from lims.methods.models import Characteristic
from lims.screens.sorting import Listing


class KindTable(Listing):
    kind = tables.Column()

    class Meta:
        order_by = "kind"


@pytest.mark.parametrize(
    ("asked", "order"), [(None, ("kind", "pk")), ("-kind", ("-kind", "pk"))]
)
def test_the_key_has_the_last_word(asked, order):
    table = KindTable(Characteristic.objects.all(), order_by=asked)

    assert table.data.data.query.order_by == order


def test_a_new_order_takes_the_place_of_the_old_one():
    table = KindTable(Characteristic.objects.all())

    table.order_by = "-kind"

    assert table.data.data.query.order_by == ("-kind", "pk")


def test_rows_that_are_a_list_stay_as_the_list_has_them():
    table = KindTable([{"kind": "b", "at": 1}, {"kind": "b", "at": 2}])

    assert [row.record["at"] for row in table.rows] == [1, 2]
