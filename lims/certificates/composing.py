"""The data of a certificate, put together from the record: what was decided, against which revision, for which packs."""

import datetime as dt
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from lims.batches.models import FillLot
from lims.certificates import packs, rules
from lims.certificates.data import (
    CertificateData,
    Dated,
    Evidence,
    Fact,
    Issuer,
    ProductNamed,
    RecordHead,
    Row,
    Ruled,
    Signed,
    Statement,
    TestedOn,
    numbered,
)
from lims.certificates.figures import signed_text
from lims.certificates.models import Allotment, CertificateRevision
from lims.decisions.models import Decision
from lims.decisions.rulings import ruling_of
from lims.decisions.verdicts import Line, held_of, months_after
from lims.people.models import Site
from lims.people.queries import site_zone, the_site
from lims.products.models import Product, Requirement, Revision
from lims.record.clock import now
from lims.record.models import Signature
from lims.record.refusals import WrongMove
from lims.wording.languages import Language, known
from specs.judging.rules import SIMPLE_ACCEPTANCE


@dataclass(frozen=True)
class Wishes:
    """What despatch adds for one certificate."""

    ship_to: str = ""
    delivery_note: str = ""
    part_number: str = ""
    language: str = ""


def compose(
    *,
    allotment: Allotment,
    decision: Decision,
    revision: Revision,
    wishes: Wishes,
    issued: CertificateRevision | None = None,
    record: RecordHead | None = None,
) -> CertificateData:
    """The data of a certificate, or of a preview when nothing is issued yet."""
    lot = allotment.fill_lot
    site = the_site()
    zone = site_zone()
    lines = _lines(lot, revision)
    rules.check_still_stands(decision, lines)
    moment = issued.issued_at if issued else now()
    language = known(wishes.language or allotment.customer.language)
    return CertificateData(
        number=issued.certificate.number if issued else None,
        revision=issued.revision if issued else None,
        language=language,
        issuer=_issuer(site),
        issued_at=moment.astimezone(zone).isoformat(timespec="seconds"),
        code=issued.code if issued else None,
        check_address=site.check_address,
        product=_product(lot.batch.product),
        batch=lot.batch.number,
        lot=lot.letter,
        lot_words=f"{lot.batch.product.code}, {lot}",
        quantity=packs.delivered(lot, allotment.pack_count, language),
        item=_item(lot, allotment, language),
        dates=_dates(lot, lines, zone),
        customer=_customer(allotment, revision, wishes),
        specification=f"specification {revision.specification}, revision {revision.number}",
        in_force_on=_in_force_on(revision),
        rows=numbered(
            _row(line, zone, language) for line in lines if _is_printed(line)
        ),
        typical=_typical(lines, language),
        statement=_statement(lot, lines),
        signatures=(_signed(decision.signature),),
        record=record,
    )


def _lines(lot: FillLot, revision: Revision) -> tuple[Line, ...]:
    for held in held_of(lot):
        if held.revision.pk == revision.pk:
            return held.lines
    raise WrongMove(f"{lot} is not held against {revision}.")


def _is_printed(line: Line) -> bool:
    """Every limit, and report-only lines that have a value."""
    return line.verdict is not None or line.result is not None


def _row(line: Line, zone: ZoneInfo, language: Language) -> Row:
    requirement = line.requirement
    characteristic = requirement.characteristic
    name, conditions = characteristic.named(language)
    return Row(
        line=requirement.line,
        characteristic=name,
        conditions=conditions,
        method=str(requirement.edition) if requirement.edition else "",
        unit=characteristic.unit,
        lower=signed_text(requirement.lower, characteristic) or None,
        upper=signed_text(requirement.upper, characteristic) or None,
        must=requirement.must or None,
        result=_result(line),
        verdict=line.verdict.value if line.verdict else "",
        evidence=_evidence(line),
        tested_on=_tested_on(line, zone),
        procedure=requirement.comparing,
        ruled=_ruled(requirement),
    )


def _ruled(requirement: Requirement) -> Ruled | None:
    """The rule of a line that accepts from other ends than its limits."""
    ruling = ruling_of(requirement)
    if ruling is None:
        return None
    characteristic = requirement.characteristic
    return Ruled(
        rule=ruling.rule,
        lower=signed_text(ruling.lower, characteristic),
        upper=signed_text(ruling.upper, characteristic),
        factor=ruling.factor,
        uncertainty=requirement.uncertainty,
        basis=ruling.basis,
        confidence=ruling.confidence,
    )


def _result(line: Line) -> str:
    if line.result is None:
        return ""
    return signed_text(line.result.reported, line.requirement.characteristic)


def _evidence(line: Line) -> Evidence:
    known: dict[str, Evidence] = {
        "tested on this batch": "tested on this batch",
        "periodic": "periodic",
    }
    return known.get(line.evidence, "tested on this lot")


def _tested_on(line: Line, zone: ZoneInfo) -> TestedOn | None:
    result = line.result
    if result is None or _evidence(line) == "tested on this lot":
        return None
    first = result.first_moment.astimezone(zone).date().isoformat()
    last = result.last_moment.astimezone(zone).date().isoformat()
    return TestedOn(
        batch=result.lot.batch.number,
        lot=result.lot.letter,
        first_day=first,
        last_day=last if last != first else "",
        valid_until=line.valid_until.isoformat() if line.valid_until else "",
        valid_batches=line.requirement.every_batches if line.batch_count else None,
    )


def _issuer(site: Site) -> Issuer:
    return Issuer(
        name=site.name,
        laboratory=site.laboratory,
        address=site.address,
        mail=site.mail,
    )


def _product(product: Product) -> ProductNamed:
    return ProductNamed(
        code=product.code, name=product.name, designation=product.designation
    )


def _item(lot: FillLot, allotment: Allotment, language: Language) -> tuple[Fact, ...]:
    product = lot.batch.product
    facts = [
        Fact("DIN 51502", product.designation),
        Fact("Fill lot", packs.filled(lot, language)),
        Fact("Delivered", packs.delivered(lot, allotment.pack_count, language)),
        Fact("Sample", _sample(lot)),
        Fact("SDS", product.safety_sheet),
    ]
    return tuple(fact for fact in facts if fact.value)


def _sample(lot: FillLot) -> str:
    sample = lot.samples.filter(counts=True).order_by("number").first()
    return sample.number if sample else ""


def _dates(lot: FillLot, lines: tuple[Line, ...], zone: ZoneInfo) -> tuple[Dated, ...]:
    def day(moment: dt.datetime) -> str:
        return moment.astimezone(zone).date().isoformat()

    dates = [Dated("Filled", day(lot.filled_at))]
    sample = lot.samples.filter(counts=True).order_by("number").first()
    if sample is not None:
        dates.append(Dated("Sampled", day(sample.taken_at)))
        dates.append(Dated("Received", day(sample.received_at)))
    results = [r for line in lines if (r := line.result) and r.lot.pk == lot.pk]
    if results:
        first = day(min(result.first_moment for result in results))
        last = day(max(result.last_moment for result in results))
        dates.append(Dated("Tested", first, last if last != first else ""))
    months = lot.batch.product.shelf_life_months
    if months is not None:
        filled = lot.filled_at.astimezone(zone).date()
        dates.append(Dated("Best before", months_after(filled, months).isoformat()))
    return tuple(dates)


def _customer(
    allotment: Allotment, revision: Revision, wishes: Wishes
) -> tuple[Fact, ...]:
    facts = [
        Fact("Customer", allotment.customer.name),
        Fact("Ship to", wishes.ship_to or allotment.customer.address),
        Fact("Order", allotment.order),
        Fact("Delivery note", wishes.delivery_note),
        Fact("Part number", wishes.part_number or revision.part_number),
    ]
    return tuple(fact for fact in facts if fact.value)


def _in_force_on(revision: Revision) -> str:
    if revision.in_force_on is None:
        raise WrongMove(f"{revision} is a draft; only a revision in force is printed.")
    return revision.in_force_on.isoformat()


def _typical(lines: tuple[Line, ...], language: Language) -> tuple[Fact, ...]:
    return tuple(
        Fact(
            ", ".join(filter(None, line.requirement.characteristic.named(language))),
            line.requirement.typical,
        )
        for line in lines
        if line.requirement.kind == Requirement.Kind.TYPICAL
    )


def _statement(lot: FillLot, lines: tuple[Line, ...]) -> Statement:
    limits = [
        line.requirement
        for line in lines
        if line.requirement.kind == Requirement.Kind.LIMIT
    ]
    plan = lot.batch.product.sampling_plan
    plain = [requirement for requirement in limits if ruling_of(requirement) is None]
    return Statement(
        rule=next((r.rule for r in plain or limits), SIMPLE_ACCEPTANCE),
        procedure=next((r.comparing for r in limits if r.comparing), ""),
        sampling_plan=f"plan {plan.code}",
        product_from=f"the {plan.places[0]}" if plan.places else "",
    )


def _signed(signature: Signature) -> Signed:
    at = signature.at.astimezone(ZoneInfo(signature.zone))
    return Signed(
        name=signature.printed_name,
        function=signature.function,
        meaning=signature.meaning,
        at=at.isoformat(timespec="seconds"),
        zone=signature.zone,
    )
