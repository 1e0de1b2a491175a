"""What the sets of a test come to by the rules of its edition: a value to report, or what is asked for next. Nothing is written here, and no other rule is ever computed beside it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction

from lims.bench import results as made
from lims.bench.models import Determination
from lims.bench.results import LOOK_FOR_IT, Result, Results, counted, listed
from lims.methods.asked import Asked
from lims.methods.figures import Figure, What
from specs.judging.repeats import TEST_AGAIN, Repeated, repeat
from specs.judging.rounding import mean
from specs.numbers import Number, Refused, shortened, to_decimal

ONE_DETERMINATION = "one accepted determination is the reported value"
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh")
MANY = "further"


@dataclass(frozen=True)
class Settled:
    """The outcome of the rules for one test. Without a value and without `asks`, no set stands yet."""

    value: str = ""
    reported: str = ""
    says: str = ""
    rule: str = ""
    constants: str = ""
    asks: str = ""
    sources: tuple[int, ...] = ()  # determinations
    aside: Mapping[int, str] = field(default_factory=dict)  # determination -> why
    figures: tuple[Figure, ...] = ()

    @property
    def is_value(self) -> bool:
        return self.value != ""


def settled_by(
    asked: Asked,
    standing: Sequence[Determination],
    *,
    rejected: Determination | None = None,
) -> Settled:
    """What the determinations that can stand come to; `rejected` is a set that was set aside by hand for its spread."""
    if not standing:
        return Settled()
    results = made.results_of(asked, standing)
    asks = results.asks or _asks_first(asked, results, rejected)
    if asks:
        figures = [*results.figures]
        if rejected and not results.lacking and len(results.found) == 1:
            figures += made.stated(asked, What.CONFIRM)
        return Settled(asks=asks, aside=results.aside, figures=tuple(figures))
    if len(results.found) == 1:
        return _one(asked, results)
    numbers = [each.exact for each in results.found]
    exact = [each for each in numbers if each is not None]
    if made.is_averaged(asked.characteristic) and len(exact) == len(numbers):
        return _compared(asked, results, exact)
    return _the_worse(asked, results)


# ---- What is asked for before anything is compared


def _asks_first(asked: Asked, results: Results, rejected: Determination | None) -> str:
    count, found = asked.determinations, len(results.found)
    if results.lacking:
        have = count - results.lacking
        more = _more("determination", have, results.lacking)
        return f"{more}: the method takes {counted(count)} for a result."
    if not found:
        reason = next(iter(results.aside.values()))
        return f"{_more('determination', 0, count)}: {_why(reason)}."
    if rejected is not None and found == 1 and asked.confirms:
        return (
            f"A second fill is asked for: set {rejected.place} was set aside for its "
            "spread, and one result does not suffice after that."
        )
    return ""


def _why(reason: str) -> str:
    """The figures of a reason, without what is to be done about it."""
    return reason.split(": ", 1)[-1].removesuffix(f"; {LOOK_FOR_IT}")


def _more(what: str, have: int, lacking: int) -> str:
    if lacking == 1:
        return f"A {_ordinal(have)} {what} is asked for"
    if have == 0:
        return f"{counted(lacking).capitalize()} fresh {what}s are asked for"
    return f"{counted(lacking).capitalize()} more {what}s are asked for"


def _ordinal(have: int) -> str:
    return ORDINALS[have] if have < len(ORDINALS) else MANY


# ---- What is reported


def _one(asked: Asked, results: Results) -> Settled:
    result = results.found[0]
    alone = len(result.sets) == 1
    figures = [*results.figures]
    if alone and result.exact is not None:
        figures += made.stated(asked, What.STEP)
    how = asked.combining or "the worse"
    return Settled(
        value=result.value,
        reported=result.reported,
        says=result.says,
        rule=ONE_DETERMINATION
        if alone
        else f"{how} of {counted(len(result.sets))} determinations, {result.named}",
        sources=tuple(each.pk for each in result.sets),
        aside=results.aside,
        figures=tuple(figures),
    )


def _the_worse(asked: Asked, results: Results) -> Settled:
    """Marks, ladder values and bounds are never averaged: where they differ, the worse stands and says so."""
    marks = [each.value for each in results.found]
    place = made.worst_place(asked, marks)
    if place is None:
        asks = made.NO_DIRECTION.format(listed(marks))
        return Settled(asks=asks, aside=results.aside, figures=tuple(results.figures))
    stands, told = results.found[place], _each(results.found)
    same = len(set(marks)) == 1
    return Settled(
        value=stands.value,
        reported=stands.reported,
        says=f"the same in {told}" if same else f"the worse of {told}",
        rule=f"{counted(len(marks))} results that agree"
        if same
        else "the worse of results that differ stands: they are never averaged",
        sources=_sources(results.found),
        aside=results.aside,
        figures=(*results.figures, *made.stated(asked, What.BETTER)),
    )


def _compared(asked: Asked, results: Results, exact: Sequence[Fraction]) -> Settled:
    """Two or more results by the repeat rule of the edition; without one, or without a figure at this level, their mean, not judged."""
    level = mean(exact)
    stated_at = made.limit_at(asked, What.REPEATABILITY, level)
    if stated_at is None or not asked.school:
        return _not_judged(asked, results, level, has_figure=stated_at is not None)
    figure, r = stated_at
    used = [figure, *made.stated(asked, What.SCHOOL, What.ROUTE, What.CONSTANTS)]
    results.figures += used
    try:
        told = repeat(
            asked.school, exact, r, route=asked.route, constants=asked.constants
        )
    except Refused as refusal:
        return Settled(
            asks=f"The results cannot be compared. {refusal.sentence}",
            aside=results.aside,
            figures=tuple(results.figures),
        )
    if told.outcome == TEST_AGAIN:
        return Settled(
            asks=_asks_again(asked, results.found, exact, r, told),
            constants=asked.constants,
            aside=results.aside,
            figures=tuple(results.figures),
        )
    return _by_rule(asked, results, told)


def _not_judged(
    asked: Asked, results: Results, value: Fraction, *, has_figure: bool
) -> Settled:
    why = (
        "no repeat rule is stated"
        if has_figure
        else f"no repeatability is stated at {shortened(value)}"
    )
    return Settled(
        value=Number.of(to_decimal(value)).canonical,
        reported=made.rounded(asked, value, results.figures),
        says=f"mean of {_each(results.found)}; {why}, their difference was not judged",
        rule=f"mean of {counted(len(results.found))} results; {why}, their difference was not judged",
        sources=_sources(results.found),
        aside=results.aside,
        figures=tuple(results.figures),
    )


def _asks_again(
    asked: Asked,
    found: Sequence[Result],
    exact: Sequence[Fraction],
    r: Decimal,
    told: Repeated,
) -> str:
    if len(found) == 2:
        apart = shortened(abs(exact[0] - exact[1]))
        first, second = (_told(it, at) for at, it in enumerate(found, 1))
        limit = f"more than r {shortened(r, 4)} ({asked.school})"
        why = f"{first} and {second} differ by {apart}, {limit}"
    else:
        why = told.says.rpartition(":")[0]
    return f"{_more('result', len(found), told.more)}: {why}."


def _by_rule(asked: Asked, results: Results, told: Repeated) -> Settled:
    """What the rule reports; what it sets aside stays, with its reason."""
    if told.value is None:
        return Settled(aside=results.aside)
    out = set(told.set_aside)
    used = [it for at, it in enumerate(results.found) if at not in out]
    aside = {
        each.pk: _reason(asked, told)
        for at in told.set_aside
        for each in results.found[at].sets
    }
    says = f"{told.statistic} of {_each(results.found, without=out)}"
    if out:
        others = _each(results.found, without=set(range(len(results.found))) - out)
        says = f"{says}; {others} set aside by {asked.school}"
    return Settled(
        value=Number.of(to_decimal(told.value)).canonical,
        reported=made.rounded(asked, told.value, results.figures),
        says=says,
        rule=told.says,
        constants=asked.constants,
        sources=_sources(used),
        aside=results.aside | aside,
        figures=tuple(results.figures),
    )


def _reason(asked: Asked, told: Repeated) -> str:
    working = told.says.partition(" (")[0]
    return f"set aside by {asked.school}: {working}; {LOOK_FOR_IT}"


def _each(found: Sequence[Result], *, without: set[int] | None = None) -> str:
    left_out = without or set()
    return listed(
        [_told(it, at) for at, it in enumerate(found, 1) if at - 1 not in left_out]
    )


def _told(result: Result, number: int) -> str:
    """``result 2 (set 3) 288.33``: the number in the rule's own sentence, and the set."""
    return f"result {number} ({result.named}) {result.shown}"


def _sources(found: Sequence[Result]) -> tuple[int, ...]:
    return tuple(each.pk for it in found for each in it.sets)
