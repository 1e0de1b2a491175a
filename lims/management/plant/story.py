"""One lot of the story as steps in time: charged, filled, sampled, tested, decided on, delivered."""

import datetime as dt
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any
from zoneinfo import ZoneInfo

from lims.batches import actions as batches
from lims.batches.models import Batch, FillLot, Sample
from lims.bench.actions import samples
from lims.certificates import actions as certificates
from lims.certificates.composing import Wishes
from lims.decisions import actions as decisions
from lims.decisions.review import review_of
from lims.documents.printing import print_one
from lims.management.plant.testing import tests_of
from lims.people.queries import person
from lims.products.models import Customer, Product

ZONE = ZoneInfo("Europe/Berlin")
Passwords = Mapping[str, str]


@dataclass(frozen=True)
class Step:
    """Something that somebody does at a time."""

    at: dt.datetime
    play: Callable[[], object]


def moment(text: str) -> dt.datetime:
    """A time as the story writes it (2026-03-04 14:10), in the plant's zone."""
    return dt.datetime.fromisoformat(text).replace(tzinfo=ZONE)


def steps_of(told: Mapping[str, Any], passwords: Passwords) -> Iterator[Step]:
    """All steps of one batch, finished or not; whoever plays them stops at the present."""
    charged = moment(told["charged"])
    yield Step(charged, lambda: _register_batch(told, charged.date()))
    if "kettle_sample" in told:
        yield from _kettle_steps(told)
    for lot in told.get("lots", []):
        yield from _lot_steps(told["batch"], lot, passwords)


def _register_batch(told: Mapping[str, Any], charged_on: dt.date) -> None:
    batches.register_batch(
        number=told["batch"],
        product=Product.objects.get(code=told["product"]),
        kettle=told["kettle"],
        mass_kg=told["mass_kg"],
        charged_on=charged_on,
        by=person("chem-1"),
    )


def _kettle_steps(told: Mapping[str, Any]) -> Iterator[Step]:
    kettle = told["kettle_sample"]
    taken = moment(kettle["taken"])

    def receive() -> None:
        samples.receive_sample(
            batch=Batch.objects.get(number=told["batch"]),
            place="kettle",
            detail=told["kettle"],
            taken_at=taken,
            taken_by=kettle["by"],
            by=person("tech-b"),
        )

    received = taken + dt.timedelta(minutes=4)
    yield Step(received, receive)
    yield from _test_steps(f"{told['batch']}-K-01", kettle, received)


def _lot_steps(
    batch: str, told: Mapping[str, Any], passwords: Passwords
) -> Iterator[Step]:
    number = f"{batch}-{told['letter']}"
    filled = moment(told["filled"])
    yield Step(
        filled + dt.timedelta(minutes=20), lambda: _register_lot(batch, told, filled)
    )
    if "sample" not in told:
        return
    detail, taken_text = told["sample"]
    received = moment(taken_text)
    taken = received - dt.timedelta(minutes=10)
    yield Step(received, lambda: _receive(number, detail, taken))
    if told.get("retain"):
        yield Step(
            received + dt.timedelta(minutes=2), lambda: _keep(number, told["retain"])
        )
    yield from _test_steps(f"{number}-01", told, received)
    yield from _after_testing(number, told, passwords)


def _register_lot(batch: str, told: Mapping[str, Any], filled: dt.datetime) -> None:
    pack, kilograms, count = told["packs"]
    leaves = told.get("leaves_on")
    batches.register_fill_lot(
        batch=Batch.objects.get(number=batch),
        pack=pack,
        pack_kg=kilograms,
        pack_count=count,
        filled_at=filled,
        leaves_on=dt.date.fromisoformat(leaves) if leaves else None,
        order_note=told.get("order_note", ""),
        by=person("chem-1"),
    )


def _receive(number: str, detail: str, taken: dt.datetime) -> None:
    lot = FillLot.objects.get(number=number)
    samples.receive_sample(
        batch=lot.batch,
        fill_lot=lot,
        place="pack",
        detail=detail,
        taken_at=taken,
        taken_by="",
        by=person("tech-a"),
    )


def _keep(number: str, place: str) -> None:
    sample = Sample.objects.get(number=f"{number}-01")
    batches.keep_retain(sample=sample, place=place, by=person("tech-a"))


def _test_steps(
    sample: str, told: Mapping[str, Any], received: dt.datetime
) -> Iterator[Step]:
    for at, play in tests_of(
        sample, told["tests"], received, told.get("tester", "tech-a")
    ):
        yield Step(at, play)


def _after_testing(
    number: str, told: Mapping[str, Any], passwords: Passwords
) -> Iterator[Step]:
    if "held" in told:
        at, remark = told["held"]
        yield Step(moment(at), lambda: _hold(number, remark, passwords))
    if "released" in told:
        yield Step(moment(told["released"]), lambda: _release(number, passwords))
    for paper in told.get("papers", []):
        yield Step(moment(paper["issued"]), lambda paper=paper: _issue(number, paper))  # type: ignore[misc]


def _release(number: str, passwords: Passwords) -> None:
    lot = FillLot.objects.get(number=number)
    decisions.release(
        fill_lot=lot,
        seen=review_of(lot).seen,
        password=passwords["mgr-1"],
        by=person("mgr-1"),
    )


def _hold(number: str, remark: str, passwords: Passwords) -> None:
    lot = FillLot.objects.get(number=number)
    decisions.hold(
        fill_lot=lot,
        seen=review_of(lot).seen,
        password=passwords["mgr-1"],
        remark=remark,
        by=person("mgr-1"),
    )


def _issue(number: str, paper: Mapping[str, Any]) -> None:
    allotment = certificates.allot(
        fill_lot=FillLot.objects.get(number=number),
        customer=Customer.objects.get(code=paper["customer"]),
        order=paper["order"],
        pack_count=paper["packs"],
        by=person("desk-1"),
    )
    if paper.get("certificate", True):
        issued = certificates.issue(
            allotment=allotment,
            wishes=Wishes(delivery_note=paper.get("note", "")),
            by=person("desk-1"),
        )
        print_one(issued, by=person("desk-1"))
