"""Rows that state a line of a specification: as the line they become, and what the rules for lines hold against them."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from lims.imports.kinds.refusing import asked, objection
from lims.methods.models import Characteristic, MethodEdition
from lims.products import lines
from lims.products.lines import Line
from lims.products.models import Requirement
from lims.record.refusals import BadInput
from specs.judging.rules import SIMPLE_ACCEPTANCE
from specs.numbers import shortened
from specs.tables.checked import Row
from specs.tables.forms.columns_of_lines import LINE
from specs.tables.forms.limits import LimitTexts, read_limits
from specs.tables.forms.objections import LEAVE_ROWS, Objection
from specs.tables.saying import Choice
from specs.units import UNITS, convert, unit_typed

Kind, Scope = Requirement.Kind, Requirement.Scope
KEYS = tuple(it.key for it in LINE)
AS_IN_THE_BOOK = "the only one"
Values = Mapping[str, str]


@dataclass(frozen=True)
class Book:
    """The characteristics by code and the editions by name, fetched once."""

    characteristics: Mapping[str, Characteristic]
    editions: Mapping[str, MethodEdition]

    def measuring(self, code: str) -> list[str]:
        """The names of the editions that measure a characteristic."""
        return [
            name for name, it in self.editions.items() if code in it.characteristics
        ]


def book() -> Book:
    """The method book as it stands, in two queries."""
    editions = MethodEdition.objects.select_related("method")
    return Book(
        {it.code: it for it in Characteristic.objects.all()},
        {str(it): it for it in editions},
    )


def states_line(row: Row) -> bool:
    """Whether a row states anything of a line."""
    return any(row.values.get(key) for key in KEYS)


def limit_texts(values: Values, characteristic: Characteristic) -> LimitTexts:
    """The limits of a row, from one cell or from two. Raises BadInput where both are filled and differ."""
    apart = LimitTexts(
        values.get("lower", ""), values.get("upper", ""), values.get("must", "")
    )
    if not values.get("limits"):
        return apart
    found = read_limits(values["limits"])
    if characteristic.kind == characteristic.Kind.RATING and found.must:
        found = LimitTexts(upper=found.must)
    if apart != LimitTexts() and apart != found:
        raise BadInput(
            f"One column says {found.in_words}, another {apart.in_words}: keep one of them.",
            field="limits",
        )
    return found


def kind_of(values: Values, limits: LimitTexts) -> str:
    """What kind of line a row states, where it does not say it: a limit where there is one, typical where that alone is given."""
    if values.get("kind"):
        return values["kind"]
    if limits != LimitTexts():
        return Kind.LIMIT
    return Kind.TYPICAL if values.get("typical") else Kind.REPORT_ONLY


def line_of(values: Values, book: Book) -> Line:
    """The line that a row states. Raises BadInput."""
    characteristic = book.characteristics[values["characteristic"]]
    limits = limit_texts(values, characteristic)
    return Line(
        characteristic=characteristic,
        edition=book.editions.get(values.get("edition", "")),
        kind=kind_of(values, limits),
        lower=limits.lower,
        upper=limits.upper,
        must=limits.must,
        comparing=values.get("comparing", ""),
        rule=values.get("rule", ""),
        basis=values.get("basis", ""),
        uncertainty=values.get("uncertainty", ""),
        confidence=values.get("confidence", ""),
        scope=values.get("scope") or Scope.FILL_LOT,
        every_batches=_count(values, "every_batches"),
        every_months=_count(values, "every_months"),
        internal_lower=values.get("internal_lower", ""),
        internal_upper=values.get("internal_upper", ""),
        typical=values.get("typical", ""),
    )


def _count(values: Values, key: str) -> int | None:
    return int(values[key]) if values.get(key) else None


def against(rows: Iterable[Row], book: Book) -> Iterator[Objection]:
    """What stands against each row as a line; of several things the first that must be settled."""
    for row in rows:
        try:
            yield from _against(row, book)
        except BadInput as refusal:
            yield objection(row.row, refusal, "characteristic", _in_one_cell(row))


def _against(row: Row, book: Book) -> Iterator[Objection]:
    if not row.values.get("characteristic"):
        raise BadInput(
            "The row states a limit and does not say of which characteristic: write it.",
            field="characteristic",
        )
    line = line_of(row.values, book)
    _check_unit(row.values, line)
    open_points = list(_left_open(row, line, book))
    if open_points:
        yield from open_points
        return
    lines.fill(Requirement(), line)


def _in_one_cell(row: Row) -> Mapping[str, str]:
    """Where limits stand in one cell, what is wrong with an end is wrong with that cell."""
    if row.values.get("limits"):
        return {"lower": "limits", "upper": "limits", "must": "limits"}
    return {}


def _left_open(row: Row, line: Line, book: Book) -> Iterator[Objection]:
    values = row.values
    if line.kind == Kind.LIMIT:
        if not line.comparing:
            yield asked(
                row.row,
                "comparing",
                "By which procedure is a result compared with these limits?",
                (
                    Choice(
                        "rounding",
                        "Rounding: the result is rounded to the places of the limit first",
                    ),
                    Choice(
                        "absolute",
                        "Absolute: the result is compared as it was reported",
                    ),
                ),
                Requirement.Comparing.ROUNDING.value,
            )
        if not line.rule:
            yield asked(
                row.row,
                "rule",
                "By which decision rule is a lot judged against these limits? A rule that takes "
                "an uncertainty into account is set line by line, in its own columns or in the draft.",
                (Choice(SIMPLE_ACCEPTANCE, SIMPLE_ACCEPTANCE.capitalize()),),
                SIMPLE_ACCEPTANCE,
            )
    if not values.get("scope") and line.kind != Kind.TYPICAL:
        yield _asks_scope(row)
    yield from _asks_edition(row, line, book)


def _asks_scope(row: Row) -> Objection:
    if row.values.get("every_batches") or row.values.get("every_months"):
        return asked(
            row.row,
            "scope",
            "These rows say how often, and not that they are periodic.",
            (Choice(Scope.PERIODIC.value, "Periodic"), LEAVE_ROWS),
            Scope.PERIODIC.value,
        )
    return asked(
        row.row,
        "scope",
        "How often are these tested?",
        (
            Choice(Scope.FILL_LOT.value, "On each fill lot"),
            Choice(Scope.BATCH.value, "Once a batch"),
        ),
        Scope.FILL_LOT.value,
    )


def _asks_edition(row: Row, line: Line, book: Book) -> Iterator[Objection]:
    it = line.characteristic
    if line.edition is not None or line.kind != Kind.LIMIT or it.kind == it.Kind.WORDS:
        return
    measuring = book.measuring(it.code)
    if len(measuring) != 1:
        known = f": {', '.join(measuring[:6])}" if measuring else ""
        raise BadInput(
            f"Name the method's edition by which “{it.in_full}” is measured{known}.",
            field="edition",
        )
    it_is = Choice(
        AS_IN_THE_BOOK, "The only edition in the method book that measures it"
    )
    yield Objection(
        row.row,
        "edition",
        f"No edition is named. For “{it.in_full}” the method book has one: {measuring[0]}.",
        matter="edition",
        choices=(it_is, LEAVE_ROWS),
        proposed=AS_IN_THE_BOOK,
        is_refusal=False,
        sets={AS_IN_THE_BOOK: measuring[0]},
    )


def _check_unit(values: Values, line: Line) -> None:
    """Refuse limits in another unit: what was agreed is not converted unseen, the number is offered."""
    given, own = values.get("unit", ""), line.characteristic.unit
    if not given or same_unit(given, own):
        return
    told = _converted(line, given, own)
    raise BadInput(
        f"The limits stand in {given}; those of “{line.characteristic.in_full}” are kept in "
        f"{own or 'no unit'}{told}. Write the limits in that unit, and that unit here.",
        field="unit",
    )


def same_unit(given: str, own: str) -> bool:
    """Whether a unit as it was written is the unit as it is kept."""
    typed = unit_typed(f"1 {given}")
    name = typed[2] if typed else given
    return name == own or given.replace(",", ".").replace(" ", "") == own.replace(
        " ", ""
    )


def _converted(line: Line, given: str, own: str) -> str:
    typed = unit_typed(f"1 {given}")
    if (
        typed is None
        or own not in UNITS
        or UNITS[typed[2]].measures != UNITS[own].measures
    ):
        return ""
    ends = [it for it in (line.lower, line.upper) if it]
    numbers = [unit_typed(f"{it} {given}") for it in ends]
    told = [shortened(convert(it[1], it[2], own), 3) for it in numbers if it]
    return f" ({' and '.join(told)} {own})" if told else ""
