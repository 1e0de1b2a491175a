"""Which tests a sample is asked for: the characteristics of the revisions its lot is held against, and what they are derived from."""

from collections.abc import Iterable

from lims.batches.models import FillLot, Sample
from lims.bench.models import Test
from lims.methods.models import Characteristic, MethodEdition
from lims.methods.queries import editions_for
from lims.products.models import Product, Requirement, Revision
from lims.record.refusals import WrongMove

Asked = dict[Characteristic, tuple[MethodEdition | None, bool]]  # edition, required


def asked_of_kettle(product: Product) -> Asked:
    """A kettle check: the worked penetration, by the method edition of the specification in force."""
    line = (
        Requirement.objects.select_related("characteristic", "edition")
        .filter(
            revision__state=Revision.State.IN_FORCE,
            revision__specification__product=product,
            revision__specification__customer=None,
            characteristic__procedure="cone penetration",
            characteristic__parameters__strokes="60",
        )
        .first()
    )
    if line is None:
        raise WrongMove(
            f"The specification in force of {product.code} asks for no worked "
            "penetration, so there is nothing to check in the kettle."
        )
    return {line.characteristic: (line.edition, True)}


def asked_of_lot(lot: FillLot) -> Asked:
    """What a finished sample of a lot is asked for: every line per fill lot, the lines per batch that no other lot of the batch has answered, never a periodic one."""
    asked: Asked = {}
    revisions = [held.revision_id for held in lot.held_against.all()]
    own = {held.revision_id for held in lot.held_against.all() if held.is_own}
    for line in (
        Requirement.objects.select_related("characteristic", "edition__method")
        .filter(revision__in=revisions)
        .exclude(scope=Requirement.Scope.PERIODIC)
        .exclude(kind=Requirement.Kind.TYPICAL)
    ):
        if line.scope == Requirement.Scope.BATCH and _asked_elsewhere(lot, line):
            continue
        is_required = line.revision_id in own and line.kind == Requirement.Kind.LIMIT
        _add(asked, line.characteristic, line.edition, is_required=is_required)
    for characteristic, (edition, is_required) in list(asked.items()):
        _add_sources(asked, characteristic, edition, is_required=is_required)
    return asked


def _asked_elsewhere(lot: FillLot, line: Requirement) -> bool:
    return (
        Test.objects.filter(
            sample__batch=lot.batch_id,
            sample__counts=True,
            characteristic=line.characteristic_id,
        )
        .exclude(sample__fill_lot=lot)
        .exists()
    )


def _add(
    asked: Asked,
    characteristic: Characteristic,
    edition: MethodEdition | None,
    *,
    is_required: bool,
) -> None:
    held_edition, held_required = asked.get(characteristic, (None, False))
    asked[characteristic] = (held_edition or edition, held_required or is_required)


def _add_sources(
    asked: Asked,
    characteristic: Characteristic,
    edition: MethodEdition | None,
    *,
    is_required: bool,
) -> None:
    """What a derived characteristic is computed from; a line of its own goes before it."""
    for source in sources_of(characteristic):
        named = edition_of(source, edition, [it for it, _ in asked.values()])
        _add(asked, source, named, is_required=is_required)
        _add_sources(asked, source, named, is_required=is_required)


def edition_of(
    source: Characteristic,
    edition: MethodEdition | None,
    known: Iterable[MethodEdition | None],
) -> MethodEdition | None:
    """The edition that a source is measured by: that of what is derived from it where it says how, else one named beside it, else any of the book that does."""
    for each in (edition, *known):
        if each is not None and source.code in each.characteristics:
            return each
    return next(iter(editions_for(source)), edition)


def sources_of(characteristic: Characteristic) -> list[Characteristic]:
    """The characteristics that a derived one is computed from."""
    codes = list(characteristic.derived_from.values())
    return list(Characteristic.objects.filter(code__in=codes)) if codes else []


def not_yet_asked(lot: FillLot, asked: Asked) -> Asked:
    """What no counting sample of the lot is asked for yet: a second sample does not test everything twice."""
    known = set(
        Test.objects.filter(sample__fill_lot=lot, sample__counts=True).values_list(
            "characteristic", flat=True
        )
    )
    return {c: what for c, what in asked.items() if c.pk not in known}


def number_of_next_sample(batch_number: str, lot: FillLot | None) -> str:
    """Q1-26-0417-A-01 for a finished sample, Q1-26-0417-K-01 for one from the process."""
    stem = lot.number if lot else f"{batch_number}-K"
    count = Sample.objects.filter(number__startswith=f"{stem}-").count()
    return f"{stem}-{count + 1:02d}"
