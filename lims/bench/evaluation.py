"""From stored readings to the outcome of a determination, by the same functions in specs that `prove` runs."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from lims.bench.models import Condition, Determination, Reading
from lims.bench.running import run_of
from lims.instruments.models import Instrument
from lims.methods.models import Characteristic
from lims.people.queries import site_zone
from lims.record.clock import now
from specs.methods.catalogue import PROCEDURES
from specs.methods.outcome import Condition as Asked
from specs.methods.outcome import Given, Outcome, Procedure, Slot
from specs.numbers import Number, NumberRefused, read

IN_SERVICE = Instrument.State.IN_SERVICE


@dataclass(frozen=True)
class Held:
    """What is active on a determination: the newest reading of each slot, the newest text of each condition."""

    readings: dict[str, Reading]
    conditions: dict[str, Condition]

    def having(self, row: Reading | Condition) -> "Held":
        """With a row that was just saved, in the place of an older one."""
        if isinstance(row, Reading):
            return Held(self.readings | {row.slot: row}, self.conditions)
        return Held(self.readings, self.conditions | {row.key: row})


def procedure_of(characteristic: Characteristic) -> Procedure:
    return PROCEDURES[characteristic.procedure]


def slots_of(characteristic: Characteristic) -> tuple[Slot, ...]:
    return procedure_of(characteristic).slots(characteristic.parameters)


def conditions_of(characteristic: Characteristic) -> tuple[Asked, ...]:
    return procedure_of(characteristic).conditions(characteristic.parameters)


def held(determination: Determination | None) -> Held:
    """The active readings and conditions; rows are ordered, so the newest of a slot wins."""
    if determination is None or determination.pk is None:
        return Held({}, {})
    return Held(
        readings={r.slot: r for r in _in_order(determination.readings.all())},
        conditions={c.key: c for c in _in_order(determination.conditions.all())},
    )


def _in_order(rows: Iterable[Any]) -> list[Any]:
    return sorted(rows, key=lambda row: row.pk)


def outcome_of(characteristic: Characteristic, has: Held) -> Outcome:
    """Carry the method out on what is held. Nothing is written."""
    asked = {c.key: c for c in conditions_of(characteristic)}
    given = Given(
        readings={slot: _as_read(r.text) for slot, r in has.readings.items()},
        times={slot: r.read_at for slot, r in has.readings.items()},
        conditions={
            key: _as_condition(asked[key].kind, condition)
            for key, condition in has.conditions.items()
            if key in asked
        },
        parameters=characteristic.parameters,
        now=now().astimezone(site_zone()),
    )
    return procedure_of(characteristic).carry_out(given)


def _as_read(text: str) -> Number | str:
    try:
        return read(text)
    except NumberRefused:
        return text


def _as_condition(kind: str, condition: Condition) -> Number | dt.datetime | str:
    if kind == "number":
        return read(condition.text)
    if kind == "time":
        return dt.datetime.fromisoformat(condition.value)
    return condition.text


def instrument_bars(has: Held) -> list[dict[str, str]]:
    """An instrument that was not in service when it was used keeps the value from counting."""
    return [
        {
            "key": f"instrument {c.instrument}",
            "sentence": f"{c.instrument} was {c.instrument_state} when it was used.",
            "advice": "Repeat on an instrument in service, or have it checked first.",
        }
        for c in has.conditions.values()
        if c.instrument_id and c.instrument_state != IN_SERVICE
    ]


def evaluate(determination: Determination, has: Held | None = None) -> Outcome:
    """Set on a determination what its readings mean now; the caller saves it."""
    characteristic = determination.test.characteristic
    has = has or held(determination)
    outcome = outcome_of(characteristic, has)
    bars = [
        {"key": b.key, "sentence": b.sentence, "advice": b.advice} for b in outcome.bars
    ] + instrument_bars(has)
    determination.is_complete = outcome.complete
    determination.value = outcome.value.canonical if outcome.value else outcome.mark
    determination.reported = (
        outcome.reported.canonical if outcome.reported else outcome.mark
    )
    determination.says = outcome.says
    determination.parts = dict(outcome.parts)
    determination.bars = bars
    determination.asks = list(outcome.asks)
    run = run_of(characteristic, has.conditions)
    determination.ends_at = run.ends_at if run else None
    may_stand = outcome.can_count and not bars
    if determination.state != Determination.State.SET_ASIDE:
        determination.state = (
            Determination.State.ACCEPTED if may_stand else Determination.State.BEGUN
        )
    return outcome
