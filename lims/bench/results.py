"""From the determinations that stand to results: so many to a result as the edition asks for, combined in its way. Nothing is written here."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from statistics import median

from lims.bench.models import Determination
from lims.methods.asked import Asked
from lims.methods.figures import MEAN, MEDIAN, TWO_OF_THREE, Figure, What
from lims.methods.models import Characteristic
from lims.people import permissions
from specs.judging.combining import majority, worst_of
from specs.judging.precision import read_expression
from specs.judging.rounding import mean
from specs.judging.steps import rounded as to_step
from specs.methods.catalogue import PROCEDURES
from specs.numbers import Number, NumberRefused, Refused, shortened, to_decimal

LOOK_FOR_IT = "cause not yet found, look for it"
NO_DIRECTION = (
    "No direction is stated under Methods, so that nobody can say which of {} is the "
    "worse: the technologist states it."
)
IN_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")


@dataclass(frozen=True)
class Result:
    """One result and the determinations that it was made from."""

    sets: tuple[Determination, ...]
    value: str  # exact, or a mark
    reported: str
    says: str

    @property
    def exact(self) -> Fraction | None:
        """The number to compute with; None for a mark and for a bound."""
        return exact_of(self.value)

    @property
    def named(self) -> str:
        return named(self.sets)

    @property
    def shown(self) -> str:
        return self.value if self.exact is None else shortened(self.exact)


@dataclass
class Results:
    """What the determinations come to: results, those set aside by the method's own rule, and what is lacking."""

    found: list[Result] = field(default_factory=list)
    aside: dict[int, str] = field(default_factory=dict)  # determination -> why
    lacking: int = 0  # determinations to the next result
    asks: str = ""
    figures: list[Figure] = field(default_factory=list)


def results_of(asked: Asked, standing: Sequence[Determination]) -> Results:
    """The results of determinations in their order, so many to each as the edition asks for."""
    results, count = Results(), asked.determinations
    if count > 1:
        results.figures += stated(asked, What.DETERMINATIONS, What.COMBINING)
    whole = len(standing) // count * count
    for first in range(0, whole, count):
        _add(results, asked, tuple(standing[first : first + count]))
    results.lacking = (whole + count - len(standing)) % count
    return results


def _add(results: Results, asked: Asked, group: tuple[Determination, ...]) -> None:
    if len(group) == 1:
        results.found.append(_single(asked, group[0]))
        results.figures += figures_of_runs(asked, group[0])
        return
    values = [exact_of(each.value) for each in group]
    numbers = [value for value in values if value is not None]
    computed = asked.combining in (MEAN, MEDIAN) and is_averaged(asked.characteristic)
    if computed and len(numbers) == len(group):
        _add_computed(results, asked, group, numbers)
        return
    marks = [each.value for each in group]
    chosen, says = _of_marks(asked, marks)
    if chosen is None:
        results.asks = NO_DIRECTION.format(listed(marks))
        return
    one = group[chosen]
    results.found.append(Result(group, one.value, one.reported, says))


def _add_computed(
    results: Results,
    asked: Asked,
    group: tuple[Determination, ...],
    numbers: Sequence[Fraction],
) -> None:
    value = mean(numbers) if asked.combining == MEAN else median(numbers)
    apart = max(numbers) - min(numbers)
    stated_at = limit_at(asked, What.DETERMINABILITY, value)
    if stated_at is not None and len(group) == 2:
        figure, limit = stated_at
        results.figures.append(figure)
        if apart > Fraction(limit):
            why = (
                f"set aside by the method's determinability: {named(group)} differ by "
                f"{shortened(apart)}, more than {shortened(limit)}; {LOOK_FOR_IT}"
            )
            results.aside |= dict.fromkeys((each.pk for each in group), why)
            return
    results.found.append(
        Result(
            group,
            Number.of(to_decimal(value)).canonical,
            rounded(asked, value, results.figures),
            f"{asked.combining} of {listed([shortened(each) for each in numbers])}",
        )
    )


def _single(asked: Asked, it: Determination) -> Result:
    """One determination as it stands; a step that the edition states goes before the procedure's own."""
    value, reported = exact_of(it.value), it.reported
    if value is not None and asked.step and is_averaged(asked.characteristic):
        reported = f"{to_step(value, asked.step):f}"
    return Result((it,), it.value, reported, it.says)


def _of_marks(asked: Asked, marks: Sequence[str]) -> tuple[int | None, str]:
    """Which of several marks is the result, and in which words."""
    told = listed(marks)
    if asked.combining == TWO_OF_THREE and majority(marks):
        return marks.index(majority(marks)), f"what most of {told} show"
    worst = worst_place(asked, marks)
    return worst, told if len(set(marks)) == 1 else f"the worse of {told}"


# ---- What the results share


def worst_place(asked: Asked, marks: Sequence[str]) -> int | None:
    """Which of several marks or values is the worst; None when nothing says so."""
    procedure = PROCEDURES[asked.characteristic.procedure]
    return worst_of(
        marks,
        scale=procedure.scale,
        better=asked.better,
        judged_as=procedure.judged_as,
    )


def is_averaged(characteristic: Characteristic) -> bool:
    """Only numbers are; a rating, a finding, words and a value of a ladder never."""
    return characteristic.kind == Characteristic.Kind.NUMBER


def exact_of(text: str) -> Fraction | None:
    try:
        number = Number.stored(text)
    except NumberRefused:
        return None
    return None if number.is_censored else number.exact


def limit_at(
    asked: Asked, what: What, level: Fraction
) -> tuple[Figure, Decimal] | None:
    """A precision at a level, with the figure that states it; None where none is stated."""
    figure = asked.precision(what, level)
    if figure is None:
        return None
    try:
        return figure, read_expression(figure.value).at(level)
    except Refused:
        return None  # the expression has no value there


def figures_of_runs(asked: Asked, it: Determination) -> list[Figure]:
    """The repeatability that the runs within a determination were held against."""
    value = exact_of(it.value)
    if value is None or not PROCEDURES[asked.characteristic.procedure].compares_runs:
        return []
    stated_at = limit_at(asked, What.REPEATABILITY, value)
    return [stated_at[0]] if stated_at else []


def rounded(asked: Asked, value: Fraction, figures: list[Figure]) -> str:
    """Rounded once: to the edition's step, or to the characteristic's own."""
    figures += stated(asked, What.STEP)
    return f"{to_step(value, asked.step or asked.characteristic.step):f}"


def stated(asked: Asked, *whats: What) -> Iterator[Figure]:
    """The figures of the edition that say these things."""
    return (it for what in whats if (it := asked.figure(what)) is not None)


def named(sets: Sequence[Determination]) -> str:
    """``set 2`` or ``sets 1 and 2``."""
    places = [str(each.place) for each in sets]
    return f"set{'' if len(places) == 1 else 's'} {listed(places)}"


def listed(words: Sequence[str]) -> str:
    """``a, b and c``."""
    return permissions.listed([*words], "and")


def counted(number: int) -> str:
    return IN_WORDS[number] if number < len(IN_WORDS) else str(number)
