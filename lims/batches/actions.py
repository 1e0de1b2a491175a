"""What people do with batches and fill lots: register them, keep a retain, allow a decision without one."""

import datetime as dt

from lims.batches import rules
from lims.batches.models import (
    Batch,
    FillLot,
    HeldAgainst,
    Retain,
    RetainException,
    Sample,
)
from lims.people.days import check_sensible
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.products.models import Product, Revision
from lims.record.clock import now
from lims.record.filled import check_filled
from lims.record.gate import entry
from lims.record.refusals import BadInput


def register_batch(
    *,
    number: str,
    product: Product,
    kettle: str,
    mass_kg: str,
    charged_on: dt.date,
    by: Person,
) -> Batch:
    """Register one kettle charge under its number."""
    check(by, Permission.REGISTER_BATCHES)
    number = number.strip().upper()
    rules.check_batch_number(number)
    check_sensible(charged_on, field="charged_on")
    if charged_on > now().date() + dt.timedelta(days=1):
        raise BadInput(
            "The day of charging lies in the future. Register the batch when it is charged.",
            field="charged_on",
        )
    batch = Batch(
        number=number,
        product=product,
        kettle=kettle.strip(),
        mass_kg=rules.exact_mass(mass_kg, field="mass_kg"),
        charged_on=charged_on,
        registered_at=now(),
        registered_by=by,
    )
    rules.check_short_enough(batch, "mass_kg")
    check_filled(batch)
    with entry(by=by, verb="batch_registered", about=batch):
        rules.check_batch_number(number)
        batch.save()
    return batch


def register_fill_lot(
    *,
    batch: Batch,
    pack: str,
    pack_kg: str,
    pack_count: int,
    filled_at: dt.datetime,
    leaves_on: dt.date | None = None,
    order_note: str = "",
    by: Person,
) -> FillLot:
    """Register one filling run; it is held from now on against the revisions in force today."""
    check(by, Permission.REGISTER_BATCHES)
    rules.check_not_ahead(filled_at, field="filled_at", what="The time of filling")
    rules.check_pack_count(pack_count)
    if leaves_on is not None:
        check_sensible(leaves_on, field="leaves_on")
    kilograms = rules.exact_mass(pack_kg, field="pack_kg")
    with entry(by=by, verb="fill_lot_registered", about=batch) as record:
        letter = rules.next_letter(batch)
        lot = FillLot(
            batch=batch,
            letter=letter,
            number=f"{batch.number}-{letter}",
            pack=pack.strip(),
            pack_kg=kilograms,
            pack_count=pack_count,
            filled_at=filled_at,
            leaves_on=leaves_on,
            order_note=order_note.strip(),
            state_since=now(),
            registered_at=now(),
            registered_by=by,
        )
        record.about = lot
        rules.check_short_enough(lot, "pack_kg")
        check_filled(lot)
        lot.save()
        _hold_against_what_is_in_force(lot)
    return lot


def _hold_against_what_is_in_force(lot: FillLot) -> None:
    product = lot.batch.product
    in_force = Revision.objects.filter(
        state=Revision.State.IN_FORCE, specification__product=product
    ).select_related("specification__customer")
    own = [r for r in in_force if r.specification.customer_id is None]
    if not own:
        raise BadInput(
            f"Product {product.code} has no specification in force. A revision must be "
            "approved before a lot of it can be registered.",
            field="batch",
        )
    for revision in own:
        HeldAgainst(fill_lot=lot, revision=revision, is_own=True).save()
    for revision in in_force:
        if revision.specification.customer_id is not None:
            HeldAgainst(fill_lot=lot, revision=revision, is_own=False).save()


def keep_retain(*, sample: Sample, place: str, by: Person) -> Retain:
    """Note where the sealed retain of a sample stands."""
    check(by, Permission.KEEP_RETAINS)
    place = place.strip().upper()
    if not place:
        raise BadInput("Write or scan the place of the retain.", field="place")
    rules.check_may_keep(sample, place)
    retain = Retain(sample=sample, place=place, sealed_at=now(), sealed_by=by)
    check_filled(retain)
    with entry(by=by, verb="retain_kept", about=sample.fill_lot or sample):
        rules.check_may_keep(sample, place)
        retain.save()
    return retain


def allow_without_retain(*, fill_lot: FillLot, reason: str, by: Person) -> None:
    """Allow that a lot is decided on although no retain of it is kept."""
    check(by, Permission.ALLOW_WITHOUT_RETAIN)
    reason = " ".join(reason.split())
    if len(reason) < 3:
        raise BadInput("Say why there is no retain.", field="reason")
    rules.check_lacks_retain(fill_lot)
    row = RetainException(
        fill_lot=fill_lot, reason=reason, allowed_at=now(), allowed_by=by
    )
    check_filled(row)
    with entry(by=by, verb="allowed_without_retain", about=fill_lot, reason=reason):
        rules.check_lacks_retain(fill_lot)
        row.save()
