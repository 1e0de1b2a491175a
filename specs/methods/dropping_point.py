"""Dropping point at the bench: runs on the block (ASTM D2265) and in the bath (ASTM D566, ISO 2176).

The arithmetic stands in `drops`. Two runs of one determination are held against the
house limit and the method's r; the set points of the block are the house's.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal

from specs.methods.drops import (
    BATH,
    BLOCK,
    DroppingPointRefused,
    Drops,
    Pair,
    check_order,
    from_pairs,
)
from specs.methods.outcome import (
    REPEATABILITY,
    Bar,
    Condition,
    Given,
    Outcome,
    Parameter,
    Parameters,
    Procedure,
    Slot,
    above_nought,
    implausible,
    setting,
    unanswered,
)
from specs.methods.runs import too_far_apart
from specs.numbers import Number, Refused, read, shortened, to_decimal

NO_DROP = "none"
UNIT = "°C"
SET_POINT_TOLERANCE = 3


def set_points(text: str) -> tuple[Decimal, ...]:
    """The temperatures in °C of "121 232 288 316". Raises a Refused for any other text."""
    points = [read(each) for each in text.split()]
    if any(point.is_censored for point in points):
        raise Refused("Write plain numbers with a space between them.")
    return tuple(point.value for point in points)


RUNS = {
    BLOCK: Parameter("runs", "Runs", "2", ("1", "2")),
    BATH: Parameter("runs", "Runs", "1", ("1", "2")),
}
SPREAD_LIMIT = Parameter(
    "spread_limit",
    "House limit of the difference of two runs",
    "",
    house=True,
    check=above_nought,
)
SET_POINTS = Parameter(
    "set_points",
    "Set points of the block",
    "121 232 288 316",
    house=True,
    check=set_points,
)
APPARATUS = Condition(
    "apparatus", "Apparatus", "instrument", instrument_kind="dropping point apparatus"
)
CAUTION = (
    "Block, bath and cup are hot enough to burn and fumes can form: use the hood, follow "
    "local codes and the safety data sheet, and ask the competent person when in doubt."
)


def _slots(method: str) -> Callable[[Parameters], tuple[Slot, ...]]:
    def slots(parameters: Parameters) -> tuple[Slot, ...]:
        """For each run the observed and the heater's temperature."""
        runs = int(setting(parameters, RUNS[method]))
        pairs = (
            _pair_of_slots(run, runs, _heater(method)) for run in range(1, runs + 1)
        )
        return tuple(slot for pair in pairs for slot in pair)

    return slots


def _pair_of_slots(run: int, runs: int, heater: str) -> tuple[Slot, Slot]:
    row, name = f"Run {run}", f" {run}" if runs > 1 else ""
    observed = Slot(
        f"observed_{run}",
        f"Observed temperature{name}",
        UNIT,
        row=row,
        column="Observed",
        choices=(NO_DROP,),
        plausible=("40", "330"),
    )
    block = Slot(
        f"block_{run}",
        f"{heater.capitalize()} temperature{name}",
        UNIT,
        row=row,
        column=heater.capitalize(),
        plausible=("40", "340"),
    )
    return observed, block


def _conditions(_parameters: Parameters) -> tuple[Condition, ...]:
    return (APPARATUS,)


def _carry_out(method: str) -> Callable[[Given], Outcome]:
    def carry_out(given: Given) -> Outcome:
        """The outcome of the runs typed so far."""
        slots = _slots(method)(given.parameters)
        runs = int(setting(given.parameters, RUNS[method]))
        pairs = [pair for run in range(1, runs + 1) if (pair := _pair(given, run))]
        missing = unanswered(given, (APPARATUS,))
        asks = (*missing, *implausible(given, slots), *_doubts(method, given, pairs))
        bars = (*_bound_bars(given, slots), *_bars(pairs, _heater(method)))
        if len(pairs) < runs:
            says = f"{len(pairs)} of {runs} runs"
            return Outcome(
                complete=False, accepted=True, bars=bars, asks=asks, says=says
            )
        return _outcome(
            method, pairs, given, complete=not missing, bars=bars, asks=asks
        )

    return carry_out


def _outcome(
    method: str,
    pairs: Sequence[Pair],
    given: Given,
    *,
    complete: bool,
    bars: tuple[Bar, ...],
    asks: tuple[str, ...],
) -> Outcome:
    drops = from_pairs(method, pairs)
    apart = too_far_apart(drops.determinations, UNIT, _limits(given.parameters))
    refused = (*_mixed(drops), *apart)
    parts = {f"run_{run}": str(it) for run, it in enumerate(drops.determinations, 1)}
    value = drops.reported
    if drops.mean is not None:
        value = Number.of(to_decimal(drops.mean))
        parts["mean"] = value.canonical
    return Outcome(
        complete=complete,
        accepted=not refused,
        value=value,
        reported=drops.reported,
        bars=bars,
        asks=(*refused, *asks),
        says=_says(drops),
        parts=parts,
    )


def _says(drops: Drops) -> str:
    """A phrase such as "mean of 201.33 and 202.67" or "no drop up to 288 °C"."""
    if _mixed(drops):
        return "a drop in one run, none in the other"
    if drops.mean is None:
        return f"no drop up to {drops.reported.value:f} °C"
    each = [shortened(number.value) for number in drops.determinations]
    return f"mean of {' and '.join(each)}" if len(each) > 1 else f"calculated {each[0]}"


def _mixed(drops: Drops) -> tuple[str, ...]:
    """What to do when the runs do not agree on whether the grease drops at all."""
    if len({number.is_censored for number in drops.determinations}) == 1:
        return ()
    return ("Take two fresh runs: one run gave no drop, the other a drop.",)


def _limits(parameters: Parameters) -> dict[str, str]:
    return {
        "the house limit of": setting(parameters, SPREAD_LIMIT),
        "the method's r of": parameters.get(REPEATABILITY, ""),
    }


def _pair(given: Given, run: int) -> Pair | None:
    """The pair of one run, None while a temperature is missing."""
    block, observed = given.reading(f"block_{run}"), given.reading(f"observed_{run}")
    if block is None or block.is_censored:
        return None
    if given.mark(f"observed_{run}") == NO_DROP:
        return Pair(None, block.value)
    if observed is None or observed.is_censored:
        return None
    return Pair(observed.value, block.value)


def _bound_bars(given: Given, slots: Sequence[Slot]) -> tuple[Bar, ...]:
    """Only the word says that no drop fell; a bound is neither a drop nor none."""
    advice = f"Write what was read; when no drop fell, write {NO_DROP} as observed."
    sentence = (
        "Stored, cannot count: a bound of the {} temperature says no dropping point."
    )
    return tuple(
        Bar(f"bound_{slot.key}", sentence.format(slot.column.lower()), advice)
        for slot in slots
        if (number := given.reading(slot.key)) and number.is_censored
    )


def _bars(pairs: Sequence[Pair], heater: str) -> tuple[Bar, ...]:
    try:
        check_order(pairs, heater)
    except DroppingPointRefused as refusal:
        sentence = f"Stored, cannot count: {refusal.sentence[0].lower()}"
        advice = "Compare with the thermometers or the printout and correct it."
        return (Bar("order", sentence + refusal.sentence[1:], advice),)
    return ()


def _doubts(method: str, given: Given, pairs: Sequence[Pair]) -> tuple[str, ...]:
    """A question for each block temperature away from every set point."""
    if method != BLOCK:
        return ()
    points = set_points(setting(given.parameters, SET_POINTS))
    return tuple(
        f"{pair.block:f} °C is not a set point of the block: read it again."
        for pair in pairs
        if all(abs(pair.block - point) > SET_POINT_TOLERANCE for point in points)
    )


def _heater(method: str) -> str:
    return "block" if method == BLOCK else "bath"


def _procedure(method: str, parameters: tuple[Parameter, ...]) -> Procedure:
    return Procedure(
        name=f"dropping point, {_heater(method)}",
        kind="number",
        unit=UNIT,
        slots=_slots(method),
        conditions=_conditions,
        carry_out=_carry_out(method),
        caution=CAUTION,
        parameters=parameters,
        compares_runs=True,
    )


DROPPING_POINT_BLOCK = _procedure(BLOCK, (RUNS[BLOCK], SPREAD_LIMIT, SET_POINTS))
DROPPING_POINT_BATH = _procedure(BATH, (RUNS[BATH], SPREAD_LIMIT))
