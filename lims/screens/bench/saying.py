"""What a test says for itself: verdict, figure, ruler and one line of reason, all from the server's own functions."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from lims.bench.evaluation import procedure_of
from lims.bench.models import Determination, ReportedValue, Test
from lims.bench.reporting import active_value
from lims.decisions.verdicts import judgement
from lims.methods.models import Characteristic
from lims.products.models import Requirement
from lims.screens.bench import notes, ruling, runs, vessels
from lims.screens.bench.finding import Asked, current
from lims.screens.bench.lacking import as_sentence, why_not_yet
from lims.wording.limits import limits
from specs.judging.verdicts import Verdict
from specs.methods.penetration import SCALE
from specs.numbers import Number, NumberRefused, shortened

Last = Mapping[int, Sequence[str]]


@dataclass(frozen=True)
class Other:
    """A customer's own limits and the verdict against them."""

    customer: str
    code: str
    limits: str
    verdict: str


@dataclass(frozen=True)
class Said:
    """The outcome beside an entry. `drawn` names the ruler, `values` is what it is given."""

    verdict: str = ""
    figure: str = ""
    unit: str = ""
    signed: bool = False
    pending: bool = False
    drawn: str = ""
    values: Mapping[str, Any] = field(default_factory=dict)
    reason: str = ""
    notes: tuple[str, ...] = ()
    others: tuple[Other, ...] = ()
    table: vessels.Table | None = None

    @property
    def unmet_for(self) -> list[str]:
        """The codes of the customers whose own limits are not met."""
        return [it.code for it in self.others if it.verdict == Verdict.NOT_MET]


def outcome(test: Test, asked: Asked, last: Last, checked: ruling.Checked) -> Said:
    """What stands beside the entry of a test now."""
    value, determination = active_value(test), current(test)
    if value is not None:
        said = _reported(test, asked, last, value, determination)
        told = ruling.of_value(test, value, checked)
        return replace(said, notes=(*said.notes, *told))
    run = runs.of(test, determination)
    if run is not None and not _has_value(determination):
        return _running(test, asked, last, determination, run)
    said = _not_yet(test, asked, last, determination)
    return replace(said, notes=ruling.of_asking(test, checked))


def words_of(line: Requirement | None) -> str:
    """The limits of a line with the unit, as the head and the folded line say them."""
    if line is None:
        return "no requirement of its own"
    if line.kind == Requirement.Kind.REPORT_ONLY:
        return "report only"
    if line.must:
        return line.must
    it = line.characteristic
    if line.kind == Requirement.Kind.TYPICAL:
        return f"typical {line.typical}"
    return limits(line.lower or None, line.upper or None, it.unit, signed=it.is_signed)


# ---- The three cases


def _reported(
    test: Test,
    asked: Asked,
    last: Last,
    value: ReportedValue,
    determination: Determination | None,
) -> Said:
    it = test.characteristic
    verdict, why = _judged(asked.own, it, value.value)
    drawn, values = _ruler(
        it, asked.own, last, value=value.reported, verdict=verdict, drops=()
    )
    table = vessels.table(it, determination)
    if table is not None:
        drawn, values = "curve", _curve(test, asked, last, determination)
    return Said(
        verdict=verdict,
        figure=value.reported,
        unit=it.unit,
        signed=it.is_signed,
        drawn=drawn,
        values=values,
        reason=why or as_sentence(value.says),
        notes=notes.of(test, asked.own, value, verdict),
        others=_others(asked, it, value.value),
        table=table,
    )


def _running(
    test: Test,
    asked: Asked,
    last: Last,
    determination: Determination | None,
    run: runs.Shown,
) -> Said:
    it = test.characteristic
    table = vessels.table(it, determination)
    if table is not None:
        drawn, values = "curve", _curve(test, asked, last, determination)
    else:
        drawn, values = "progress", run.values
    return Said(
        verdict=Verdict.NOT_TESTED if _is_judged(asked.own) else "",
        figure=run.done,
        unit=f"of {run.total_words}",
        pending=True,
        drawn=drawn,
        values=values,
        reason=run.says,
        table=table,
    )


def _not_yet(
    test: Test, asked: Asked, last: Last, determination: Determination | None
) -> Said:
    it = test.characteristic
    figure = _pending_figure(determination)
    drawn, values = _ruler(
        it, asked.own, last, value=None, verdict="", drops=_drops(it, determination)
    )
    table = vessels.table(it, determination)
    if table is not None:
        drawn, values = "curve", _curve(test, asked, last, determination)
    return Said(
        verdict=_no_verdict(test, asked.own, determination),
        figure=figure,
        unit=it.unit if figure else "",
        signed=it.is_signed,
        pending=True,
        drawn=drawn,
        values=values,
        reason=why_not_yet(test, determination),
        table=table,
    )


def _has_value(determination: Determination | None) -> bool:
    return determination is not None and determination.value != ""


def _is_judged(line: Requirement | None) -> bool:
    return line is not None and line.kind == Requirement.Kind.LIMIT


def _judged(
    line: Requirement | None, characteristic: Characteristic, value: str
) -> tuple[str, str]:
    if line is None:
        return "", ""
    verdict, _, why = judgement(line, characteristic, value)
    return verdict or "", why


def _no_verdict(
    test: Test, line: Requirement | None, determination: Determination | None
) -> str:
    """Readings that cannot count, or not alone, are not evaluated; none, or too few, is not tested."""
    if not _is_judged(line):
        return ""
    stands_in_the_way = test.asks or (
        determination is not None
        and (determination.bars or (determination.is_complete and determination.asks))
    )
    return Verdict.NOT_EVALUATED if stands_in_the_way else Verdict.NOT_TESTED


def _pending_figure(determination: Determination | None) -> str:
    if determination is None or not determination.value:
        return ""
    try:
        number = Number.stored(determination.value)
    except NumberRefused:
        return determination.value
    return f"{number.sign}{shortened(number.value)}"


def _others(asked: Asked, it: Characteristic, value: str) -> tuple[Other, ...]:
    return tuple(
        Other(
            customer=str(customer),
            code=customer.code if customer else "",
            limits=words_of(line),
            verdict=_judged(line, it, value)[0],
        )
        for line in asked.others
        for customer in [line.revision.specification.customer]
    )


# ---- Rulers


def _ruler(
    it: Characteristic,
    line: Requirement | None,
    last: Last,
    *,
    value: str | None,
    verdict: str,
    drops: Sequence[str],
) -> tuple[str, Mapping[str, Any]]:
    if line is None or line.kind != Requirement.Kind.LIMIT or line.must:
        return "", {}
    earlier = tuple(last.get(it.pk, ()))
    if it.kind == Characteristic.Kind.RATING:
        procedure = procedure_of(it)
        return "rating", {
            "limit": line.upper,
            "value": procedure.judged_as(value) if value else value,
            "verdict": verdict,
            "last": tuple(procedure.judged_as(mark) for mark in earlier),
            "words": procedure.scale,
            "name": it.name,
        }
    inner = (line.internal_lower or None, line.internal_upper or None)
    return "limits", {
        "name": it.name,
        "lower": line.lower or None,
        "upper": line.upper or None,
        "value": value,
        "verdict": verdict,
        "last": earlier,
        "internal": inner if any(inner) else None,
        "drops": drops,
        "unit": it.unit,
        "signed": it.is_signed,
        "span": it.span or None,
    }


def _drops(it: Characteristic, determination: Determination | None) -> tuple[str, ...]:
    """The cone readings of a set as upright lines, while there is no result; those of a reduced cone are on another scale and are not drawn."""
    if (
        determination is None
        or it.parameters.get(SCALE.key, SCALE.default) != SCALE.default
    ):
        return ()
    newest = {
        r.slot: r for r in sorted(determination.readings.all(), key=lambda r: r.pk)
    }
    return tuple(
        r.value for slot, r in newest.items() if slot.startswith("cone_") and r.value
    )


def _curve(
    test: Test, asked: Asked, last: Last, determination: Determination | None
) -> Mapping[str, Any]:
    line = asked.own
    limit = line.upper or None if line is not None else None
    earlier = last.get(test.characteristic_id, ())
    return vessels.curve(test.characteristic, determination, limit=limit, last=earlier)
