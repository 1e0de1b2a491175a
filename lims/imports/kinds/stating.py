"""Rows that state a figure of a method: as the figure they become, beside what is in force, and in which unit."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from lims.imports.kinds.lines import same_unit
from lims.methods import figure_rules, moves, queries
from lims.methods.figures import Figure
from lims.methods.models import Characteristic, FiguresRevision, MethodEdition
from specs.tables.alike import alike
from specs.tables.checked import Row
from specs.tables.forms.figures import IN_THE_UNIT, PRECISIONS
from specs.tables.forms.objections import LEAVE_CELLS, LEAVE_ROWS, Objection
from specs.tables.saying import Choice
from specs.units import unit_typed

OWN, OF_LEVEL, IN_UNIT = "own", "of the level", "in the unit"
PER_CENT = frozenset({"%", "per cent", "percent", "prozent"})
UNITLESS = ("%", "digit")  # of the level itself; of any size
State = FiguresRevision.State


@dataclass(frozen=True)
class Book:
    """The method book as it stands, fetched once: editions by name, characteristics by code, figures in force and open drafts by edition."""

    editions: Mapping[str, MethodEdition]
    characteristics: Mapping[str, Characteristic]
    in_force: Mapping[int, tuple[Figure, ...]]
    open_drafts: Mapping[int, str]  # edition -> why no other is opened

    def standing(self, edition: MethodEdition) -> tuple[Figure, ...]:
        """The figures of an edition that are in force."""
        return self.in_force.get(edition.pk, ())


def book() -> Book:
    """The method book in three queries, and two more for each open draft."""
    rows = queries.revisions().filter(state__in=(State.IN_FORCE, State.DRAFT))
    drafts = [it for it in rows if it.state == State.DRAFT]
    return Book(
        {str(it): it for it in MethodEdition.objects.select_related("method")},
        moves.known(),
        {
            it.edition_id: queries.figures_of(it)
            for it in rows
            if it.state == State.IN_FORCE
        },
        {it.edition_id: moves.why_not_open(it.edition) for it in drafts},
    )


@dataclass
class Wanted:
    """What a table states of one edition: its rows, first to last."""

    edition: MethodEdition
    rows: list[Row] = field(default_factory=list)

    def value(self, key: str) -> str:
        """What the first row that says anything of it says."""
        return next((it.values[key] for it in self.rows if it.values.get(key)), "")


def wanted(rows: Sequence[Row], book: Book) -> list[Wanted]:
    """The editions that rows state figures of."""
    found: dict[str, Wanted] = {}
    for row in rows:
        name = row.values["edition"]
        found.setdefault(name, Wanted(book.editions[name])).rows.append(row)
    return list(found.values())


def figure_of(row: Row, standing: Sequence[Figure]) -> Figure:
    """The figure that a row states; where the same is in force, that one as it is written. Raises BadInput."""
    told = row.values
    figure = figure_rules.settled(
        Figure(
            characteristic=told["characteristic"],
            what=told["figure"],
            value=told["value"],
            source=told["source"],
            standing=told.get("standing", ""),
            level_from=told.get("level_from", ""),
            level_to=told.get("level_to", ""),
        )
    )
    return next((it for it in standing if same(it, figure)), figure)


def same(one: Figure, two: Figure) -> bool:
    """Whether two figures say the same, their numbers written with as many noughts as you like."""
    return _comparable(one) == _comparable(two)


def _comparable(it: Figure) -> tuple[str, ...]:
    numbers = map(alike, (it.value, it.level_from, it.level_to))
    return it.characteristic, it.what, it.source, it.standing, *numbers


def clash(one: Figure, two: Figure) -> bool:
    """Whether two figures say the same thing at a level that both have."""
    about = (one.characteristic, one.what) == (two.characteristic, two.what)
    return about and figure_rules.overlap(one, two)


def against_unit(row: Row, characteristic: Characteristic) -> Iterator[Objection]:
    """What stands against the unit of a row: none is said, it is per cent, another one, or one where there is none."""
    given, own = row.values.get("unit", ""), characteristic.unit
    what, value = row.values["figure"], row.values["value"]
    is_bare = not any(it in value for it in UNITLESS)
    if what not in IN_THE_UNIT:
        if given and not same_unit(given, own):
            yield _has_no_unit(row, what)
    elif not given:
        if own and is_bare:
            yield _asks_unit(row, own)
    elif given.casefold() in PER_CENT and ("%" in own or what in PRECISIONS):
        if is_bare and what in PRECISIONS:
            yield _asks_per_cent(row, value, own)
    elif not same_unit(given, own):
        yield _another_unit(row, given, characteristic)


def _has_no_unit(row: Row, what: str) -> Objection:
    return Objection(
        row.row,
        "unit",
        f"What says “{what}” has no unit: leave the cell empty.",
        "no unit",
        (LEAVE_CELLS, LEAVE_ROWS),
        takes_text=False,
    )


def _asks_unit(row: Row, own: str) -> Objection:
    return Objection(
        row.row,
        "unit",
        "No unit stands beside these figures. Do they stand in the unit in which their "
        "characteristic is reported?",
        "unit",
        (Choice(OWN, "Each in the unit of its characteristic"), LEAVE_ROWS),
        OWN,
        is_refusal=False,
        sets={OWN: own},
    )


def _asks_per_cent(row: Row, value: str, own: str) -> Objection:
    of_level = Choice(OF_LEVEL, "Per cent of the level of the results")
    asked = Objection(
        row.row,
        "value",
        "The unit says per cent: of what?",
        "per cent",
        (of_level, LEAVE_ROWS),
        OF_LEVEL,
        is_refusal=False,
        takes_text=False,
        sets={OF_LEVEL: f"{value} %"},
    )
    if "%" not in own:
        return asked
    in_unit = Choice(IN_UNIT, "In the unit of the results, the same at every level")
    return replace(
        asked,
        sentence="The results stand in per cent too: is the figure per cent of their "
        "level, or in their own unit?",
        matter="per cent of what",
        choices=(of_level, in_unit, LEAVE_ROWS),
        proposed="",
        sets={**asked.sets, IN_UNIT: value},
    )


def _another_unit(row: Row, given: str, it: Characteristic) -> Objection:
    kept = f"“{it.in_full}” is reported in {it.unit or 'no unit'}"
    if unit_typed(f"1 {given}") is None:
        return Objection(
            row.row,
            "unit",
            f"“{given}” is no unit that is known here; {kept}. Where that is meant, write "
            f"{it.unit or 'nothing'}; else leave these rows out.",
            "unknown unit",
            (LEAVE_ROWS,) if it.unit else (LEAVE_CELLS, LEAVE_ROWS),
            takes_text=bool(it.unit),
        )
    return Objection(
        row.row,
        "unit",
        f"The figure stands in {given}; {kept}. A figure is not converted: write it in that "
        "unit in the file and bring the file in again, or leave these rows out.",
        "another unit",
        takes_text=False,
    )
