"""What the pages of one lot's packs, of one allotment and of one certificate show."""

from dataclasses import dataclass, replace
from typing import Any

from django.http import Http404

from lims.batches.models import FillLot
from lims.certificates import composing, queries, rules
from lims.certificates.data import CertificateData
from lims.certificates.models import Allotment, CertificateRevision
from lims.decisions.models import FrozenVerdict
from lims.decisions.queries import release_of
from lims.documents.finding import finding_words
from lims.documents.statement import statement_of
from lims.documents.words import Words
from lims.people.models import Person
from lims.people.permissions import Permission, allowed
from lims.people.rules import refusal_of
from lims.products.models import Revision
from lims.record.queries import entries
from lims.record.words import in_words
from lims.screens.certificates.forms import AllotForm, GiveBackForm, WishesForm
from lims.screens.certificates.words import left_words, quantity
from lims.screens.results import in_fours, product_words, shown_table
from lims.wording.languages import IN_ENGLISH
from specs.judging.verdicts import Verdict, worst


@dataclass(frozen=True)
class Given:
    """Packs of a lot allotted to an order, and the certificate that went out for them."""

    allotment: Allotment
    quantity: str
    number: str


@dataclass(frozen=True)
class Fit:
    """A specification that a lot is held against, and how its limits stood when the lot was released."""

    revision: Revision
    limits: list[FrozenVerdict]

    @property
    def verdict(self) -> str:
        return str(worst(Verdict(it.verdict) for it in self.limits))

    @property
    def whose(self) -> str:
        customer = self.revision.specification.customer
        return customer.name if customer else "customers without one of their own"

    @property
    def says(self) -> str:
        """Every line that stands in the way, or that none does."""
        if not self.limits:
            return "no requirement with a limit"
        blocking = [it for it in self.limits if it.verdict != Verdict.MET]
        told = "; ".join(rules.blocking_in_words(it) for it in blocking)
        return told or "every limit was met"


def allotment_or_404(pk: int) -> Allotment:
    found = (
        Allotment.objects.filter(pk=pk)
        .select_related(
            "fill_lot__batch__product__sampling_plan", "customer", "allotted_by"
        )
        .first()
    )
    if found is None:
        raise Http404
    return found


def revisions_or_404(number: str) -> list[CertificateRevision]:
    """Every revision of a certificate, the latest first."""
    found = queries.issued().filter(certificate__number=number.strip().upper())
    revisions = list(found)
    if not revisions:
        raise Http404
    return revisions


def packs_of(lot: FillLot, form: AllotForm) -> dict[str, Any]:
    """The page on which packs of a lot are allotted to an order."""
    left = rules.packs_left(lot)
    return {
        "lot": lot,
        "form": form,
        "left": left,
        "left_words": left_words(lot, left),
        "closed": refusal_of(rules.check_is_released)(lot),
        "fits": _fits(lot),
        "given": [_given(each, lot) for each in queries.allotments_of(lot)],
    }


def _fits(lot: FillLot) -> list[Fit]:
    """Whether the lot met each specification that it is held against, as it was signed; nothing where it is not released."""
    decision = release_of(lot)
    if decision is None:
        return []
    signed = list(queries.signed_limits(decision))
    return [
        Fit(
            each.revision,
            [it for it in signed if it.requirement.revision_id == each.revision_id],
        )
        for each in lot.held_against.select_related(
            "revision__specification__product", "revision__specification__customer"
        )
    ]


def _given(allotment: Allotment, lot: FillLot) -> Given:
    allotment.fill_lot = lot  # known already: no query for each
    certificate = getattr(allotment, "certificate", None)
    number = certificate.number if certificate else ""
    return Given(allotment, quantity(allotment), number)


def allotment_page(
    allotment: Allotment,
    by: Person,
    *,
    form: WishesForm | None = None,
    giving: GiveBackForm | None = None,
) -> dict[str, Any]:
    """The page on which a certificate is previewed and issued."""
    certificate = getattr(allotment, "certificate", None)
    language = allotment.customer.language
    is_open = certificate is None and not allotment.is_given_back
    return {
        "allotment": allotment,
        "certificate": certificate,
        "quantity": quantity(allotment),
        "is_open": is_open,
        "form": form or WishesForm(initial={"language": language}),
        "giving": giving or GiveBackForm(),
        "closed": refusal_of(check_can_be_issued)(allotment) if is_open else "",
        "may_issue": allowed(by, Permission.ISSUE_CERTIFICATES),
        "may_allot": allowed(by, Permission.ALLOT_PACKS),
    }


def check_can_be_issued(allotment: Allotment) -> None:
    """What issuing asks of the lot and the customer, before anybody presses the button."""
    decision = rules.check_is_released(allotment.fill_lot)
    revision = rules.revision_for(allotment.fill_lot, allotment.customer)
    rules.check_met_for(decision, revision)


def preview_data(allotment: Allotment, wishes: composing.Wishes) -> CertificateData:
    """The data of a preview: what would be issued now, without a number."""
    decision = rules.check_is_released(allotment.fill_lot)
    revision = rules.revision_for(allotment.fill_lot, allotment.customer)
    rules.check_met_for(decision, revision)
    return composing.compose(
        allotment=allotment, decision=decision, revision=revision, wishes=wishes
    )


def certificate_page(
    revisions: list[CertificateRevision], by: Person
) -> dict[str, Any]:
    """The page of one certificate: its latest revision, and those before it."""
    latest = revisions[0]
    data = CertificateData.from_json(latest.data)
    words = Words.of("en")
    return {
        "latest": latest,
        "certificate": latest.certificate,
        "revisions": revisions,
        "data": data,
        "answer": answer(latest, replace(data, language="en")),
        "product": product_words(data.product),
        "table": shown_table(data.rows, words),
        "statement": statement_of(data, words)[0],
        "words": words.phrases,
        "quantity": quantity(latest.certificate.allotment),
        "fingerprint": in_fours(latest.sha256),
        "address": f"{data.check_root}{latest.code}",
        "language": IN_ENGLISH[data.language],
        "may_print": not latest.file and allowed(by, Permission.ISSUE_CERTIFICATES),
        "history": [
            (entry, in_words(entry.verb))
            for entry in entries(about=latest.certificate)[:20]
        ],
    }


def answer(latest: CertificateRevision, data: CertificateData) -> str:
    """Whether the paper is still true, and what it says."""
    state = {
        CertificateRevision.State.CURRENT: "It is current",
        CertificateRevision.State.SUPERSEDED: "It is superseded",
        CertificateRevision.State.WITHDRAWN: "It is withdrawn",
    }[CertificateRevision.State(latest.state)]
    if not latest.file:
        state = "It is issued and still to be printed"
    return f"{state}. {finding_words(data)}"
