"""A requirement in words: what must be met, how it is compared, how often it is asked."""

from collections.abc import Iterable

from lims.methods.models import Characteristic
from lims.methods.queries import FROM_MEMORY
from lims.people.permissions import listed
from lims.products.copying import Demand
from lims.products.models import Requirement
from lims.wording.limits import limits
from lims.wording.numbers import counts

Kind, Scope = Requirement.Kind, Requirement.Scope

COMPARING = {
    Requirement.Comparing.ROUNDING: "The result is rounded to the last place of the limit, then compared",
    Requirement.Comparing.ABSOLUTE: "The unrounded result is compared",
}
RULES = {
    "simple acceptance": "The limits themselves decide, without a guard band",
    "guarded acceptance": "Met is what lies so far inside the limits that the true value is inside with the confidence chosen",
    "bound of ISO 4259, recipient": "Not met is only what lies outside a limit by more than R explains, as a recipient may refuse it",
    "bound of ISO 4259, supplier": "Met is what lies inside a limit by as much as R asks, as a supplier should deliver it",
}
BASES = {
    "": "By simple acceptance the uncertainty takes no part",
    Requirement.Basis.OWN: "A standard uncertainty u, as this laboratory stated it",
    Requirement.Basis.METHOD: "The method's R between laboratories",
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
    return _asked_of(row.characteristic, row.lower, row.upper, row.must)


def demanded(demand: Demand) -> str:
    """What a published specification asks of a characteristic, in the same words."""
    return _asked_of(demand.characteristic, demand.lower, demand.upper, demand.must)


def _asked_of(it: Characteristic, lower: str, upper: str, must: str) -> str:
    if it.kind == Characteristic.Kind.FINDING:
        return f"must {must}"
    if must:
        return f"must be {must}"
    if it.kind == Characteristic.Kind.RATING:
        return f"must be {upper} or better"
    return f"must be {_span(lower, upper, it)}"


def standing(word: str, checked_by: str) -> str:
    """How surely a figure is known: its standing, and who compared it."""
    if checked_by:
        return f"{word}, checked by {checked_by}"
    return f"{word}, not checked" if word == FROM_MEMORY else word


def origin(row: Requirement) -> str:
    """Where a copied line comes from, and how surely that is known."""
    if not row.origin:
        return ""
    return f"{row.origin}; {standing(row.origin_standing, row.origin_checked_by)}"


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


def rests_on(row: Requirement) -> str:
    """What the rule of a line rests on, such as ``u = 2.16, confidence 0.95``."""
    if not row.basis:
        return ""
    sign = "u" if row.basis == Requirement.Basis.OWN else "R"
    return f"{sign} = {row.uncertainty}, {row.get_basis_display()}, confidence {row.confidence}"


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
