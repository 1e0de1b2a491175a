"""What may stand in a characteristic, an edition and a precision; each refusal says what to do."""

import datetime as dt
from collections.abc import Collection

from lims.methods.models import Characteristic, MethodEdition, Precision
from lims.people.days import check_sensible
from lims.record.filled import check_filled, check_free
from lims.record.refusals import BadInput
from specs.methods.catalogue import PROCEDURES
from specs.methods.outcome import ParametersRefused, setting
from specs.numbers import Number, NumberRefused, read

ROOT_OF_LEVEL = " √m"


def check_characteristic(row: Characteristic) -> None:
    """Refuse a characteristic that could not be measured or worked out."""
    check_filled(row, besides={"procedure"})
    check_free(row, "code")
    check_procedure(row.procedure)
    _check_fits_procedure(row)
    check_known(row.derived_from.values(), field="derived_from")
    for field in ("step", "span"):
        if getattr(row, field) and read_number(getattr(row, field), field).value <= 0:
            raise BadInput(f"The {field} is above nought: correct it.", field=field)


def check_procedure(name: str) -> None:
    """Refuse a procedure that no function carries out."""
    if name not in PROCEDURES:
        raise BadInput(
            f"There is no procedure “{name}”: choose one of "
            f"{', '.join(sorted(PROCEDURES))}.",
            field="procedure",
        )


def _check_fits_procedure(row: Characteristic) -> None:
    """Refuse a kind, a setting or a derivation that the procedure does not have."""
    procedure = PROCEDURES[row.procedure]
    if (row.kind == row.Kind.NUMBER) != (procedure.kind == "number"):
        raise BadInput(
            f"“{procedure.name}” gives a {procedure.kind}: choose that kind.",
            field="kind",
        )
    known = {parameter.key: parameter for parameter in procedure.parameters}
    for key in row.parameters:
        if key not in known:
            raise BadInput(
                f"“{procedure.name}” has no setting “{key}”: leave it out.",
                field="parameters",
            )
        try:
            setting(row.parameters, known[key])
        except ParametersRefused as refused:
            raise BadInput(refused.sentence, field="parameters") from refused
    if set(row.derived_from) != set(procedure.derived_from):
        raise BadInput(
            f"“{procedure.name}” is derived from "
            f"{' and '.join(procedure.derived_from) or 'nothing'}: name just that.",
            field="derived_from",
        )


def check_known(codes: Collection[str], *, field: str) -> None:
    """Refuse a code that no characteristic has."""
    known = set(Characteristic.objects.values_list("code", flat=True))
    for code in codes:
        if code not in known:
            raise BadInput(
                f"There is no characteristic “{code}”: add it first.", field=field
            )


def check_edition(row: MethodEdition) -> None:
    """Refuse an edition without a name, a source or a standing, and one that stands already."""
    check_filled(row)
    twin = MethodEdition.objects.filter(method=row.method, edition=row.edition)
    if twin.exclude(pk=row.pk).exists():
        raise BadInput(
            f"{row} stands here already: open it, or choose another edition.",
            field="edition",
        )
    check_known(row.characteristics, field="characteristics")


def check_precision(row: Precision) -> None:
    """Refuse a precision without any figure, with a figure that is none, or with a range upside down."""
    check_filled(row)
    if row.characteristic.code not in row.edition.characteristics:
        raise BadInput(
            f"{row.edition} does not measure “{row.characteristic.in_full}”: "
            "choose one of its characteristics.",
            field="characteristic",
        )
    if not row.repeatability and not row.reproducibility:
        raise BadInput(
            "Neither figure is given: enter one, or leave the row out. "
            "A missing precision stays missing.",
            field="repeatability",
        )
    for field in ("repeatability", "reproducibility"):
        _check_figure(getattr(row, field), field)
    _check_range(row.level_from, row.level_to)


def _check_figure(text: str, field: str) -> None:
    """A figure is a number above nought, or such a number times the root of the level."""
    if text and read_number(text.removesuffix(ROOT_OF_LEVEL), field).value <= 0:
        raise BadInput(
            f"{text} is no precision: enter a number above nought, or leave it out.",
            field=field,
        )


def _check_range(level_from: str, level_to: str) -> None:
    bounds = {
        field: read_number(text, field).value
        for field, text in (("level_from", level_from), ("level_to", level_to))
        if text
    }
    if len(bounds) == 2 and bounds["level_from"] >= bounds["level_to"]:
        raise BadInput(
            f"The range ends at {level_to}, below its beginning at {level_from}: "
            "correct one of them.",
            field="level_to",
        )


def check_checking(
    edition: MethodEdition, checked_by: str, on: dt.date, today: dt.date
) -> None:
    """Refuse a check of figures without a name, or on a day to come."""
    if not checked_by.strip():
        raise BadInput(
            "Say who compared the figures with the laboratory's own copy.",
            field="checked_by",
        )
    check_sensible(on, field="on")
    if on > today:
        raise BadInput(
            f"{on.isoformat()} is still to come: enter the day of the check.",
            field="on",
        )
    edition.checked_by, edition.checked_on = checked_by.strip(), on
    check_filled(edition)


def read_number(text: str, field: str) -> Number:
    """The uncensored number of a typed text, or the refusal beside its field."""
    try:
        number = read(text)
    except NumberRefused as refused:
        raise BadInput(refused.sentence, field=field) from refused
    if number.is_censored:
        raise BadInput(
            f"“{text}” is only a bound: write the number without < or >.", field=field
        )
    return number
