"""What must hold of batches, fill lots and samples whoever acts: numbers, masses, times, and when a sample counts for release."""

import datetime as dt
import re

from django.db import models

from lims.batches.models import Batch, FillLot, Retain, RetainException, Sample
from lims.people.days import check_sensible
from lims.record.clock import now
from lims.record.refusals import BadInput, WrongMove
from specs.numbers import NumberRefused, read

BATCH_NUMBER = re.compile(r"[A-Z0-9]{1,4}-[0-9]{2}-[0-9]{4}")
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # of the fill lots of a batch
IN_PROCESS = (Sample.Place.KETTLE, Sample.Place.AFTER_MILL)


def check_batch_number(number: str) -> None:
    if not BATCH_NUMBER.fullmatch(number):
        raise BadInput(
            f"“{number}” is not a batch number of this site. Write it like "
            "Q1-26-0417: site, year, four figures (the figure 0, not the letter O).",
            field="number",
        )
    if Batch.objects.filter(number=number).exists():
        raise BadInput(
            f"Batch {number} is registered already. Open it, or take the next number.",
            field="number",
        )


def exact_mass(text: str, *, field: str) -> str:
    """A mass in kg as typed, when it is one: an exact number above nought."""
    try:
        number = read(text)
    except NumberRefused as refusal:
        raise BadInput(str(refusal), field=field) from refusal
    if number.sign or number.value <= 0:
        raise BadInput(
            "Write a mass in kg above 0, without < or >.",
            field=field,
        )
    return number.canonical


def check_short_enough(row: models.Model, field: str) -> None:
    """Refuse an exact number with more figures than are kept of it."""
    longest = getattr(row._meta.get_field(field), "max_length", None)
    if longest is not None and len(getattr(row, field)) > longest:
        raise BadInput("Write it with fewer digits.", field=field)


def next_letter(batch: Batch) -> str:
    """The letter of the next fill lot of a batch."""
    filled = batch.fill_lots.count()
    if filled >= len(LETTERS):
        raise WrongMove(
            f"Batch {batch} has {len(LETTERS)} fill lots already, as many as there are "
            "letters. Register the rest under a batch number of its own."
        )
    return LETTERS[filled]


def check_may_keep(sample: Sample, place: str) -> None:
    """Refuse a retain of a kettle sample, a second one, and a place that is taken."""
    if sample.is_in_process:
        raise WrongMove("Retains are kept of finished samples, not of kettle samples.")
    taken = Retain.objects.filter(place=place).select_related("sample").first()
    if taken is not None:
        raise BadInput(
            f"Place {place} holds the retain of {taken.sample}. Choose another place.",
            field="place",
        )
    if Retain.objects.filter(sample=sample).exists():
        raise WrongMove(f"The retain of {sample} is kept already.")


def check_lacks_retain(lot: FillLot) -> None:
    """Refuse an exception where a retain is kept, and a second exception."""
    if Retain.objects.filter(sample__fill_lot=lot, sample__counts=True).exists():
        raise WrongMove(f"A retain of {lot} is kept; no exception is needed.")
    if RetainException.objects.filter(fill_lot=lot).exists():
        raise WrongMove(f"{lot} may be decided on without a retain already.")


def check_not_ahead(moment: dt.datetime, *, field: str, what: str) -> None:
    if moment > now() + dt.timedelta(minutes=1):
        raise BadInput(
            f"{what} lies in the future. Write when it happened.", field=field
        )
    check_sensible(moment.date(), field=field)


def check_pack_count(count: int) -> None:
    if not 0 < count <= 100_000:
        raise BadInput(
            "Write how many packs were filled: a whole number from 1 to 100000.",
            field="pack_count",
        )


def why_it_does_not_count(
    *, lot: FillLot | None, place: str, taken_at: dt.datetime
) -> str:
    """Why a sample does not count for release by the product's sampling plan; empty when it counts."""
    if lot is None:
        return "An in-process check never stands for a finished test."
    plan = lot.batch.product.sampling_plan
    if place not in plan.places:
        return (
            f"Taken from {place}; plan {plan.code} counts samples from "
            f"{' or '.join(plan.places)}."
        )
    waited = taken_at - lot.filled_at
    if waited < dt.timedelta(hours=plan.hours_after_filling):
        hours = int(waited.total_seconds() // 3600)
        minutes = int(waited.total_seconds() % 3600 // 60)
        return (
            f"Taken {hours} h {minutes} min after filling; plan {plan.code} asks for at "
            f"least {plan.hours_after_filling} h. Take another sample."
        )
    return ""
