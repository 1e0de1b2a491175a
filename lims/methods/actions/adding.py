"""Adding characteristics, methods and editions, one by one or from the reference data."""

from collections.abc import Mapping, Sequence

from lims.methods import loading, rules
from lims.methods.models import Characteristic, Method, MethodEdition
from lims.methods.reference import About, ReferenceData
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record.filled import check_filled, check_free
from lims.record.gate import entry


def load_reference(*, data: ReferenceData, by: Person | None) -> int:
    """Add the reference rows that are missing and count them; what stands is left as it is.

    An edition that has a revision of figures already is left alone.
    `by=None` is the program itself, when it starts a new database.
    """
    if by is not None:
        check(by, Permission.KEEP_METHODS)
    if not loading.missing(data):
        return 0
    with entry(by=by, verb="reference_loaded", about=About()):
        return loading.add(loading.missing(data))


def add_characteristic(
    *,
    code: str,
    name: str,
    procedure: str,
    unit: str,
    kind: str = Characteristic.Kind.NUMBER,
    conditions: str = "",
    parameters: Mapping[str, str] | None = None,
    derived_from: Mapping[str, str] | None = None,
    step: str = "1",
    is_signed: bool = False,
    span: str = "",
    place: int = 100,
    caution: str = "",
    by: Person,
) -> Characteristic:
    """Add something that can be measured by a procedure that the program knows."""
    check(by, Permission.KEEP_METHODS)
    row = Characteristic(
        code=code,
        name=name,
        conditions=conditions,
        unit=unit,
        kind=kind,
        procedure=procedure,
        parameters=dict(parameters or {}),
        derived_from=dict(derived_from or {}),
        step=step,
        is_signed=is_signed,
        span=span,
        place=place,
        caution=caution,
    )
    rules.check_characteristic(row)
    with entry(by=by, verb="characteristic_added", about=row):
        check_free(row, "code")
        row.save()
    return row


def add_method(*, designation: str, title: str, by: Person) -> Method:
    """Add a method by the name that its issuer gives it; its editions follow."""
    check(by, Permission.KEEP_METHODS)
    row = Method(designation=designation, title=title)
    check_filled(row)
    check_free(row, "designation")
    with entry(by=by, verb="method_added", about=row):
        check_free(row, "designation")
        row.save()
    return row


def add_edition(
    *,
    method: Method,
    edition: str,
    characteristics: Sequence[str],
    source: str,
    standing: str,
    by: Person,
) -> MethodEdition:
    """Add a dated edition of a method; `characteristics` are the codes that it measures."""
    check(by, Permission.KEEP_METHODS)
    row = MethodEdition(
        method=method,
        edition=edition,
        characteristics=list(characteristics),
        source=source,
        standing=standing,
    )
    rules.check_edition(row)
    with entry(by=by, verb="edition_added", about=row):
        rules.check_edition(row)
        row.save()
    return row
