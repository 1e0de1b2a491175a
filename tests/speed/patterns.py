"""The few lots that all others are copied from, each brought to its state by the actions that people use."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

from lims.batches.models import Batch
from lims.bench.actions import entering
from lims.certificates import actions as certificates
from lims.certificates.models import CertificateRevision
from lims.decisions import actions as decisions
from lims.decisions.review import review_of
from lims.people.queries import person
from lims.products.models import Customer
from lims.record import clock
from tests.factories import plant
from tests.factories.people import PASSWORD

NOW = plant.at("2026-03-09 11:20")
RELEASED, TESTED_LONG = "0318", "0310"  # the second carries the periodic test
AWAITING, ON_HOLD, ON_TEST = "0417", "0418", "0419"


@dataclass(frozen=True)
class Patterns:
    """The batches to copy, by what becomes of their lot."""

    released: Batch
    with_periodic: Batch
    awaiting: Batch
    on_hold: Batch
    on_test: Batch


def make(print_first: Callable[[CertificateRevision], object]) -> Patterns:
    """Found the plant and bring five batches to their states; the first paper is handed over to be printed."""
    plant.open_plant()
    told = {one["batch"][-4:]: one for one in plant.plant.told()["lots"]}
    earlier = [told[TESTED_LONG], told[RELEASED]]
    for one in earlier:
        one["lots"][0].pop("papers")
    plant.play(
        *earlier,
        plant.story(AWAITING, retain="R-98-01", leaves_on="2026-03-11"),
        plant.story(ON_HOLD, retain="R-98-02"),
        _begun_this_morning(),
        until="2026-03-09 11:20",
    )
    _hold()
    print_first(_issue(RELEASED))
    _read_two_cones()
    return Patterns(
        *(
            Batch.objects.get(number=f"Q1-26-{number}")
            for number in (RELEASED, TESTED_LONG, AWAITING, ON_HOLD, ON_TEST)
        )
    )


def _begun_this_morning() -> dict:
    """Sampled at half past seven: appearance read, the prolonged working running."""
    return plant.story(
        ON_TEST,
        retain="R-98-03",
        tests={"appearance": "met: amber, smooth", "prolonged": "W-2"},
        sample=["drum 3 of 30", "2026-03-09 07:30"],
        filled="2026-03-08 14:10",
    )


def _hold() -> None:
    lot = plant.lot(ON_HOLD)
    decisions.hold(
        fill_lot=lot,
        seen=review_of(lot).seen,
        password=PASSWORD,
        remark="Drums of this filling are searched for a foreign label.",
        by=person("mgr-1"),
    )


def _issue(number: str) -> CertificateRevision:
    desk = person("desk-1")
    allotment = certificates.allot(
        fill_lot=plant.lot(number),
        customer=Customer.objects.get(code="FA"),
        order="FA-0171",
        pack_count=5,
        by=desk,
    )
    return certificates.issue(allotment=allotment, by=desk)


def _read_two_cones() -> None:
    """The worked penetration stands before its third reading."""
    technician, clear = person("tech-a"), NOW - dt.timedelta(seconds=30)
    worked = plant.the_test("worked-penetration", ON_TEST)
    for key, text in (
        ("penetrometer", "PEN-01"),
        ("temperature", "25.1"),
        ("strokes_end", f"{clear.astimezone(plant.ZONE):%Y-%m-%d %H:%M:%S}"),
    ):
        entering.record_condition(test=worked, key=key, text=text, by=technician)
    for slot, text in (("cone_1", "279"), ("cone_2", "281")):
        clock.set_to(clock.now() + dt.timedelta(seconds=60))
        entering.record_reading(test=worked, slot=slot, text=text, by=technician)
