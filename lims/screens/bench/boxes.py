"""The boxes of a set: one for each condition and each reading, in the order of typing, with what is kept of each."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from django.urls import reverse

from lims.bench.evaluation import Held, held, slots_of, typed_conditions_of
from lims.bench.models import Condition, Determination, Test
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
    place: int = 1  # of its set
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

    def sent_from(self, place: str) -> "Box":
        """The box with the place that its page sent for its set."""
        return replace(self, place=int(place)) if place.isdecimal() else self


@dataclass(frozen=True)
class Typed:
    """What was typed and refused, to be shown again."""

    text: str
    refusal: Refusal
    again: str = ""
    reason: str = ""  # what was chosen or written, and did not suffice
    why: str = ""

    @property
    def kept(self) -> Kept:
        return Kept(
            refusal=self.refusal, again=self.again, reason=self.reason, why=self.why
        )


Refused = Mapping[str, Typed]


def conditions(
    test: Test,
    determination: Determination | None,
    instruments: Instruments,
    refused: Refused | None = None,
    before: Determination | None = None,
) -> list[Box]:
    """The conditions that are asked for; the counter only when it decides something. `before` is the set before this one."""
    has, earlier = held(determination), held(before)
    place = place_of(determination, before)
    return [
        replace(
            _condition(
                test,
                asked,
                has.conditions.get(asked.key),
                _for(asked, instruments, earlier),
                (refused or {}).get(asked.key),
            ),
            place=place,
        )
        for asked in typed_conditions_of(test.characteristic)
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
    test: Test,
    determination: Determination | None,
    refused: Refused | None = None,
    before: Determination | None = None,
) -> list[Box]:
    """The readings of the set in the order of typing."""
    has = Set(test, held(determination), vessels.units_of(determination))
    place = place_of(determination, before)
    return [
        replace(_reading(slot, has, (refused or {}).get(slot.key)), place=place)
        for slot in slots_of(test.characteristic)
    ]


def place_of(determination: Determination | None, before: Determination | None) -> int:
    """The place of a set, begun or still to be."""
    if determination is not None:
        return determination.place
    return before.place + 1 if before is not None else 1


def _address(what: str, test: Test) -> str:
    return reverse(f"bench:{what}", args=[test.sample.number, test.characteristic.code])


# ---- One condition


def _for(asked: Asked, instruments: Instruments, earlier: Held) -> Offer:
    """The instruments for one condition: that of the set before goes before the one used last."""
    offer = instruments.get(asked.instrument_kind, Offer())
    row = earlier.conditions.get(asked.key)
    return replace(offer, last=row.text) if row is not None else offer


def _condition(
    test: Test, asked: Asked, row: Condition | None, offer: Offer, typed: Typed | None
) -> Box:
    saved = row.text if row is not None else ""
    choices = _choices(asked, row, offer)
    offered = _offered(asked, choices, offer)
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
        kept=typed.kept
        if typed
        else keeping.of_condition(row, asked, offered, is_known=bool(offer.rows)),
    )


def _hint(asked: Asked) -> str:
    if asked.kind == "time":
        return "like 08:52:10 or 085210"
    if asked.kind == "number" and asked.default:
        return f"{asked.default} unless you write another"
    return ""


def _choices(asked: Asked, row: Condition | None, offer: Offer) -> tuple[Choice, ...]:
    if asked.kind == "choice":
        named = tuple(Choice(each, each) for each in asked.choices)
        return named if asked.default else (Choice("", "choose"), *named)
    if asked.kind != "instrument":
        return ()
    saved = row.text if row is not None else ""
    ready = [it for it in offer.rows if it.is_in_service or str(it.instrument) == saved]
    barred = [it for it in offer.rows if it not in ready]
    return (
        Choice("", "choose"),
        *(Choice(it.instrument.number, _standing(it, row)) for it in (*ready, *barred)),
    )


def _standing(it: Standing, row: Condition | None) -> str:
    """An instrument with its state: of the one that was used, the state it was used in."""
    number = it.instrument.number
    is_used = row is not None and row.text == number
    state = row.instrument_state if row is not None and is_used else it.state
    return f"{number}, {keeping.state_words(state)}"


def _offered(asked: Asked, choices: tuple[Choice, ...], offer: Offer) -> str:
    """What stands ready and is saved by Enter: the only instrument in service, or the one used last."""
    if asked.kind == "choice":
        return asked.default
    tail = f", {Instrument.State.IN_SERVICE}"
    ready = [each.value for each in choices if each.words.endswith(tail)]
    if not asked.required or not ready:
        return ""
    return ready[0] if len(ready) == 1 else offer.last if offer.last in ready else ""


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
        kept=typed.kept if typed else keeping.of_reading(row, slot, unit, has.held),
    )


def _reading_hint(slot: Slot) -> str:
    if slot.kind == "rating" and len(slot.choices) > FEW:
        return f"{slot.choices[0]} to {slot.choices[-1]}"
    return (
        f"or {' or '.join(slot.choices)}"
        if slot.kind == "number" and slot.choices
        else ""
    )
