"""Questions about certificates and the packs they are for."""

from django.db.models import Exists, F, OuterRef, Q, QuerySet, Subquery, Sum

from lims.batches.models import FillLot
from lims.certificates.models import Allotment, CertificateRevision
from lims.decisions.models import Decision, FrozenVerdict
from lims.products.models import Requirement, Revision
from specs.judging.verdicts import Verdict


def issued() -> QuerySet[CertificateRevision]:
    """Every revision that went out, newest first, with what the list shows."""
    return CertificateRevision.objects.select_related(
        "certificate__customer",
        "certificate__fill_lot__batch__product",
        "certificate__allotment",
        "issued_by",
    ).order_by("-certificate__year", "-certificate__sequence", "-revision")


def by_code(code: str) -> CertificateRevision | None:
    """The revision behind a check code; the same single look-up whether it exists or not."""
    return issued().filter(code=code).first()


def not_printed() -> QuerySet[CertificateRevision]:
    return CertificateRevision.objects.filter(file="").select_related("certificate")


def signed_limits(decision: Decision) -> QuerySet[FrozenVerdict]:
    """Every limit that a lot was held against when it was decided on: the plant's own, and its customers'."""
    return (
        FrozenVerdict.objects.filter(
            decision=decision, requirement__kind=Requirement.Kind.LIMIT
        )
        .select_related("requirement__characteristic")
        .order_by("requirement__line")
    )


def blocking(decision: Decision) -> QuerySet[FrozenVerdict]:
    """Those of them that it did not meet."""
    return signed_limits(decision).exclude(verdict=Verdict.MET)


def lots_with_packs_left() -> QuerySet[FillLot]:
    """Released lots of which something is left, as `left`: what must leave first stands first."""
    standing = Q(allotments__is_given_back=False)
    taken = Sum("allotments__pack_count", filter=standing, default=0)
    return (
        FillLot.objects.filter(state=FillLot.State.RELEASED)
        .annotate(taken=taken)
        .annotate(left=F("pack_count") - F("taken"))
        .filter(left__gt=0)
        .select_related("batch__product")
        .order_by(F("leaves_on").asc(nulls_last=True), "-state_since", "number")
    )


def lots_that_meet(revision: Revision) -> QuerySet[FillLot]:
    """Released lots with packs left that met every limit of a revision when they were released."""
    releases = Decision.objects.filter(
        fill_lot=OuterRef("pk"), disposition=Decision.Disposition.RELEASE
    ).order_by("-decided_at", "-pk")
    limits = FrozenVerdict.objects.filter(
        decision=OuterRef("release"),
        requirement__revision=revision,
        requirement__kind=Requirement.Kind.LIMIT,
    )
    return (
        lots_with_packs_left()
        .annotate(release=Subquery(releases.values("pk")[:1]))
        .filter(Exists(limits), ~Exists(limits.exclude(verdict=Verdict.MET)))
    )


def allotments_of(lot: FillLot) -> QuerySet[Allotment]:
    return (
        Allotment.objects.filter(fill_lot=lot)
        .select_related("customer", "allotted_by")
        .prefetch_related("certificate__revisions")
    )
