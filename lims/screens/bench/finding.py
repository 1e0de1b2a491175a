"""What the bench pages look up: a sample by what was typed or scanned, its tests with all they hold, the lines they are held against."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from django.db.models import Prefetch, QuerySet, prefetch_related_objects
from django.http import Http404

from lims.batches import queries as batches
from lims.batches.models import FillLot, HeldAgainst, Sample
from lims.bench.evaluation import procedure_of
from lims.bench.models import Condition, Determination, Reading, Test
from lims.bench.sets import current_of
from lims.methods.queries import WORKED_PENETRATION
from lims.people.models import Person
from lims.products.models import Product, Requirement
from lims.products.queries import in_force, kettle_target, requirements_of

LAST = 32767  # beyond every place of a set
KINDS = (
    Requirement.Kind.LIMIT,
    Requirement.Kind.REPORT_ONLY,
    Requirement.Kind.TYPICAL,
)


@dataclass(frozen=True)
class Asked:
    """The line that a test is held against, and the lines of customers beside it."""

    own: Requirement | None = None
    others: tuple[Requirement, ...] = ()


def sample_or_404(number: str) -> Sample:
    sample = (
        Sample.objects.select_related(
            "batch__product__sampling_plan", "fill_lot__batch__product", "retain"
        )
        .filter(number=number)
        .first()
    )
    if sample is None:
        raise Http404(f"No sample {number}")
    return sample


def by_code(typed: str) -> Sample | None:
    """The sample of a code: its own number, its fill lot's, or the place of its retain."""
    sample = batches.sample_by_number(typed)
    if sample is not None:
        return sample
    lot = batches.lot_by_number(typed)
    if lot is not None:
        return lot.samples.order_by("-counts", "-taken_at").first()
    retain = batches.retains().filter(place=typed.strip().upper()).first()
    return retain.sample if retain is not None else None


FIGURES = re.compile(r"\d{4}")
MOST = 6  # samples that are named


def open_by_figures(typed: str) -> list[Sample]:
    """The samples that still wait for a test, of the batches whose number ends with four figures."""
    if not FIGURES.fullmatch(typed.strip()):
        return []
    waiting = Test.objects.filter(
        state__in=(Test.State.DUE, Test.State.RUNNING),
        sample__batch__number__endswith=f"-{typed.strip()}",
    ).exclude(sample__fill_lot__state=FillLot.State.RELEASED)
    return list(
        Sample.objects.filter(pk__in=waiting.values("sample")).order_by("number")
    )


def not_opened(typed: str, several: Sequence[Sample]) -> str:
    """Why no sample is opened, and what to type instead."""
    if not typed:
        return "Scan or type the code of a sample, a fill lot or a retain."
    if several:
        named = ", ".join(it.number for it in several[:MOST])
        return f"“{typed}” fits several open samples: {named}. Type the whole number."
    return (
        f"No sample, fill lot or retain “{typed[:40]}” is known here. Check the figures, "
        "or register the sample under Batches."
    )


def tests_of(sample: Sample) -> list[Test]:
    """The tests of a sample in their order on the bench, with everything they hold."""
    return _with_sample(_tests().filter(sample=sample), sample)


def tests_beside(test: Test, known: Sequence[Test]) -> list[Test]:
    """A test as it stands now and those computed from it, of the tests that its sample has."""
    code = test.characteristic.code
    wanted = [
        each.pk
        for each in known
        if each.pk == test.pk or code in each.characteristic.derived_from.values()
    ]
    return _with_sample(_tests().filter(pk__in=wanted), test.sample)


def states_of(sample: Sample) -> list[Test]:
    """The tests of a sample with their states alone."""
    return list(
        Test.objects.filter(sample=sample)
        .select_related("characteristic")
        .order_by("characteristic__place", "id")
    )


def test_or_404(number: str, code: str) -> Test:
    test = (
        Test.objects.select_related(
            "characteristic",
            "sample__batch__product",
            "sample__fill_lot__batch__product",
        )
        .filter(sample__number=number, characteristic__code=code)
        .first()
    )
    if test is None:
        raise Http404(f"No test {code} of sample {number}")
    return test


def _tests() -> "QuerySet[Test]":
    readings: Prefetch[str] = Prefetch(
        "readings", Reading.objects.select_related("saved_by")
    )
    conditions: Prefetch[str] = Prefetch(
        "conditions", Condition.objects.select_related("saved_by", "instrument")
    )
    sets = Determination.objects.select_related(
        "begun_by", "set_aside_by"
    ).prefetch_related(readings, conditions)
    determinations: Prefetch[str] = Prefetch("determinations", sets)
    return (
        Test.objects.select_related("characteristic", "edition__method")
        .prefetch_related(determinations, "reported_values")
        .order_by("characteristic__place", "id")
    )


def _with_sample(rows: Iterable[Test], sample: Sample) -> list[Test]:
    found = list(rows)
    for test in found:
        test.sample = sample
    _fetch_curves(found)
    return found


def _fetch_curves(tests: Sequence[Test]) -> None:
    """Curves are fetched only where a procedure takes one."""
    sets = [
        it
        for test in tests
        if procedure_of(test.characteristic).takes_trace
        for it in test.determinations.all()
    ]
    prefetch_related_objects(sets, "traces__saved_by")


def current(test: Test) -> Determination | None:
    """The determination that readings go to now, from what was fetched."""
    return current_of(test.determinations.all(), asks=test.asks)


def sets(test: Test) -> list[Determination]:
    """Every set of a test in its order, also what was set aside."""
    return sorted(test.determinations.all(), key=lambda it: it.place)


def named(test: Test, place: str) -> Determination | None:
    """The set of a place as a page sent it; None for one that is not begun."""
    return next((it for it in sets(test) if str(it.place) == place), None)


def before(test: Test, determination: Determination | None) -> Determination | None:
    """The set before this one: the next is taken with the same instruments."""
    place = determination.place if determination is not None else LAST
    earlier = [it for it in sets(test) if it.place < place]
    return earlier[-1] if earlier else None


LATELY = 20  # of a person's instruments, newest first


def last_used(by: Person) -> dict[str, str]:
    """The instrument of each kind that a person used last; a kind of which several are used at once is not told."""
    rows = (
        Condition.objects.filter(saved_by=by, instrument__isnull=False)
        .exclude(key__startswith="vessel_")
        .order_by("-pk")
        .values_list("instrument__kind", "instrument__number")[:LATELY]
    )
    found: dict[str, str] = {}
    for kind, number in rows:
        found.setdefault(kind, number)
    return found


# ---- What it is held against


def held_against(sample: Sample) -> list[HeldAgainst]:
    if sample.fill_lot_id is None:
        return []
    return list(
        HeldAgainst.objects.filter(fill_lot=sample.fill_lot_id).select_related(
            "revision__specification__customer", "revision__specification__product"
        )
    )


def asked_of(sample: Sample, held: list[HeldAgainst]) -> dict[int, Asked]:
    """The lines by characteristic: the lot's own revision, or the kettle's target."""
    if sample.fill_lot_id is None:
        line = kettle_line(sample.batch.product)
        return {line.characteristic_id: Asked(line)} if line else {}
    own = {each.revision_id for each in held if each.is_own}
    revisions = {each.revision_id: each.revision for each in held}
    lines = Requirement.objects.filter(revision__in=revisions).select_related(
        "characteristic", "edition__method"
    )
    found: dict[int, Asked] = {}
    for line in sorted(lines, key=_order):
        line.revision = revisions[line.revision_id]
        _note(found, line, is_own=line.revision_id in own)
    return found


def _order(line: Requirement) -> tuple[int, int]:
    return KINDS.index(Requirement.Kind(line.kind)), line.pk


def _note(found: dict[int, Asked], line: Requirement, *, is_own: bool) -> None:
    known = found.get(line.characteristic_id, Asked())
    if is_own:
        known = replace(known, own=known.own or line)
    elif line.kind == Requirement.Kind.LIMIT:
        known = replace(known, others=(*known.others, line))
    found[line.characteristic_id] = known


def kettle_line(product: Product) -> Requirement | None:
    """The kettle's target as a line: the pack's limits less the offset, compared by the pack's own rule. Never saved."""
    target, revision = kettle_target(product), in_force(product)
    pack = (
        requirements_of(revision)
        .filter(characteristic__code=WORKED_PENETRATION, kind=Requirement.Kind.LIMIT)
        .first()
        if revision
        else None
    )
    if target is None or pack is None:
        return None
    return Requirement(
        characteristic=pack.characteristic,
        edition=pack.edition,
        kind=Requirement.Kind.LIMIT,
        lower=target.lower,
        upper=target.upper,
        internal_lower=target.internal_lower,
        internal_upper=target.internal_upper,
        typical=target.target,
        comparing=pack.comparing,
        rule=pack.rule,
    )


def periodic_to_add(asked: dict[int, Asked], tests: list[Test]) -> list[Requirement]:
    """The periodic lines of the lot's own revision that this sample is not asked for yet."""
    known = {test.characteristic_id for test in tests}
    return [
        each.own
        for pk, each in asked.items()
        if each.own is not None
        and each.own.scope == Requirement.Scope.PERIODIC
        and pk not in known
    ]
