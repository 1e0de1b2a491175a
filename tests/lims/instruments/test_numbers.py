"""An instrument's number can stand in an address."""

import pytest

from lims.instruments import actions, queries
from lims.record.refusals import BadInput
from tests.factories import instruments


@pytest.mark.parametrize("number", ["new", "PEN/1", "-1", "PEN 1", "PEN-Ω1"])
def test_a_number_that_cannot_stand_in_an_address_is_refused(manager, number):
    with pytest.raises(BadInput) as refusal:
        actions.add_instrument(number=number, kind="oven", by=manager)

    assert refusal.value.field == "number"


def test_kinds_stand_once_in_their_order(manager):
    for number, kind in (("W-1", "worker"), ("CB-1", "oven"), ("CB-2", "oven")):
        instruments.instrument(by=manager, number=number, kind=kind)

    assert queries.kinds() == ["oven", "worker"]
