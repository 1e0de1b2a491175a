"""One requirement line as typed, and what may stand in it."""

from dataclasses import dataclass

from lims.methods.models import Characteristic, MethodEdition
from lims.methods.rules import read_number
from lims.products.deciding import DECIDING, check_rule
from lims.products.models import Requirement
from lims.record.filled import check_filled
from lims.record.refusals import BadInput
from specs.methods.catalogue import PROCEDURES
from specs.methods.ladder import LADDER, check_load, read_ladder
from specs.methods.outcome import setting
from specs.numbers import Number, Refused

Kind, Scope = Requirement.Kind, Requirement.Scope

NUMBERS = ("lower", "upper", "internal_lower", "internal_upper")
BAND_INSIDE_LIMITS = (
    ("lower", "internal_lower"),
    ("lower", "internal_upper"),
    ("internal_lower", "upper"),
    ("internal_upper", "upper"),
)


@dataclass(frozen=True)
class Line:
    """What a draft is to ask of one characteristic; limits are texts, as typed.

    `number` is the place on the paper; without it the line keeps its place or goes last.
    For a rating `upper` is the worst mark allowed; for words `must` says what is to be seen,
    for what passes or fails it is `pass`. `basis`, `uncertainty` and `confidence` are what
    a decision rule rests on, frozen with the line.
    """

    characteristic: Characteristic
    edition: MethodEdition | None = None
    kind: str = Kind.LIMIT
    lower: str = ""
    upper: str = ""
    must: str = ""
    comparing: str = ""
    rule: str = ""
    basis: str = ""
    uncertainty: str = ""
    confidence: str = ""
    scope: str = Scope.FILL_LOT
    every_batches: int | None = None
    every_months: int | None = None
    internal_lower: str = ""
    internal_upper: str = ""
    typical: str = ""
    number: int | None = None


def fill(row: Requirement, line: Line) -> None:
    """Write the line into the row, checked; number texts in their plain form."""
    row.characteristic, row.edition = line.characteristic, line.edition
    row.kind, row.scope = line.kind, line.scope
    row.comparing, row.rule = line.comparing, line.rule
    for field in DECIDING:
        setattr(row, field, getattr(line, field).strip())
    row.every_batches, row.every_months = line.every_batches, line.every_months
    row.must, row.typical = line.must.strip(), line.typical.strip()
    for field in NUMBERS:
        setattr(row, field, getattr(line, field).strip())
    check_filled(row)
    _check_edition(row)
    _check_frequency(row)
    if row.kind == Kind.LIMIT:
        _check_limit(row)
    else:
        _check_no_limit(row)


def scale_of(characteristic: Characteristic) -> tuple[str, ...]:
    """The marks of a rating, best first; empty for what is no rating."""
    return PROCEDURES[characteristic.procedure].scale


def ladder_of(characteristic: Characteristic) -> tuple[str, ...]:
    """The loads of a ladder, lowest first."""
    loads = read_ladder(setting(characteristic.parameters, LADDER))
    return tuple(Number.of(load).canonical for load in loads)


def _check_edition(row: Requirement) -> None:
    characteristic = row.characteristic
    if row.edition is not None:
        if characteristic.code not in row.edition.characteristics:
            raise BadInput(
                f"{row.edition} does not measure “{characteristic.in_full}”: "
                "choose an edition that does.",
                field="edition",
            )
        return
    if row.kind == Kind.LIMIT and characteristic.kind != characteristic.Kind.WORDS:
        raise BadInput(
            f"Name the method's edition by which “{characteristic.in_full}” is measured.",
            field="edition",
        )


def _check_frequency(row: Requirement) -> None:
    given = {
        "every_batches": row.every_batches,
        "every_months": row.every_months,
    }
    for field, count in given.items():
        if count is not None and row.scope != Scope.PERIODIC:
            raise BadInput(
                "Only a periodic line says how often: choose periodic, or leave the "
                "number out.",
                field=field,
            )
        if count is not None and not 1 <= count <= 1000:
            raise BadInput(
                f"Every {count} is no frequency: enter 1 to 1000.", field=field
            )
    if row.scope == Scope.PERIODIC and not any(given.values()):
        raise BadInput(
            "Say how often a periodic test is due: every so many batches, months, "
            "or both.",
            field="every_batches",
        )


def _check_limit(row: Requirement) -> None:
    if not row.comparing:
        raise BadInput(
            "Name the procedure for comparing, rounding or absolute: "
            "there is no default.",
            field="comparing",
        )
    kinds = row.characteristic.Kind
    check = {
        kinds.NUMBER.value: _check_number_limit,
        kinds.LADDER.value: _check_ladder_limit,
        kinds.RATING.value: _check_rating_limit,
        kinds.FINDING.value: _check_finding_limit,
        kinds.WORDS.value: _check_words_limit,
    }
    check[row.characteristic.kind](row)
    check_rule(row)


def _check_number_limit(row: Requirement) -> None:
    if row.must:
        raise BadInput(
            "A number is held against a lower or an upper limit, not against words: "
            "leave the words out.",
            field="must",
        )
    _make_plain(row)
    if not row.lower and not row.upper:
        raise BadInput(
            "Enter a lower or an upper limit, or choose report only.", field="upper"
        )
    _check_order(row, "lower", "upper", "The lower limit {} is above the upper, {}")
    _check_order(
        row,
        "internal_lower",
        "internal_upper",
        "The internal band begins at {}, above its end at {}",
    )
    for low, high in BAND_INSIDE_LIMITS:
        _check_order(
            row, low, high, "The internal band reaches outside the limits, {} above {}"
        )


def _check_ladder_limit(row: Requirement) -> None:
    """A limit between two loads of the ladder could never be told from its neighbours."""
    _refuse_filled(
        row,
        ("internal_lower", "internal_upper"),
        "A load of a ladder has no internal band: leave this out.",
    )
    _check_number_limit(row)
    ladder = read_ladder(setting(row.characteristic.parameters, LADDER))
    for field in ("lower", "upper"):
        if getattr(row, field):
            try:
                check_load(read_number(getattr(row, field), field), ladder)
            except Refused as refused:
                raise BadInput(refused.sentence, field=field) from refused


def _check_rating_limit(row: Requirement) -> None:
    _refuse_filled(
        row,
        ("lower", "must", "internal_lower", "internal_upper"),
        "A rating has one limit, the worst mark allowed: leave this out.",
    )
    scale = scale_of(row.characteristic)
    marks = {mark.casefold(): mark for mark in scale}
    if row.upper.casefold() not in marks:
        raise BadInput(
            f"“{row.upper}” is not on the scale: choose one of {', '.join(scale)}.",
            field="upper",
        )
    row.upper = marks[row.upper.casefold()]


def _check_finding_limit(row: Requirement) -> None:
    _refuse_filled(
        row, NUMBERS, "What passes or fails has no number for a limit: leave this out."
    )
    best = scale_of(row.characteristic)[0]
    if row.must.casefold() != best:
        raise BadInput(
            f"“{row.must}” is no requirement here: it must {best}.", field="must"
        )
    row.must = best


def _check_words_limit(row: Requirement) -> None:
    _refuse_filled(
        row, NUMBERS, "What is told in words has no number for a limit: leave this out."
    )
    if not row.must:
        raise BadInput("Say in words what is to be seen.", field="must")


def _check_no_limit(row: Requirement) -> None:
    _refuse_filled(
        row,
        (*NUMBERS, "must", "comparing", "rule", *DECIDING),
        f"A line of the kind {row.kind} is held against nothing: choose limit, "
        "or leave this out.",
    )
    if row.kind == Kind.TYPICAL and not row.typical:
        raise BadInput("Enter the typical value, as it is to be read.", field="typical")


def _refuse_filled(row: Requirement, fields: tuple[str, ...], sentence: str) -> None:
    for field in fields:
        if getattr(row, field):
            raise BadInput(sentence, field=field)


def _make_plain(row: Requirement) -> None:
    for field in NUMBERS:
        text = getattr(row, field)
        if text:
            setattr(row, field, read_number(text, field).canonical)


def _check_order(row: Requirement, low: str, high: str, sentence: str) -> None:
    first, second = getattr(row, low), getattr(row, high)
    if not first or not second:
        return
    if read_number(first, low).value > read_number(second, high).value:
        raise BadInput(
            f"{sentence.format(first, second)}: correct one of them.", field=high
        )
