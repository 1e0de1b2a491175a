"""Receiving samples: each gets its number, its word on whether it counts, and the tests it is asked for."""

import datetime as dt

from lims.batches import rules
from lims.batches.models import Batch, FillLot, Sample
from lims.bench import asked, due
from lims.bench.models import Test
from lims.bench.reporting import settle_lot
from lims.bench.rules import check_takes_readings
from lims.methods.models import Characteristic, MethodEdition
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record.clock import now
from lims.record.gate import entry
from lims.record.refusals import BadInput, WrongMove


def receive_sample(
    *,
    batch: Batch,
    fill_lot: FillLot | None = None,
    place: str,
    detail: str = "",
    taken_at: dt.datetime,
    taken_by: str,
    by: Person,
) -> Sample:
    """Receive a sample from the kettle or from a fill lot and lay out its tests."""
    check(by, Permission.TAKE_SAMPLES)
    check_taken(fill_lot=fill_lot, place=place, taken_at=taken_at)
    with entry(by=by, verb="sample_received", about=fill_lot or batch) as record:
        sample = received(
            batch=batch,
            fill_lot=fill_lot,
            place=place,
            detail=detail,
            taken_at=taken_at,
            taken_by=taken_by,
            by=by,
        )
        if fill_lot is None:
            record.about = sample
    return sample


def received(
    *,
    batch: Batch,
    fill_lot: FillLot | None,
    place: str,
    detail: str,
    taken_at: dt.datetime,
    taken_by: str,
    by: Person,
) -> Sample:
    """Save a sample inside the open entry, with the tests that it is asked for."""
    fill_lot = _again(fill_lot)
    why_not = rules.why_it_does_not_count(lot=fill_lot, place=place, taken_at=taken_at)
    sample = Sample(
        number=asked.number_of_next_sample(batch.number, fill_lot),
        batch=batch,
        fill_lot=fill_lot,
        place=place,
        detail=detail.strip(),
        taken_at=taken_at,
        taken_by=taken_by.strip() or by.name,
        counts=not why_not,
        why_not=why_not,
        received_at=now(),
        received_by=by,
    )
    sample.save()
    _lay_out_tests(sample)
    settle_lot(fill_lot)
    return sample


def _again(lot: FillLot | None) -> FillLot | None:
    """The lot as the database has it now: it may have been released since it was read."""
    if lot is None:
        return None
    fresh = FillLot.objects.get(pk=lot.pk)
    check_takes_readings(Sample(fill_lot=fresh))
    return fresh


def check_taken(*, fill_lot: FillLot | None, place: str, taken_at: dt.datetime) -> None:
    """Refuse a sample that could not have been taken there and then."""
    if place not in Sample.Place.values:
        raise BadInput("Say where the sample was taken.", field="place")
    rules.check_not_ahead(taken_at, field="taken_at", what="The time of sampling")
    in_process = place in rules.IN_PROCESS
    if in_process and fill_lot is not None:
        raise BadInput(
            f"A sample from {place} belongs to the batch, not to a fill lot: it never "
            "stands for a finished test.",
            field="place",
        )
    if not in_process and fill_lot is None:
        raise BadInput(
            f"A sample from {place} belongs to a fill lot. Register the lot first.",
            field="place",
        )
    if fill_lot is not None:
        check_takes_readings(Sample(fill_lot=fill_lot))
        if taken_at < fill_lot.filled_at:
            raise BadInput(
                "The sample was taken before the lot was filled. Check both times.",
                field="taken_at",
            )


def _lay_out_tests(sample: Sample) -> None:
    lot = sample.fill_lot
    if lot is None:
        wanted = asked.asked_of_kettle(sample.batch.product)
    elif sample.counts:
        wanted = asked.not_yet_asked(lot, asked.asked_of_lot(lot))
    else:
        wanted = {}
    for characteristic, (edition, is_required) in wanted.items():
        _add(sample, characteristic, edition, is_required=is_required)


def _add(
    sample: Sample,
    characteristic: Characteristic,
    edition: MethodEdition | None,
    *,
    is_required: bool,
) -> Test:
    test = Test(
        sample=sample,
        characteristic=characteristic,
        edition=edition,
        due_at=due.due_at(
            characteristic,
            received_at=sample.received_at,
            is_in_process=sample.is_in_process,
        ),
        is_required=is_required,
    )
    test.save()
    return test


def add_test(
    *,
    sample: Sample,
    characteristic: Characteristic,
    edition: MethodEdition,
    by: Person,
) -> Test:
    """Ask a sample for one more test, such as a periodic one that falls due on its batch."""
    check(by, Permission.RECORD_READINGS)
    check_takes_readings(sample)
    if Test.objects.filter(sample=sample, characteristic=characteristic).exists():
        raise WrongMove(
            f"{sample} is asked for {characteristic} already. Open the sample to enter it."
        )
    with entry(by=by, verb="test_added", about=sample.fill_lot or sample):
        sample = Sample.objects.select_related("fill_lot").get(pk=sample.pk)
        check_takes_readings(sample)
        test = _add(sample, characteristic, edition, is_required=False)
        tests = sample.tests.select_related("edition")
        known = {it.characteristic_id: it.edition for it in tests}
        for source in asked.sources_of(characteristic):
            if source.pk not in known:
                named = asked.edition_of(source, edition, known.values())
                _add(sample, source, named, is_required=False)
    return test
