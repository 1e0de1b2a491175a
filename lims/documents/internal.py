"""The internal copy of a certificate, or of a fill lot that has none: everything behind its lines, made from the record when it is asked for. It is no certificate and leaves no house."""

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from django.db.models import Q

from lims.batches.models import FillLot
from lims.bench.models import ReportedValue, Test
from lims.certificates import packs
from lims.certificates.data import CertificateData
from lims.certificates.models import CertificateRevision
from lims.decisions.grounds import NOTHING, grounds_of
from lims.decisions.models import Decision, FrozenVerdict
from lims.decisions.queries import release_of
from lims.decisions.verdicts import Held, Line, held_of
from lims.documents.internal_lines import LineTold, Said, line_told
from lims.documents.internal_sets import TestTold, test_told
from lims.documents.pages import page
from lims.people.models import Person
from lims.people.queries import site_zone
from lims.products.models import Requirement
from lims.record.clock import now
from lims.record.models import Signature
from lims.record.queries import tail
from lims.record.refusals import WrongMove
from lims.wording import dates

HEADED = "Internal copy, not a certificate"
HEAD_DIGITS = 16
_TYPICAL = Requirement.Kind.TYPICAL


@dataclass(frozen=True, slots=True)
class InternalCopy:
    """What is printed, in words."""

    subject: str  # "certificate Q1-C-2026-00231, revision 0"
    record: str  # "record at entry 178, head 9f86d081884c7d65"
    facts: Said
    lines: tuple[LineTold, ...]
    also: tuple[TestTold, ...]  # asked by no line
    made_at: dt.datetime

    @property
    def title(self) -> str:
        return f"{HEADED}: {self.subject}"

    @property
    def running(self) -> str:
        return f"{self.subject} · {self.record}"


def print_internal(copy: InternalCopy) -> bytes:
    """The PDF of an internal copy."""
    from lims.documents.pdf import pressed  # late: it takes half a second

    return pressed(internal_html(copy), "internal.css", f"internal {copy.subject}")


def internal_html(copy: InternalCopy) -> str:
    """The page that is printed."""
    created = copy.made_at.isoformat(timespec="seconds")
    return page(
        "certificate/internal.html",
        {"copy": copy, "headed": HEADED, "created": created},
    )


def copy_of_certificate(issued: CertificateRevision, *, by: Person) -> InternalCopy:
    """What lies behind one revision of a certificate: its lines by the specification that it prints, as they were signed."""
    data = CertificateData.from_json(issued.data)
    lot = issued.certificate.fill_lot
    held = next(
        it
        for it in _as_decided(lot, issued.decision)
        if it.revision.pk == issued.held_against_id
    )
    return _copy(
        f"certificate {issued.certificate.number}, revision {issued.revision}",
        lot,
        held,
        issued.decision,
        by=by,
        numbers=_numbers(held, data),
        facts=(
            ("Certificate", f"{issued.certificate.number}, revision {issued.revision}"),
            ("State", issued.state),
            ("Issued", f"{_at(issued.issued_at)} by {issued.issued_by}"),
            ("Customer", str(issued.certificate.customer)),
            ("Quantity", data.quantity),
        ),
    )


def copy_of_lot(lot: FillLot, *, by: Person) -> InternalCopy:
    """What lies behind the plant's own lines of a fill lot, whether or not a certificate went out for it."""
    decision = release_of(lot)
    own = next((held for held in _as_decided(lot, decision) if held.is_own), None)
    if own is None:
        raise WrongMove(
            f"{lot} is held against no specification, so there is nothing to tell."
        )
    return _copy(f"fill lot {lot}", lot, own, decision, by=by)


def _as_decided(lot: FillLot, decision: Decision | None) -> tuple[Held, ...]:
    """A periodic result that was valid when the lot was decided on stays behind its line."""
    on = decision.decided_at.astimezone(site_zone()).date() if decision else None
    return held_of(lot, on=on)


def _numbers(held: Held, data: CertificateData) -> dict[int, int]:
    """The line on the paper by requirement, so that paper and copy can be laid side by side."""
    printed = {(row.characteristic, row.conditions): row.line for row in data.rows}
    found = {
        line.requirement.pk: printed.get(
            line.requirement.characteristic.named(data.language)
        )
        for line in held.lines
    }
    return {pk: line for pk, line in found.items() if line is not None}


def _copy(
    subject: str,
    lot: FillLot,
    held: Held,
    decision: Decision | None,
    *,
    by: Person,
    numbers: Mapping[int, int] | None = None,
    facts: Said = (),
) -> InternalCopy:
    record, made_at = tail(), now()
    lines = [it for it in held.lines if it.requirement.kind != _TYPICAL]
    tests = _tests(lot, lines)
    told = _told(lot, lines, tests, decision, numbers=numbers or {})
    return InternalCopy(
        subject=subject,
        record=f"record at entry {record.seq}, head {record.head[:HEAD_DIGITS]}",
        facts=(
            *facts,
            *_facts(lot, held, decision),
            ("Record", f"{record.seq} entries, head {record.head}"),
            ("Made", f"{_at(made_at)} for {by.name}"),
        ),
        lines=tuple(_each_test_once(sorted(told, key=lambda it: it.number))),
        also=_also(held.lines, lot, tests),
        made_at=made_at,
    )


def _told(
    lot: FillLot,
    lines: Sequence[Line],
    tests: Sequence[Test],
    decision: Decision | None,
    *,
    numbers: Mapping[int, int],
) -> list[LineTold]:
    grounds = grounds_of(lines, stated_until=decision.decided_at if decision else None)
    frozen: dict[int, FrozenVerdict] = (
        {it.requirement_id: it for it in decision.verdicts.all()} if decision else {}
    )
    return [
        line_told(
            line,
            numbers.get(line.requirement.pk, line.requirement.line),
            then=frozen.get(line.requirement.pk),
            ground=grounds.get(line.requirement.pk, NOTHING),
            tests=_tests_of(line, lot, tests),
        )
        for line in lines
    ]


def _each_test_once(lines: Iterable[LineTold]) -> Iterable[LineTold]:
    """Where a line comes from tests that an earlier line has told, it points there."""
    told: dict[str, int] = {}
    for line in lines:
        yield replace(
            line,
            tests=tuple(
                replace(it, sets=(), told_at=told[it.title]) if it.title in told else it
                for it in line.tests
            ),
        )
        told |= {it.title: line.number for it in line.tests if it.title not in told}


def _tests_of(line: Line, lot: FillLot, tests: Iterable[Test]) -> list[Test]:
    """The line's own tests and those that a computed value comes from: on the lot, and where its result was found."""
    characteristic = line.requirement.characteristic
    codes = {characteristic.code, *characteristic.derived_from.values()}
    lots = {lot.pk, line.result.lot.pk if line.result else lot.pk}
    return [
        test
        for test in tests
        if test.characteristic.code in codes and test.sample.fill_lot_id in lots
    ]


def _facts(lot: FillLot, held: Held, decision: Decision | None) -> Said:
    product = lot.batch.product
    return (
        ("Product", f"{product.code}, {product.name}"),
        ("Fill lot", f"{lot.batch} {packs.filled(lot, 'en')}"),
        ("Held against", str(held.revision)),
        ("Decided", _signed(decision.signature) if decision else "not decided"),
    )


def _signed(signature: Signature) -> str:
    return (
        f"{signature.meaning} by {signature.printed_name}, {signature.function}, "
        f"{_at(signature.at)}"
    )


def _tests(lot: FillLot, lines: Iterable[Line]) -> list[Test]:
    """The tests of the lot, and those elsewhere that a line's result comes from, with all that was read."""
    elsewhere = ReportedValue.objects.filter(
        test__in={line.result.test_id for line in lines if line.result}
    ).values("test__sample")
    return list(
        Test.objects.filter(Q(sample__fill_lot=lot) | Q(sample__in=elsewhere))
        .select_related("characteristic", "sample", "edition__method")
        .prefetch_related(
            "determinations__begun_by",
            "determinations__set_aside_by",
            "determinations__readings__saved_by",
            "determinations__readings__replaces",
            "determinations__conditions__saved_by",
            "determinations__conditions__replaces",
            "determinations__conditions__allowed__allowed_by",
            "determinations__traces",
        )
    )


def _also(
    lines: Iterable[Line], lot: FillLot, tests: Iterable[Test]
) -> tuple[TestTold, ...]:
    named: set[str] = set()
    for line in lines:
        characteristic = line.requirement.characteristic
        named |= {characteristic.code, *characteristic.derived_from.values()}
    return tuple(
        told
        for test in tests
        if test.sample.fill_lot_id == lot.pk and test.characteristic.code not in named
        if (told := test_told(test))
    )


def _at(moment: dt.datetime) -> str:
    return dates.day_time(moment, site_zone())
