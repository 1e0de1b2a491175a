"""What may stand in a characteristic, an edition and a check of figures; each refusal says what to do."""

import datetime as dt
from collections.abc import Collection

from lims.methods.models import Characteristic, MethodEdition
from lims.people.days import check_sensible
from lims.record.filled import check_filled, check_free
from lims.record.refusals import BadInput
from specs.judging.steps import StepRefused, check_step
from specs.methods.catalogue import PROCEDURES
from specs.methods.outcome import ParametersRefused, Procedure, setting
from specs.numbers import Number, NumberRefused, read


def check_characteristic(row: Characteristic) -> None:
    """Refuse a characteristic that could not be measured or worked out."""
    check_filled(row, besides={"procedure"})
    check_free(row, "code")
    check_procedure(row.procedure)
    _check_fits_procedure(row)
    check_known(row.derived_from.values(), field="derived_from")
    _check_step(row.step)
    if row.span and read_number(row.span, "span").value <= 0:
        raise BadInput("The span is above nought: correct it.", field="span")


def _check_step(text: str) -> None:
    """Refuse a step that nothing could be reported to."""
    try:
        check_step(text)
    except StepRefused as refused:
        raise BadInput(refused.sentence, field="step") from refused


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
    kinds = kinds_of(procedure)
    if row.kind not in kinds:
        raise BadInput(
            f"The result of “{procedure.name}” is of the kind {' or '.join(kinds)}: "
            "choose that kind.",
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


def kinds_of(procedure: Procedure) -> tuple[str, ...]:
    """The kinds of characteristic that a procedure can find; what is marked may be kept in words."""
    either = {str(Characteristic.Kind.RATING), str(Characteristic.Kind.WORDS)}
    if procedure.kind in either:
        return tuple(sorted(either))
    return (procedure.kind,)


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


def check_checking(checked_by: str, on: dt.date, today: dt.date) -> None:
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
