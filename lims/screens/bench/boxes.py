"""The boxes of a set: one for each condition and each reading, in the order of typing, with what is kept of each."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.urls import reverse

from lims.bench.evaluation import Held, conditions_of, held, slots_of
from lims.bench.models import Determination, Test
from lims.instruments.models import Instrument
from lims.instruments.queries import Standing
from lims.record.refusals import Refusal
from lims.screens.bench import keeping, vessels
from lims.screens.bench.keeping import Kept
from specs.methods.outcome import Condition as Asked
from specs.methods.outcome import Slot
from specs.methods.working import COUNTER

NOTHING = Kept()
FEW = 3  # so many choices are a list; more are typed


@dataclass(frozen=True)
class Offer:
    """The instruments of a kind, those in service first, and the one that this person used last."""

    rows: Sequence[Standing] = ()
    last: str = ""


Instruments = Mapping[str, Offer]  # by kind


@dataclass(frozen=True)
class Choice:
    """One choice of a list."""

    value: str
    words: str


@dataclass(frozen=True)
class Box:
    """One box to type in or choose from."""

    key: str
    label: str
    what: str  # "reading" or "condition"
    code: str  # of the test
    address: str  # where it is sent to
    typed: str = ""
    saved: str = ""
    unit: str = ""
    hint: str = ""
    mode: str = "text"
    choices: tuple[Choice, ...] = ()
    row: str = ""
    column: str = ""
    optional: bool = False
    is_words: bool = False
    kept: Kept = NOTHING

    @property
    def id(self) -> str:
        return f"{self.code}-{self.key}"

    @property
    def is_list(self) -> bool:
        return bool(self.choices)


@dataclass(frozen=True)
class Typed:
    """What was typed and refused, to be shown again."""

    text: str
    refusal: Refusal
    again: str = ""


Refused = Mapping[str, Typed]


def conditions(
    test: Test,
    determination: Determination | None,
    instruments: Instruments,
    refused: Refused | None = None,
) -> list[Box]:
    """The conditions that are asked for; the counter only when it decides something."""
    has = held(determination)
    return [
        _condition(test, asked, has, instruments, (refused or {}).get(asked.key))
        for asked in conditions_of(test.characteristic)
        if asked.key != COUNTER.key
        or asked.key in (refused or {})
        or _wants_counter(determination, has)
    ]


def _wants_counter(determination: Determination | None, has: Held) -> bool:
    if COUNTER.key in has.conditions:
        return True
    bars = determination.bars if determination is not None else []
    return any(bar["key"] == COUNTER.key for bar in bars)


def readings(
    test: Test, determination: Determination | None, refused: Refused | None = None
) -> list[Box]:
    """The readings of the set in the order of typing."""
    has = Set(test, held(determination), vessels.units_of(determination))
    return [
        _reading(slot, has, (refused or {}).get(slot.key))
        for slot in slots_of(test.characteristic)
    ]


def _address(what: str, test: Test) -> str:
    return reverse(f"bench:{what}", args=[test.sample.number, test.characteristic.code])


# ---- One condition


def _condition(
    test: Test, asked: Asked, has: Held, instruments: Instruments, typed: Typed | None
) -> Box:
    row = has.conditions.get(asked.key)
    saved = row.text if row is not None else ""
    choices = _choices(asked, saved, instruments)
    offered = _offered(asked, choices, instruments)
    return Box(
        key=asked.key,
        label=asked.label,
        what="condition",
        code=test.characteristic.code,
        address=_address("condition", test),
        typed=typed.text if typed else saved or offered,
        saved=saved,
        unit="" if asked.kind == "time" else asked.unit,
        hint=_hint(asked),
        mode="decimal" if asked.kind == "number" else "text",
        choices=choices,
        optional=not asked.required,
        kept=Kept(refusal=typed.refusal, again=typed.again)
        if typed
        else keeping.of_condition(row, asked, offered),
    )


def _hint(asked: Asked) -> str:
    if asked.kind == "time":
        return "like 08:52:10 or 085210"
    if asked.kind == "number" and asked.default:
        return f"{asked.default} unless you write another"
    return ""


def _choices(asked: Asked, saved: str, instruments: Instruments) -> tuple[Choice, ...]:
    if asked.kind == "choice":
        return tuple(Choice(each, each) for each in asked.choices)
    if asked.kind != "instrument":
        return ()
    found = instruments.get(asked.instrument_kind, Offer()).rows
    rows = [
        Choice(it.instrument.number, f"{it.instrument.number}, {it.state}")
        for it in found
        if it.is_in_service or it.instrument.number == saved
    ]
    barred = [
        Choice(
            it.instrument.number, f"{it.instrument.number}, {it.state}: cannot count"
        )
        for it in found
        if not it.is_in_service and it.instrument.number != saved
    ]
    return (Choice("", "choose"), *rows, *barred)


def _offered(
    asked: Asked, choices: tuple[Choice, ...], instruments: Instruments
) -> str:
    """What stands ready and is saved by Enter: the only instrument in service, or the one used last."""
    if asked.kind == "choice":
        return asked.default
    tail = f", {Instrument.State.IN_SERVICE}"
    ready = [each.value for each in choices if each.words.endswith(tail)]
    last = instruments.get(asked.instrument_kind, Offer()).last
    if not asked.required or not ready:
        return ""
    return ready[0] if len(ready) == 1 else last if last in ready else ""


# ---- One reading


@dataclass(frozen=True)
class Set:
    """One determination as its reading boxes need it."""

    test: Test
    held: Held
    units: Mapping[str, str]  # of the gauges


def _reading(slot: Slot, has: Set, typed: Typed | None) -> Box:
    test, row = has.test, has.held.readings.get(slot.key)
    saved = row.text if row is not None else ""
    unit = slot.unit
    if vessels.is_vessels(test.characteristic):
        unit = has.units.get(slot.key.rsplit("_", 1)[1], vessels.KPA)
    listed = slot.kind == "rating" and len(slot.choices) <= FEW
    choices = (Choice("", "choose"), *(Choice(it, it) for it in slot.choices))
    return Box(
        key=slot.key,
        label=slot.label,
        what="reading",
        code=test.characteristic.code,
        address=_address("reading", test),
        typed=typed.text if typed else saved,
        saved=saved,
        unit=unit,
        hint=_reading_hint(slot),
        mode="decimal" if slot.kind == "number" and not slot.choices else "text",
        choices=choices if listed else (),
        row=slot.row,
        column=slot.column,
        optional=slot.optional,
        is_words=slot.kind == "words",
        kept=Kept(refusal=typed.refusal, again=typed.again)
        if typed
        else keeping.of_reading(row, slot, unit, has.held),
    )


def _reading_hint(slot: Slot) -> str:
    if slot.kind == "rating" and len(slot.choices) > FEW:
        return f"{slot.choices[0]} to {slot.choices[-1]}"
    return (
        f"or {' or '.join(slot.choices)}"
        if slot.kind == "number" and slot.choices
        else ""
    )
