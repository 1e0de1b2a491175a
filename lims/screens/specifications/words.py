"""A requirement in words: what must be met, how it is compared, how often it is asked."""

from collections.abc import Iterable

from lims.methods.models import Characteristic
from lims.people.permissions import listed
from lims.products.models import Requirement
from lims.wording.limits import limits
from lims.wording.numbers import counts

Kind, Scope = Requirement.Kind, Requirement.Scope

COMPARING = {
    Requirement.Comparing.ROUNDING: "The result is rounded to the last place of the limit, then compared",
    Requirement.Comparing.ABSOLUTE: "The unrounded result is compared",
}
RULES = {
    "simple acceptance": "Met is what lies inside the limits; the uncertainty takes no part",
}
SCOPES = {
    Scope.FILL_LOT: "Tested on every fill lot",
    Scope.BATCH: "Tested once a batch; its other fill lots rest on it",
    Scope.PERIODIC: "Tested every so many batches or months",
}
KINDS = {
    Kind.LIMIT: "Held against a limit: met or not met",
    Kind.REPORT_ONLY: "Reported, held against nothing, never in the way of a release",
    Kind.TYPICAL: "Describes the product; not a result",
}


def must(row: Requirement) -> str:
    """What the line asks, such as ``must be 265 to 295 × 0.1 mm``."""
    if row.kind == Kind.REPORT_ONLY:
        return "reported, without a limit"
    if row.kind == Kind.TYPICAL:
        return f"typically {row.typical}"
    if row.must:
        return f"must be {row.must}"
    it = row.characteristic
    if it.kind == Characteristic.Kind.RATING:
        return f"must be {row.upper} or better"
    return f"must be {_span(row.lower, row.upper, it)}"


def band(row: Requirement) -> str:
    """The internal band, where there is one."""
    if not row.internal_lower and not row.internal_upper:
        return ""
    return _span(row.internal_lower, row.internal_upper, row.characteristic)


def asked(row: Requirement) -> str:
    """How often the line is tested."""
    if row.kind == Kind.TYPICAL:
        return "not tested for this"
    if row.scope != Scope.PERIODIC:
        return str(row.scope)
    often = [
        _every(count, unit)
        for count, unit in ((row.every_batches, "batch"), (row.every_months, "month"))
        if count
    ]
    return f"periodic: {listed(often, 'or')}"


def how(row: Requirement) -> str:
    """By which procedure and which rule the verdict comes."""
    return f"{row.comparing}, {row.rule}" if row.kind == Kind.LIMIT else ""


def rules(rows: Iterable[Requirement]) -> str:
    """The procedures and rules of several lines, each once."""
    found = dict.fromkeys(how(row) for row in rows if how(row))
    return "; ".join(found)


def number_of(count: int, one: str, many: str = "") -> str:
    """``1 limit``, ``7 limits``."""
    return f"{counts(count)} {one if count == 1 else many or f'{one}s'}"


def _every(count: int, unit: str) -> str:
    many = "batches" if unit == "batch" else f"{unit}s"
    return f"every {unit}" if count == 1 else f"every {counts(count)} {many}"


def _span(lower: str, upper: str, of: Characteristic) -> str:
    return limits(lower or None, upper or None, of.unit, signed=of.is_signed)
