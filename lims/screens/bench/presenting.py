"""The page of a sample: its facts, one leaf a test in the order of the bench, and the sentence that answers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lims.batches.models import FillLot, HeldAgainst, Sample
from lims.bench.models import Test
from lims.bench.rules import check_takes_readings
from lims.decisions.queries import last_values
from lims.people.models import Person
from lims.people.permissions import Permission, allowed
from lims.people.rules import refusal_of
from lims.products.models import Product
from lims.screens.bench import boxes, finding, ruling
from lims.screens.bench.finding import Asked
from lims.screens.bench.leaves import Leaf, Refused, Shared, instruments_for, leaf
from lims.screens.bench.sets import Sent
from lims.wording.numbers import shown

State = Test.State


@dataclass(frozen=True)
class Answer:
    """The sentence that answers, and where to go when nothing is left to do here."""

    words: str
    is_over: bool = False
    decision: str = ""  # the lot that may be decided by who reads this


@dataclass(frozen=True)
class Page:
    """All that the page of a sample shows."""

    sample: Sample
    leaves: list[Leaf]
    held: list[HeldAgainst]
    product: str
    answer: Answer
    may_enter: bool
    closed: str
    kettle: str
    periodic: list[tuple[str, str]]


def page(
    sample: Sample,
    *,
    by: Person,
    refused: Refused | None = None,
    sent: Mapping[str, Sent] | None = None,
) -> Page:
    """The page of a sample; `refused` holds by test what was typed and not saved, `sent` what was sent about a set and refused."""
    tests, against = finding.tests_of(sample), finding.held_against(sample)
    asked = finding.asked_of(sample, against)
    closed = refusal_of(check_takes_readings)(sample)
    may = allowed(by, Permission.RECORD_READINGS)
    shared = Shared(
        asked=asked,
        last=last_values(sample.fill_lot) if sample.fill_lot else {},
        instruments=instruments_for(tests, by) if may and not closed else {},
        may_enter=may and not closed,
        names={test.characteristic.code: test for test in tests},
        checked=ruling.checked_for(tests),
    )
    leaves = [
        leaf(
            test,
            shared,
            (refused or {}).get(test.characteristic.code),
            (sent or {}).get(test.characteristic.code),
        )
        for test in tests
    ]
    lines = finding.periodic_to_add(asked, tests) if shared.may_enter else []
    return Page(
        sample=sample,
        leaves=leaves,
        held=against,
        product=_product(sample.batch.product),
        answer=answer(tests, sample, by=by),
        may_enter=shared.may_enter,
        closed=closed if may else "",
        kettle=_kettle_words(sample, asked) if sample.is_in_process else "",
        periodic=[(it.characteristic.code, it.characteristic.in_full) for it in lines],
    )


def after_saving(test: Test, *, by: Person) -> tuple[list[Leaf], Answer]:
    """A test and those computed from it after one of its boxes was saved, and the sentence of the page."""
    sample, known = test.sample, finding.states_of(test.sample)
    tests = finding.tests_beside(test, known)
    next_set = [it for it in tests if it.asks and finding.current(it) is None]
    shared = Shared(
        asked=finding.asked_of(sample, finding.held_against(sample)),
        last=last_values(sample.fill_lot) if sample.fill_lot else {},
        instruments=instruments_for(next_set, by),
        may_enter=True,
        names={it.characteristic.code: it for it in known},
        checked=ruling.checked_for(tests),
    )
    return [leaf(it, shared) for it in tests], answer(known, sample, by=by)


def _kettle_words(sample: Sample, asked: dict[int, Asked]) -> str:
    product = sample.batch.product
    if not asked:
        return (
            f"{product.code} states no kettle target, so that there is no verdict here. "
            "The technologist adds pack target and kettle offset to the product."
        )
    target = next(iter(asked.values())).own
    figure = shown(target.typical) if target else ""
    return (
        f"Kettle target {figure}: pack target {shown(product.pack_target)}, "
        f"kettle offset {shown(product.kettle_offset, signed=True)}."
    )


def answer(tests: Sequence[Test], sample: Sample, *, by: Person) -> Answer:
    """What is due, running and reported on this sample, and whether its lot awaits its decision."""
    lot = sample.fill_lot
    awaits = lot is not None and lot.state == FillLot.State.AWAITING_DECISION
    if not tests or any(test.state in (State.DUE, State.RUNNING) for test in tests):
        told = " The lot awaits its decision." if awaits else ""
        return Answer(f"{_counted(tests)}{told}")
    if not awaits or lot is None:
        return Answer(_counted(tests), is_over=True)
    may_decide = allowed(by, Permission.AUTHORISE_LOTS)
    return Answer(
        "All tests are reported; the lot awaits its decision.",
        is_over=True,
        decision=lot.number if may_decide else "",
    )


def _counted(tests: Sequence[Test]) -> str:
    """The tests that are entered, by state; those that are computed are told apart."""
    every = len(tests)
    tests = [test for test in tests if not test.characteristic.is_derived]
    if not tests:
        return "No test is asked of this sample."
    computed = every - len(tests)
    more = f" {computed} more {_are(computed)} computed from them." if computed else ""
    return f"{_by_state(tests)}{more}"


def _by_state(tests: Sequence[Test]) -> str:
    count = {state: sum(t.state == state for t in tests) for state in State}
    for state in (State.DUE, State.RUNNING):
        if count[state] == len(tests):
            return _all(len(tests), state.value)
    parts = [
        f"{count[state]} {_are(count[state])} {state.value}"
        for state in (State.DUE, State.RUNNING)
        if count[state]
    ]
    done = count[State.REPORTED] + count[State.AUTHORISED]
    if not parts:
        return _all(len(tests), State.REPORTED.value)
    told = ", ".join(parts)
    tail = f"; {done} {_are(done)} reported" if done else ""
    return f"Of {len(tests)} {'test' if len(tests) == 1 else 'tests'} {told}{tail}."


def _all(number: int, state: str) -> str:
    return (
        f"The test is {state}." if number == 1 else f"All {number} tests are {state}."
    )


def _product(product: Product) -> str:
    """The product as people say it; many names begin with the code."""
    named = product.name.startswith(product.code)
    return product.name if named else f"{product.code}, {product.name}"


def _are(number: int) -> str:
    return "is" if number == 1 else "are"


def refused_box(test: Test, key: str, typed: boxes.Typed, place: str) -> boxes.Box:
    """The box whose text was refused: nothing but its own set is looked at."""
    determination = finding.named(test, place) or finding.current(test)
    refused = {key: typed}
    every = [
        *boxes.conditions(test, determination, {}, refused),
        *boxes.readings(test, determination, refused),
    ]
    return next(box for box in every if box.key == key).sent_from(place)
