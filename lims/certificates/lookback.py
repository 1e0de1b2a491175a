"""Looking back after an instrument was found off: every result since it was last found right, what its bias may hide, and which papers carry it. Nothing is corrected here."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TypeVar

from lims.batches.models import Retain
from lims.bench.models import Condition, Determination, Test
from lims.bench.reporting import active_value
from lims.certificates.models import Certificate
from lims.instruments.failures import Failure
from lims.methods.models import OwnUncertainty
from lims.methods.queries import newest_at, own_uncertainties
from lims.products.models import Requirement
from specs.control.lookback import ORDER, Standing, Weighed, weigh
from specs.numbers import Number, NumberRefused

Row = TypeVar("Row")
NOTHING = Decimal(0)
CHANGE = {"worked": -1, "prolonged": 1}  # how a bias of each source moves the change


@dataclass(frozen=True)
class Looked:
    """One result that used the instrument, weighed against the limits of its product; `tighter` names the customers' limits that it may miss."""

    test: Test
    reported: str
    at: dt.datetime
    limits: str
    weighed: Weighed
    tighter: tuple[str, ...]
    uncertainty: Decimal | None
    papers: tuple[Certificate, ...]
    retains: tuple[Retain, ...]

    @property
    def standing(self) -> Standing:
        return self.weighed.standing

    @property
    def is_suspect(self) -> bool:
        return self.standing == Standing.SUSPECT


@dataclass(frozen=True)
class _Known:
    """What was asked once for all the results."""

    limits: Mapping[tuple[int, int], Sequence[Requirement]]  # by revision and what
    uncertainties: Mapping[int, Sequence[OwnUncertainty]]
    papers: Mapping[int, tuple[Certificate, ...]]
    retains: Mapping[int, tuple[Retain, ...]]


def looked_back(failure: Failure) -> list[Looked]:
    """The results between the last good finding and the failure: suspect ones first, then by what is left to the limit."""
    uses = _uses(failure)
    tests = _tests_beside({it.test.sample_id for it in uses.values()})
    known = _known(tests)
    beside: dict[int, list[Test]] = defaultdict(list)
    for test in tests:
        beside[test.sample_id].append(test)
    found = []
    for test in tests:
        used = uses.get(test.pk)
        if used is not None:
            found.append(_looked(test, used.begun_at, failure, known, sign=1))
        elif test.characteristic.is_derived:
            found.append(_derived(test, beside[test.sample_id], uses, failure, known))
    rows = [it for it in found if it is not None]
    return sorted(
        rows,
        key=lambda it: (
            ORDER.index(it.standing),
            not it.tighter,
            it.weighed.room or 0,
            it.at,
        ),
    )


def _uses(failure: Failure) -> dict[int, Determination]:
    """The determination that stands, by test, that used the instrument between the two ends."""
    rows = Condition.objects.filter(
        instrument=failure.instrument,
        replaced_by=None,
        determination__state=Determination.State.ACCEPTED,
        determination__begun_at__lte=failure.found.at,
    ).select_related("determination__test")
    if failure.before is not None:
        rows = rows.filter(saved_at__gt=failure.before.since)
    return {it.determination.test_id: it.determination for it in rows.order_by("pk")}


def _tests_beside(samples: Iterable[int]) -> list[Test]:
    return list(
        Test.objects.filter(sample__in=set(samples))
        .select_related("characteristic", "sample__fill_lot", "sample__batch__product")
        .prefetch_related(
            "reported_values",
            "sample__fill_lot__held_against__revision__specification__customer",
        )
    )


def _known(tests: Sequence[Test]) -> _Known:
    lots = {it.sample.fill_lot_id for it in tests if it.sample.fill_lot_id}
    revisions = {
        held.revision_id
        for it in tests
        if it.sample.fill_lot
        for held in it.sample.fill_lot.held_against.all()
    }
    limits: dict[tuple[int, int], list[Requirement]] = defaultdict(list)
    for line in Requirement.objects.filter(
        revision__in=revisions, kind=Requirement.Kind.LIMIT
    ):
        limits[line.revision_id, line.characteristic_id].append(line)
    papers = (
        Certificate.objects.filter(fill_lot__in=lots)
        .select_related("customer")
        .prefetch_related("revisions")
    )
    retains = Retain.objects.filter(sample__fill_lot__in=lots).select_related("sample")
    return _Known(
        limits=limits,
        uncertainties=own_uncertainties({it.characteristic for it in tests}),
        papers=_grouped((it.fill_lot_id, it) for it in papers),
        retains=_grouped((it.sample.fill_lot_id or 0, it) for it in retains),
    )


def _grouped(rows: Iterable[tuple[int, Row]]) -> dict[int, tuple[Row, ...]]:
    found: dict[int, list[Row]] = defaultdict(list)
    for key, row in rows:
        found[key].append(row)
    return {key: tuple(it) for key, it in found.items()}


def _derived(
    test: Test,
    beside: Sequence[Test],
    uses: Mapping[int, Determination],
    failure: Failure,
    known: _Known,
) -> Looked | None:
    """What was computed from results on the instrument: wholly, the bias mostly cancels; partly, it acts as it stands."""
    sources = {
        role: it
        for role, code in test.characteristic.derived_from.items()
        for it in beside
        if it.characteristic.code == code
    }
    touched = [role for role, it in sources.items() if it.pk in uses]
    if not touched:
        return None
    at = max(uses[sources[role].pk].begun_at for role in touched)
    if len(touched) == len(test.characteristic.derived_from):
        return _looked(test, at, failure, known, sign=0)
    is_change = set(test.characteristic.derived_from) == set(CHANGE)
    sign = CHANGE[touched[0]] if is_change and len(touched) == 1 else None
    return _looked(test, at, failure, known, sign=sign)


def _looked(
    test: Test, at: dt.datetime, failure: Failure, known: _Known, *, sign: int | None
) -> Looked | None:
    value = active_value(test)
    if value is None:
        return None
    lot = test.sample.fill_lot_id or 0
    bias = failure.bias if test.characteristic.unit == failure.unit else None
    moved = bias * sign if bias is not None and sign is not None else None
    stated = newest_at(known.uncertainties.get(test.characteristic_id, ()))
    own = Decimal(stated.uncertainty) if stated else None
    weighed, limits = Weighed(Standing.NO_LIMIT), ""
    tighter: list[str] = []
    for whose, line in _lines(test, known):
        found = _weigh(line, value.reported, moved, own)
        if not whose:
            weighed, limits = found, line.limits
        elif found.standing == Standing.SUSPECT and sign:
            tighter.append(f"{whose} {line.limits}")
    if sign == 0:
        weighed = Weighed(Standing.LOWER_RISK)
    return Looked(
        test=test,
        reported=value.reported,
        at=at,
        limits=limits,
        weighed=weighed,
        tighter=tuple(tighter),
        uncertainty=own,
        papers=known.papers.get(lot, ()),
        retains=known.retains.get(lot, ()),
    )


def _lines(test: Test, known: _Known) -> Iterator[tuple[str, Requirement]]:
    """The limits that the lot is held against, each with its customer; none for the product's own."""
    lot = test.sample.fill_lot
    for held in lot.held_against.all() if lot else ():
        customer = held.revision.specification.customer
        whose = "" if held.is_own or customer is None else customer.code
        for line in known.limits.get((held.revision_id, test.characteristic_id), ()):
            yield whose, line


def _weigh(
    line: Requirement, reported: str, bias: Fraction | None, own: Decimal | None
) -> Weighed:
    try:
        number = Number.stored(reported)
    except NumberRefused:
        return Weighed(Standing.NOT_KNOWN)
    return weigh(
        number.value,
        lower=Decimal(line.lower) if line.lower else None,
        upper=Decimal(line.upper) if line.upper else None,
        bias=None if number.is_censored else bias,
        uncertainty=own or NOTHING,
    )
