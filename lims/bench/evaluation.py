"""From stored readings to the outcome of a determination, by the same functions in specs that `prove` runs."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from lims.bench.models import Condition, Determination, Reading, Trace, UseAllowed
from lims.bench.results import limit_at
from lims.bench.running import run_of
from lims.bench.traces import picture, points_of
from lims.instruments.models import Instrument
from lims.methods.asked import Asked as ByEdition
from lims.methods.figures import What
from lims.methods.models import Characteristic
from lims.people.queries import site_zone
from lims.record.clock import now
from specs.methods.catalogue import PROCEDURES
from specs.methods.outcome import REPEATABILITY, Given, Outcome, Procedure, Slot
from specs.methods.outcome import Condition as Asked
from specs.numbers import Number, NumberRefused, read, shortened

IN_SERVICE = Instrument.State.IN_SERVICE
State = Determination.State


@dataclass(frozen=True)
class Held:
    """What is active on a determination: the newest reading of each slot, the newest text of each condition, the newest curve."""

    readings: dict[str, Reading]
    conditions: dict[str, Condition]
    trace: Trace | None = None

    def having(self, row: Reading | Condition | Trace) -> "Held":
        """With a row that was just saved, in the place of an older one."""
        if isinstance(row, Reading):
            return replace(self, readings=self.readings | {row.slot: row})
        if isinstance(row, Condition):
            return replace(self, conditions=self.conditions | {row.key: row})
        return replace(self, trace=row)


def procedure_of(characteristic: Characteristic) -> Procedure:
    return PROCEDURES[characteristic.procedure]


def slots_of(characteristic: Characteristic) -> tuple[Slot, ...]:
    return procedure_of(characteristic).slots(characteristic.parameters)


def conditions_of(characteristic: Characteristic) -> tuple[Asked, ...]:
    return procedure_of(characteristic).conditions(characteristic.parameters)


def typed_conditions_of(characteristic: Characteristic) -> tuple[Asked, ...]:
    """The conditions that have a box; what is said of a curve is said beneath it."""
    return tuple(it for it in conditions_of(characteristic) if not it.of_curve)


def picture_of(characteristic: Characteristic, has: Held) -> str:
    """The print of what a person sees: the curve and the numbers that its lines are drawn from."""
    numbers = {c.key for c in conditions_of(characteristic) if c.kind == "number"}
    return picture(
        has.trace, [row for key, row in has.conditions.items() if key in numbers]
    )


def stands(asked: Asked, row: Condition, seen: str) -> bool:
    """What was said of a curve stands for the picture that it was said of alone."""
    return not asked.of_curve or row.value == seen


def held(determination: Determination | None) -> Held:
    """The active readings and conditions; rows are ordered, so the newest of a slot wins."""
    if determination is None or determination.pk is None:
        return Held({}, {})
    return Held(
        readings={r.slot: r for r in _in_order(determination.readings.all())},
        conditions={c.key: c for c in _in_order(determination.conditions.all())},
        trace=_trace_of(determination),
    )


def _trace_of(determination: Determination) -> Trace | None:
    """The newest curve, looked for only where the procedure takes one."""
    if not procedure_of(determination.test.characteristic).takes_trace:
        return None
    return max(determination.traces.all(), key=lambda row: row.pk, default=None)


def _in_order(rows: Iterable[Any]) -> list[Any]:
    return sorted(rows, key=lambda row: row.pk)


def outcome_of(
    characteristic: Characteristic, has: Held, by_edition: ByEdition | None = None
) -> Outcome:
    """Carry the method out on what is held, its runs compared by the edition's repeatability where the procedure does so. Nothing is written."""
    procedure = procedure_of(characteristic)
    given = _given(characteristic, has)
    outcome = procedure.carry_out(given)
    if not procedure.compares_runs or by_edition is None or outcome.value is None:
        return outcome
    stated_at = limit_at(by_edition, What.REPEATABILITY, outcome.value.exact)
    if stated_at is None:
        return outcome
    handed = {**given.parameters, REPEATABILITY: f"{stated_at[1]:f}"}
    return procedure.carry_out(replace(given, parameters=handed))


def _given(characteristic: Characteristic, has: Held) -> Given:
    asked = {c.key: c for c in conditions_of(characteristic)}
    seen = picture_of(characteristic, has)
    return Given(
        readings={slot: _as_read(r.text) for slot, r in has.readings.items()},
        times={slot: r.read_at for slot, r in has.readings.items()},
        conditions={
            key: _as_condition(asked[key].kind, condition)
            for key, condition in has.conditions.items()
            if key in asked and stands(asked[key], condition, seen)
        },
        parameters=characteristic.parameters,
        trace=points_of(has.trace),
        now=now().astimezone(site_zone()),
    )


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
    doubted = doubted_uses(has)
    allowed = {it.condition_id for it in allowed_uses(doubted)}
    return [
        {
            "key": f"instrument {c.instrument}",
            "sentence": f"{c.instrument} was {c.instrument_state} when it was used.",
            "advice": "Repeat on an instrument in service, or have it checked first.",
        }
        for c in doubted
        if c.pk not in allowed
    ]


def doubted_uses(has: Held) -> list[Condition]:
    """The uses of an instrument that was not in service."""
    return [
        c
        for c in has.conditions.values()
        if c.instrument_id and c.instrument_state != IN_SERVICE
    ]


def allowed_uses(uses: Iterable[Condition]) -> list[UseAllowed]:
    """Which of these uses somebody let count; nothing is asked where there are none."""
    keys = [it.pk for it in uses]
    return list(UseAllowed.objects.filter(condition__in=keys)) if keys else []


def allowed_of(use: Condition) -> UseAllowed | None:
    """Who let a use of an instrument not in service count, and why."""
    if not use.instrument_id or use.instrument_state == IN_SERVICE:
        return None
    return getattr(use, "allowed", None)


def evaluate(determination: Determination, has: Held, by_edition: ByEdition) -> Outcome:
    """Set on a determination what its readings mean now; the caller saves it. What a person set aside stays so; what a rule set aside may come back."""
    characteristic = determination.test.characteristic
    outcome = outcome_of(characteristic, has, by_edition)
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
    determination.asks = [*outcome.asks, *_doubts(outcome, by_edition)]
    run = run_of(characteristic, has.conditions)
    determination.ends_at = run.ends_at if run else None
    may_stand = outcome.can_count and not bars
    if not is_set_aside_by_hand(determination):
        determination.by_rule, determination.reason = False, ""
        determination.state = State.ACCEPTED if may_stand else State.BEGUN
    return outcome


def is_set_aside_by_hand(determination: Determination) -> bool:
    return determination.state == State.SET_ASIDE and not determination.by_rule


def _doubts(outcome: Outcome, by_edition: ByEdition) -> tuple[str, ...]:
    """A question where the result lies outside what the edition takes for plausible."""
    if outcome.value is None or by_edition.plausible is None:
        return ()
    low, high = (read(bound) for bound in by_edition.plausible)
    if low.value <= outcome.value.value <= high.value:
        return ()
    unit = by_edition.characteristic.unit
    factor = " ×" if unit[:1].isdigit() else ""
    bounds = f"{low} to {high}{factor} {unit}".rstrip()
    doubt = (
        f"The result {shortened(outcome.value.value)} lies outside {bounds}, "
        f"where {by_edition.edition} expects it: look at the readings again, or leave "
        "them if they are right."
    )
    return (doubt,)
