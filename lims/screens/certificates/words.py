"""Amounts and sentences about packs and papers."""

from collections.abc import Mapping
from decimal import Decimal

from lims.batches.models import FillLot
from lims.certificates.models import Allotment, CertificateRevision
from lims.certificates.packs import counted
from lims.people.permissions import listed
from lims.wording.numbers import NO_BREAK, counts

State = CertificateRevision.State


def mass_of(allotment: Allotment) -> Decimal:
    """The net mass of the packs, exact."""
    lot = allotment.fill_lot
    return Decimal(lot.pack_kg) * allotment.pack_count


def mass(allotment: Allotment) -> str:
    """``1 080`` or ``234.5``: kilograms, the thousands apart."""
    whole, mark, decimals = format(mass_of(allotment), "f").partition(".")
    return f"{counts(int(whole))}{mark}{decimals}"


def quantity(allotment: Allotment) -> str:
    """``4 drums, 720 kg net``."""
    packs = counted(allotment.pack_count, allotment.fill_lot.pack)
    return f"{packs}, {mass(allotment)}{NO_BREAK}kg net"


def left_words(lot: FillLot, left: int) -> str:
    """``26 of 30 drums``."""
    return f"{left} of {counted(lot.pack_count, lot.pack)}"


def answer(count: Mapping[str, int], printing: int) -> str:
    """Which papers went out and whether they are still true."""
    total = sum(count.values())
    if not total:
        return "No certificate has been issued yet."
    gone = [
        f"{count[state]} {'is' if count[state] == 1 else 'are'} {state.value}"
        for state in (State.SUPERSEDED, State.WITHDRAWN)
        if count.get(state)
    ]
    if gone:
        but = total - count.get(State.CURRENT, 0)
        told = f"All papers out are true but {but}: {listed(gone, 'and')}."
    elif total == 1:
        told = "One certificate went out; it is current."
    else:
        told = f"{counts(total)} certificates went out; all are current."
    if printing:
        is_or_are = "is" if printing == 1 else "are"
        told += f" {printing} {is_or_are} issued and still to be printed."
    return told
