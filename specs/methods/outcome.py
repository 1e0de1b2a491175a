"""The forms in which a procedure asks for readings and answers with an outcome."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import Literal

from specs.numbers import Number, NumberRefused, Refused, read

Parameters = Mapping[str, str]
SlotKind = Literal["number", "rating", "words"]
ResultKind = Literal["number", "ladder", "rating", "pass or fail", "words"]
ConditionKind = Literal["number", "time", "instrument", "choice"]

# Of the edition, at the level of the result: handed over beside the settings, never one.
REPEATABILITY = "repeatability"


class ParametersRefused(Refused):
    """A method is set up with a parameter that its procedure does not know."""


@dataclass(frozen=True)
class Slot:
    """One place for a reading. The order of slots is the order of typing.

    `row` and `column` are headings for a table of slots, empty in a plain list.
    `choices` are the marks of a rating, or the words that a number slot accepts
    in place of a number ("none"). Outside `plausible` a reading is questioned.
    """

    key: str
    label: str
    unit: str = ""
    kind: SlotKind = "number"
    row: str = ""
    column: str = ""
    choices: tuple[str, ...] = ()
    optional: bool = False
    plausible: tuple[str, str] | None = None


@dataclass(frozen=True)
class Condition:
    """One circumstance of a determination: a temperature, a time, an instrument.

    What is said `of_curve` holds for the curve and the lines it was said of alone.
    """

    key: str
    label: str
    kind: ConditionKind
    unit: str = ""
    required: bool = True
    instrument_kind: str = ""
    default: str = ""
    choices: tuple[str, ...] = ()
    of_curve: bool = False


@dataclass(frozen=True)
class Parameter:
    """One setting of a procedure; `house` marks a figure that no standard states.

    `check` raises a Refused for a value that the procedure could not use.
    """

    key: str
    label: str
    default: str
    choices: tuple[str, ...] = ()
    house: bool = False
    check: Callable[[str], object] | None = None


@dataclass(frozen=True)
class Bar:
    """Why a value cannot count towards a verdict, and what to do next."""

    key: str
    sentence: str
    advice: str


@dataclass(frozen=True)
class Given:
    """All that a determination has so far.

    `times` holds when each slot was read; a reading without a time counts as read
    at `now`. All times are aware; sentences show them in the zone of `now`.
    `trace` is the curve of the run where the procedure takes one: time and signal.
    """

    readings: Mapping[str, Number | str]
    now: datetime
    times: Mapping[str, datetime] = field(default_factory=dict)
    conditions: Mapping[str, Number | datetime | str] = field(default_factory=dict)
    parameters: Parameters = field(default_factory=dict)
    trace: Sequence[tuple[Decimal, Decimal]] = ()

    def reading(self, key: str) -> Number | None:
        """The number read in a slot, or None."""
        found = self.readings.get(key)
        return found if isinstance(found, Number) else None

    def mark(self, key: str) -> str:
        """The word or rating in a slot, trimmed and in small letters, or empty."""
        found = self.readings.get(key)
        return found.strip().casefold() if isinstance(found, str) else ""

    def read_at(self, key: str) -> datetime:
        """When a slot was read, in the zone of `now`."""
        return self.times.get(key, self.now).astimezone(self.now.tzinfo)

    def number(self, condition: Condition) -> Number | None:
        """The number of a condition, its default when nothing was given."""
        found = self.conditions.get(condition.key)
        if isinstance(found, Number):
            return found
        unanswered = found is None or found == ""
        return read(condition.default) if unanswered and condition.default else None

    def time(self, key: str) -> datetime | None:
        """The time of a condition in the zone of `now`, or None."""
        found = self.conditions.get(key)
        return (
            found.astimezone(self.now.tzinfo) if isinstance(found, datetime) else None
        )

    def choice(self, condition: Condition) -> str | None:
        """The choice made, or the default; None when it is not one offered."""
        found = self.conditions.get(condition.key) or condition.default
        return found if isinstance(found, str) and found in condition.choices else None


@dataclass(frozen=True)
class Outcome:
    """What a determination has come to so far.

    complete  every required reading and condition is there
    accepted  no rule of acceptance fails (False: `asks` says what to do)
    value     unrounded, None while it cannot be computed
    reported  rounded once by the method
    mark      the rating or finding where the result is no number
    bars      why it cannot count towards a verdict; the value is shown all the same
    asks      what is still missing or doubtful, each a sentence
    says      how the value came about, a phrase
    parts     named intermediate values, as exact text
    """

    complete: bool
    accepted: bool
    value: Number | None = None
    reported: Number | None = None
    mark: str = ""
    bars: tuple[Bar, ...] = ()
    asks: tuple[str, ...] = ()
    says: str = ""
    parts: Mapping[str, str] = field(default_factory=dict)

    @property
    def can_count(self) -> bool:
        """Whether a verdict may be founded on it."""
        has_result = self.value is not None or self.mark != ""
        return self.complete and self.accepted and not self.bars and has_result


Derive = Callable[[Mapping[str, Number], Parameters], Outcome]


def as_it_stands(mark: str) -> str:
    """The mark itself, which is how all but pairs of ratings are judged."""
    return mark


@dataclass(frozen=True)
class Procedure:
    """A way to carry out a method, named in the catalogue.

    A derived procedure has no slots: it computes from the unrounded values of the
    roles in `derived_from` by `derive`. `scale` holds the marks of a rating, best
    first; `judged_as` gives the one by which a result of several marks is judged.
    One that `takes_trace` computes from an imported curve; one that `compares_runs`
    holds them against the repeatability that it is handed as a parameter.
    """

    name: str
    kind: ResultKind
    unit: str
    slots: Callable[[Parameters], tuple[Slot, ...]]
    conditions: Callable[[Parameters], tuple[Condition, ...]]
    carry_out: Callable[[Given], Outcome]
    caution: str
    parameters: tuple[Parameter, ...] = ()
    scale: tuple[str, ...] = ()
    derived_from: tuple[str, ...] = ()
    derive: Derive | None = None
    judged_as: Callable[[str], str] = as_it_stands
    takes_trace: bool = False
    compares_runs: bool = False


def setting(parameters: Parameters, parameter: Parameter) -> str:
    """The value of a parameter, its default when it is not set.

    Raises ParametersRefused when the value is not among the choices, or when the
    procedure could not use it.
    """
    value = parameters.get(parameter.key, "").strip() or parameter.default
    if parameter.choices and value not in parameter.choices:
        raise ParametersRefused(
            f"{parameter.label} cannot be “{value}”: "
            f"choose one of {', '.join(parameter.choices)}."
        )
    if parameter.check is not None and value:
        try:
            parameter.check(value)
        except Refused as refusal:
            why = f"{parameter.label} cannot be “{value}”: {refusal.sentence}"
            raise ParametersRefused(why) from refusal
    return value


def above_nought(text: str) -> None:
    """Raise Refused for the text of a setting that is not a plain number above nought."""
    number = number_in(text)
    if number.is_censored or number.value <= 0:
        raise Refused("Write a plain number above 0.")


def number_in(text: str) -> Number:
    """The number of a setting: as typed, or as handed over with all its digits."""
    try:
        return Number.stored(text)
    except NumberRefused:
        return read(text)


def unanswered(given: Given, conditions: tuple[Condition, ...]) -> tuple[str, ...]:
    """A sentence for each required condition that has no usable answer."""
    return tuple(
        f"{condition.label} is still to be given."
        for condition in conditions
        if condition.required and not _is_answered(given, condition)
    )


def implausible(given: Given, slots: tuple[Slot, ...]) -> tuple[str, ...]:
    """A question for each number outside what its slot takes for plausible."""
    return tuple(
        question
        for slot in slots
        if (question := _question(slot, given.reading(slot.key)))
    )


def _question(slot: Slot, number: Number | None) -> str:
    if slot.plausible is None or number is None:
        return ""
    low, high = (read(bound) for bound in slot.plausible)
    if low.value <= number.value <= high.value:
        return ""
    return (
        f"{slot.label} is {number.canonical} {slot.unit}, outside {low} to {high}: "
        "read it again, or leave it if it is right."
    )


def _is_answered(given: Given, condition: Condition) -> bool:
    if condition.kind == "number":
        return given.number(condition) is not None
    if condition.kind == "time":
        return given.time(condition.key) is not None
    if condition.kind == "choice":
        return given.choice(condition) is not None
    found = given.conditions.get(condition.key)
    return isinstance(found, str) and found.strip() != ""
