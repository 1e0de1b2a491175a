"""The page of the method book: what an edition asks of each characteristic and how well it measures it, figure by figure."""

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from lims.methods.figure_rules import span
from lims.methods.figures import Figure, What
from lims.methods.models import Characteristic, FigureCheck, MethodEdition
from lims.methods.queries import FROM_MEMORY
from lims.screens.zone import zone
from lims.wording import dates
from lims.wording.numbers import shown, unit_shown
from specs import chain

Kind = Characteristic.Kind
IN_THE_UNIT = (What.STEP, What.PLAUSIBLE_FROM, What.PLAUSIBLE_TO)
PRECISION = (What.REPEATABILITY, What.REPRODUCIBILITY)
UNITLESS = ("%", "digit")  # of the level itself; of any size
OF_THE_LEVEL = {"m", "%"}
# What the page says is not stated, where it is not.
EXPECTED: Mapping[str, tuple[What, ...]] = {
    Kind.NUMBER: (
        What.DETERMINATIONS,
        What.COMBINING,
        What.STEP,
        What.BETTER,
        What.PLAUSIBLE_FROM,
        What.SCHOOL,
        *PRECISION,
    ),
    Kind.LADDER: (What.DETERMINATIONS, What.COMBINING, What.BETTER, *PRECISION),
    Kind.RATING: (What.DETERMINATIONS, What.COMBINING, *PRECISION),
    Kind.FINDING: (What.DETERMINATIONS, What.COMBINING),
    Kind.WORDS: (),
}
NOT_STATED = {What.PLAUSIBLE_FROM: "plausible range"}
IN_WORDS = {
    What.REPEATABILITY: "repeatability r",
    What.REPRODUCIBILITY: "reproducibility R",
}


Numbers = dict[tuple[str, str, str], int]  # of sources, in the order of the page


@dataclass(frozen=True)
class FigureRow:
    """One figure as the page shows it; `origin` is the number of its source on the page."""

    figure: Figure
    value: str
    level: str
    check: FigureCheck | None  # the last one that holds for exactly this figure
    origin: int

    @property
    def what(self) -> str:
        return IN_WORDS.get(What(self.figure.what), self.figure.what)

    @property
    def key(self) -> str:
        return key_of(self.figure)

    @property
    def rests_on_memory(self) -> bool:
        return self.figure.standing == FROM_MEMORY and self.check is None

    @property
    def checked(self) -> str:
        """Who compared it with the laboratory's own copy, and when."""
        return _checked(self.figure, self.check)


@dataclass(frozen=True)
class Chapter:
    """What an edition says of one characteristic, and what it leaves out."""

    characteristic: Characteristic
    rows: list[FigureRow]
    missing: list[str]

    @property
    def is_by_level(self) -> bool:
        """Whether a precision is told in the level, so that the page says what m means."""
        return any(
            it.figure.is_precision and OF_THE_LEVEL & set(it.figure.value)
            for it in self.rows
        )


@dataclass(frozen=True)
class Origin:
    """Where figures of a page are from, how they are known and who compared them, told once."""

    number: int
    source: str
    standing: str
    checked: str

    @property
    def known(self) -> str:
        """Its standing, unless the source says it itself, and its check."""
        says_it = self.source.casefold().startswith(self.standing)
        return self.checked if says_it else f"{self.standing}, {self.checked}"


def key_of(figure: Figure) -> str:
    """A short print of a figure: equal prints mean the same figure to the letter."""
    return hashlib.sha256(chain.canonical(figure.told)).hexdigest()[:16]


def value_of(figure: Figure, characteristic: Characteristic | None) -> str:
    """A figure's value with its unit, where it is in one."""
    number = shown(figure.value)
    unit = characteristic.unit if characteristic else ""
    has_unit = figure.is_precision or figure.what in IN_THE_UNIT
    if not unit or not has_unit or any(it in figure.value for it in UNITLESS):
        return number
    return f"{number}\u00a0{unit_shown(unit)}"


def checks_by_figure(checks: Iterable[FigureCheck]) -> dict[Figure, FigureCheck]:
    """The last check of each figure that was ever compared."""
    return {
        Figure.of(told): row
        for row in sorted(checks, key=lambda it: (it.checked_on, it.pk))
        for told in row.figures
    }


def chapters(
    edition: MethodEdition,
    figures: Sequence[Figure],
    checks: Iterable[FigureCheck],
    known: Mapping[str, Characteristic],
) -> list[Chapter]:
    """The page of an edition, a chapter a characteristic that it measures."""
    checked = checks_by_figure(checks)
    measured = [known[code] for code in edition.characteristics if code in known]
    numbers: Numbers = {}
    return [_chapter(it, figures, checked, numbers) for it in measured]


def origins(chapters: Iterable[Chapter]) -> list[Origin]:
    """The sources of a page, by the numbers that its figures name."""
    found = {
        row.origin: Origin(
            row.origin,
            row.figure.source,
            row.figure.standing,
            row.checked.removeprefix(f"{FROM_MEMORY}, "),
        )
        for it in chapters
        for row in it.rows
    }
    return list(found.values())


def _chapter(
    row: Characteristic,
    figures: Iterable[Figure],
    checked: Mapping[Figure, FigureCheck],
    numbers: Numbers,
) -> Chapter:
    own = [it for it in figures if it.characteristic == row.code]
    rows = [_row(it, row, checked.get(it), numbers) for it in own]
    return Chapter(row, rows, _missing(row, own))


def _row(
    figure: Figure, row: Characteristic, check: FigureCheck | None, numbers: Numbers
) -> FigureRow:
    level = span(figure) if figure.level_from or figure.level_to else ""
    place = (figure.source, figure.standing, _checked(figure, check))
    number = numbers.setdefault(place, len(numbers) + 1)
    return FigureRow(figure, value_of(figure, row), level, check, number)


def _checked(figure: Figure, check: FigureCheck | None) -> str:
    if check is not None:
        day = dates.day(check.checked_on, zone())
        return f"checked by {check.checked_by} on {day}"
    is_from_memory = figure.standing == FROM_MEMORY
    return "from memory, not checked" if is_from_memory else "not checked"


def _missing(row: Characteristic, own: Iterable[Figure]) -> list[str]:
    stated = {it.what for it in own}
    expected = PRECISION if row.is_derived else EXPECTED[Kind(row.kind)]
    words = IN_WORDS | NOT_STATED
    return [words.get(it, str(it)) for it in expected if it not in stated]
