"""A lot of LX2 as journey J1 has it: its specification in force, instruments, a pack sample at the bench."""

import datetime as dt

import pytest

from lims.batches import actions as batches
from lims.bench.actions.samples import add_test, receive_sample
from lims.methods import queries as methods
from lims.products.lines import Line
from lims.record import clock
from tests.factories import curves, instruments, products
from tests.factories.methods import with_reference
from tests.lims.screens.bench.sets import fill, put_aside

LIMIT = {"comparing": "rounding", "rule": "simple acceptance"}
FILLED = dt.datetime(2026, 3, 4, 13, 10, tzinfo=dt.UTC)
MORNING_AFTER = dt.datetime(2026, 3, 5, 6, 30, tzinfo=dt.UTC)
KINDS = {
    "PEN-01": "penetrometer",
    "W-2": "grease worker",
    "DP-01": "dropping point apparatus",
    "OX-1": "oxygen vessel",
    "OX-2": "oxygen vessel",
}


def _line(code, edition, **fields):
    return Line(
        characteristic=methods.characteristic(code),
        edition=methods.edition(*edition),
        **(LIMIT | fields),
    )


def _lines():
    cone = ("ASTM D217", "21a")
    return [
        _line("unworked-penetration", cone, kind="report only", comparing="", rule=""),
        _line(
            "worked-penetration",
            cone,
            lower="265",
            upper="295",
            internal_lower="270",
            internal_upper="290",
        ),
        _line("penetration-change-100000", cone, lower="-30", upper="+30"),
        _line("dropping-point-block", ("ASTM D2265", "20"), lower="190"),
        _line("oil-separation", _edition("oil-separation"), upper="5.0"),
        _line("copper-strip", _edition("copper-strip"), upper="1b"),
        _line(
            "oxidation-drop",
            _edition("oxidation-drop"),
            upper="70",
            scope="periodic",
            every_batches=20,
            every_months=6,
        ),
    ]


def _edition(code):
    found = methods.editions_for(methods.characteristic(code))[0]
    return found.method.designation, found.edition


@pytest.fixture
def lab(person):
    """Whoever the tests need, the specification in force, and the instruments checked."""
    with_reference()
    manager = person("laboratory_manager")
    for number, kind in KINDS.items():
        instruments.in_service(by=manager, number=number, kind=kind)
    product = products.product(by=manager)
    products.in_force(
        product, by=manager, approver=person("quality_manager"), lines=_lines()
    )
    return product


@pytest.fixture
def technician(person):
    return person("technician")


@pytest.fixture
def batch(lab, technician):
    return batches.register_batch(
        number="Q1-26-0417",
        product=lab,
        kettle="K1",
        mass_kg="6000",
        charged_on=dt.date(2026, 3, 3),
        by=technician,
    )


@pytest.fixture
def lot(batch, technician):
    clock.set_to(FILLED)
    return batches.register_fill_lot(
        batch=batch,
        pack="drum",
        pack_kg="180",
        pack_count=30,
        filled_at=FILLED,
        leaves_on=dt.date(2026, 3, 9),
        by=technician,
    )


@pytest.fixture
def sample(lot, technician):
    """The pack sample of lot A, received at half past seven the next morning."""
    clock.set_to(MORNING_AFTER)
    return receive_sample(
        batch=lot.batch,
        fill_lot=lot,
        place="pack",
        detail="drum 11 of 30",
        taken_at=MORNING_AFTER,
        taken_by="Tech-A",
        by=technician,
    )


@pytest.fixture
def bench(client, technician):
    """A client signed in as the technician, with a short way to send one box."""
    client.force_login(technician)
    return client


@pytest.fixture
def induction(sample, technician, person):
    """The test on the pack sample, with a calorimeter in service."""
    instruments.in_service(
        by=person("laboratory_manager"), number="DSC-1", kind="pressure DSC"
    )
    return add_test(
        sample=sample,
        characteristic=methods.characteristic(curves.INDUCTION),
        edition=methods.edition("ASTM D5483", "02"),
        by=technician,
    )


@pytest.fixture
def disagreeing(bench, sample):
    """Set 1 spread and was set aside; sets 2 and 3 differ by 8.67."""
    fill(bench, sample, "276", "284", "279")
    put_aside(bench, sample, 1)
    fill(bench, sample, "278", "281", "280")
    return fill(bench, sample, "287", "290", "288")
