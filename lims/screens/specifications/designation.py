"""What a grease may be called: its NLGI number by worked penetration, and the letters of a symbol that the stated requirements support."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from lims.methods.queries import WORKED_PENETRATION
from lims.products.models import Product, Requirement
from specs.judging.designations import Decoded, DesignationRefused, decode
from specs.judging.grades import GradeRefused, nlgi
from specs.judging.letters import DIN, ISO
from specs.judging.stated import Stated
from specs.judging.supporting import Support, supported

STANDARDS = (DIN, ISO)


@dataclass(frozen=True)
class Panel:
    """The designation panel of a product or a fill lot.

    `numbers` are sentences about the NLGI number; `written` is the symbol that the product
    carries, decoded, and `why_not` says why it could not be.
    """

    numbers: tuple[str, ...]
    places: tuple[tuple[str, tuple[Support, ...]], ...]  # by standard
    symbol: str = ""
    written: Decoded | None = None
    why_not: str = ""


def panel_of(
    product: Product,
    requirements: Iterable[Requirement],
    *,
    reported: Iterable[str] | None = None,
) -> Panel:
    """The panel of a product by its limits; of a lot also by the worked penetrations reported for it."""
    found = supported(stated_of(requirements))
    numbers = (
        (f"{found.aim.says}.",)
        if reported is None
        else tuple(number_of(value) for value in reported) or (NOT_YET,)
    )
    written, why_not = decoded(product.designation)
    return Panel(
        numbers=tuple(dict.fromkeys(f"{it[0].upper()}{it[1:]}" for it in numbers)),
        places=tuple((it, found.of(it)) for it in STANDARDS),
        symbol=product.designation,
        written=written,
        why_not=why_not,
    )


NOT_YET = (
    "No worked penetration is reported yet, so there is no NLGI number: it comes from the "
    "worked penetration alone."
)


def number_of(reported: str) -> str:
    """Which NLGI number a reported worked penetration gives, or between which two it falls."""
    try:
        grade = nlgi(Decimal(reported))
    except (InvalidOperation, GradeRefused):
        return f"Worked penetration {reported} gives no NLGI number: it is no whole number."
    if grade.grade is not None:
        return f"Worked penetration {reported} is NLGI {grade.grade}."
    if grade.between is not None:
        softer, firmer = grade.between
        return (
            f"Worked penetration {reported} lies between NLGI {softer} and NLGI {firmer} "
            "and belongs to neither."
        )
    return f"Worked penetration {reported} lies outside the nine NLGI numbers."


def stated_of(requirements: Iterable[Requirement]) -> list[Stated]:
    """The limits of a specification as plain data."""
    return [
        Stated(
            characteristic=row.characteristic.code,
            lower=row.lower,
            upper=row.upper,
            conditions=row.characteristic.conditions,
            name=row.characteristic.name,
        )
        for row in requirements
        if row.kind == Requirement.Kind.LIMIT
    ]


def decoded(symbol: str) -> tuple[Decoded | None, str]:
    """A symbol letter by letter, or the sentence why it is none."""
    if not symbol.strip():
        return None, ""
    try:
        return decode(symbol), ""
    except DesignationRefused as refused:
        return None, refused.sentence


def worked_of(values: Iterable[tuple[str, str]]) -> list[str]:
    """Of (code, reported value) the worked penetrations that are there."""
    return [value for code, value in values if code == WORKED_PENETRATION and value]
