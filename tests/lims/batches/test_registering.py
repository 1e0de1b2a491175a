"""Batches and fill lots are registered under checked numbers and held against what is in force that day."""

import datetime as dt

import pytest
from django.db import Error, connection, transaction

from lims.batches import actions, queries
from lims.batches.models import Batch, FillLot
from lims.batches.moves import MOVES, check_move
from lims.people.queries import person as person_of
from lims.products.actions import add_product
from lims.products.models import Product
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import plant

State = FillLot.State


@pytest.fixture
def chem(db):
    plant.open_plant()
    return person_of("chem-1")


def register(by, **given):
    return actions.register_batch(
        **{
            "number": "Q1-26-0417",
            "product": Product.objects.get(code="LX2"),
            "kettle": "K1",
            "mass_kg": "6000",
            "charged_on": dt.date(2026, 3, 4),
            "by": by,
        }
        | given
    )


def fill(by, batch, **given):
    return actions.register_fill_lot(
        **{
            "batch": batch,
            "pack": "drum",
            "pack_kg": "180",
            "pack_count": 30,
            "filled_at": plant.at("2026-03-04 07:50"),
            "by": by,
        }
        | given
    )


@pytest.mark.parametrize(
    "number", ["0417", "Q1-26-O417", "Q1/26/0417", "Q1-26-417", ""]
)
def test_a_number_of_another_form_is_refused(chem, number):
    with pytest.raises(BadInput, match="batch number"):
        register(chem, number=number)


def test_a_number_is_used_once(chem):
    register(chem)

    with pytest.raises(BadInput, match="registered already"):
        register(chem)


@pytest.mark.parametrize("mass", ["0", "-5", ">6000", "6 000", "six"])
def test_a_mass_is_a_number_above_nought(chem, mass):
    with pytest.raises(BadInput):
        register(chem, mass_kg=mass)


def test_a_batch_is_not_charged_in_the_future(chem):
    with pytest.raises(BadInput, match="future"):
        register(chem, charged_on=dt.date(2026, 3, 9))


def test_despatch_registers_no_batch(chem):
    with pytest.raises(NotAllowed):
        register(person_of("desk-1"))


def test_the_next_number_follows_the_highest(chem):
    register(chem)

    assert queries.next_number("Q1", 2026) == "Q1-26-0418"
    assert queries.next_number("Q1", 2027) == "Q1-27-0001"


def test_a_lot_is_held_against_its_own_revision_first_then_the_customers(chem):
    lot = fill(chem, register(chem))

    held = [(str(h.revision), h.is_own) for h in lot.held_against.all()]
    assert held == [("LX2 revision 5", True), ("OL for LX2 revision C", False)]


def test_lots_of_a_batch_get_the_letters_in_order(chem):
    batch = register(chem)

    first, second = fill(chem, batch), fill(chem, batch, pack="pail", pack_kg="18")

    assert (first.number, second.number) == ("Q1-26-0417-A", "Q1-26-0417-B")
    assert str(second) == "Q1-26-0417 B"


@pytest.mark.parametrize("count", [0, -1, 100_001])
def test_packs_are_counted(chem, count):
    with pytest.raises(BadInput):
        fill(chem, register(chem), pack_count=count)


def test_a_lot_of_a_product_without_a_specification_is_refused_whole(chem):
    product = Product.objects.get(code="CS2")
    batch = register(chem, number="Q1-26-0001", product=product)
    bare = _without_specification(chem)

    with pytest.raises(BadInput, match="no specification in force"):
        fill(chem, register(chem, number="Q1-26-0002", product=bare))

    assert FillLot.objects.filter(batch__product=bare).count() == 0
    assert fill(chem, batch).letter == "A"


def _without_specification(by):
    return add_product(
        code="NEW1",
        name="a grease still to be specified",
        family="clay",
        sampling_plan=Product.objects.get(code="LX2").sampling_plan,
        by=by,
    )


def test_a_lot_is_found_as_written_and_as_scanned(chem):
    lot = fill(chem, register(chem))

    assert queries.lot_by_number("q1-26-0417 a") == lot
    assert queries.lot_by_number("Q1-26-0417-A") == lot
    assert queries.lot_by_number("Q1-26-0999 A") is None


def test_every_pair_of_states_is_decided():
    allowed = {
        (State.ON_TEST, State.AWAITING_DECISION),
        (State.ON_TEST, State.ON_HOLD),
        (State.AWAITING_DECISION, State.ON_TEST),
        (State.AWAITING_DECISION, State.RELEASED),
        (State.AWAITING_DECISION, State.ON_HOLD),
        (State.RELEASED, State.ON_HOLD),
        (State.ON_HOLD, State.ON_TEST),
        (State.ON_HOLD, State.AWAITING_DECISION),
    }
    refused = {
        (State.ON_TEST, State.RELEASED),
        (State.RELEASED, State.ON_TEST),
        (State.RELEASED, State.AWAITING_DECISION),
        (State.ON_HOLD, State.RELEASED),
    }
    pairs = {(a, b) for a in State for b in State if a != b}

    assert set(MOVES) == allowed
    assert allowed | refused == pairs


@pytest.mark.parametrize(
    ("state", "to"),
    [(a, b) for a in State for b in State if (a, b) not in MOVES],
)
def test_a_move_that_is_not_in_the_table_says_what_to_do(chem, state, to):
    lot = fill(chem, register(chem))
    lot.state = state

    with pytest.raises(WrongMove) as told:
        check_move(lot=lot, to=to)

    assert str(lot) in told.value.sentence


def test_a_kettle_sample_that_counts_is_refused_by_the_database(chem):
    batch = register(chem)

    with pytest.raises(Error), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(
            "INSERT INTO batches_sample (number, batch_id, place, detail, taken_at,"
            " taken_by, counts, why_not, received_at, received_by_id) VALUES"
            " ('x', %s, 'kettle', '', '2026-03-04', '', true, '', '2026-03-04', %s)",
            [batch.pk, chem.pk],
        )
    assert Batch.objects.count() == 1
