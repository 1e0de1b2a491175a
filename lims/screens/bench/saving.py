"""From what was sent to the actions: one box, or a whole set in the order of its boxes."""

from django.http import QueryDict

from lims.bench.actions.entering import record_condition, record_reading
from lims.bench.evaluation import held, slots_of, typed_conditions_of
from lims.bench.models import Determination, Test
from lims.bench.rules import NeedsReason, TypeAgain
from lims.bench.sets import current_of
from lims.people.models import Person
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, Refusal
from lims.screens.bench.boxes import Typed
from lims.screens.bench.forms import BoxForm, CorrectForm, as_time, moment_typed
from specs.methods.outcome import Condition


def save_box(test: Test, key: str, sent: QueryDict, *, by: Person) -> Typed | None:
    """Save one box; what was refused comes back with its sentence, never lost."""
    form = BoxForm(sent, prefix=key)
    try:
        _record(test, key, form, sent, by)
    except NotAllowed:
        raise
    except TypeAgain as refusal:
        return Typed("", refusal, again=form.text_typed)
    except NeedsReason as refusal:
        return _without_reason(key, form, refusal, was_asked=f"{key}-reason" in sent)
    except Refusal as refusal:
        return Typed(form.text_typed, refusal)
    return None


def _without_reason(
    key: str, form: BoxForm, refusal: NeedsReason, *, was_asked: bool
) -> Typed:
    """Ask for the reason; who was asked already and gave none is told what is missing."""
    if was_asked:
        refusal = NeedsReason("Choose a reason, or write one.", field=key)
    return Typed(form.text_typed, refusal, reason=form.chosen, why=form.why_typed)


def save_set(test: Test, sent: QueryDict, *, by: Person) -> dict[str, Typed]:
    """Save each box of the set that was filled or changed, in order; what was refused, by key."""
    try:
        has = held(set_sent(test, sent))
    except ChangedSince:
        has = held(None)  # each box that was filled is told so, and keeps its text
    saved = {key: it.text for key, it in has.readings.items()}
    saved |= {key: it.text for key, it in has.conditions.items()}
    refused: dict[str, Typed] = {}
    for key in _keys(test):
        text = BoxForm(sent, prefix=key).text_typed
        if not text or text == saved.get(key):
            continue
        typed = save_box(test, key, sent, by=by)
        if typed is not None:
            refused[key] = typed
    return refused


def set_sent(test: Test, sent: QueryDict) -> Determination | None:
    """The set that the page showed, so that nothing lands in another one; None where readings begin the next."""
    place = sent.get("set", "")
    sets = list(test.determinations.all())
    named = next((it for it in sets if str(it.place) == place), None)
    current = current_of(sets, asks=test.asks)
    if named is not None or not place:
        return named or current
    if current is not None:
        raise ChangedSince(
            f"No set {place[:5]} is asked for now: set {current.place} is the last. "
            "Open the sample again."
        )
    return None


def correct(
    test: Test, determination: Determination, form: CorrectForm, *, by: Person
) -> None:
    """Another text in a set that is not the open one. Raises what the actions refuse."""
    told = form.cleaned_data
    if not told["text"]:
        raise BadInput("Write the right value.", field="text")
    asked = _asked(test, told["key"])
    if asked is not None:
        text = as_time(told["text"]) if asked.kind == "time" else told["text"]
        record_condition(
            test=test,
            key=asked.key,
            text=text,
            reason=told["reason"],
            determination=determination,
            by=by,
        )
        return
    record_reading(
        test=test,
        slot=told["key"],
        text=told["text"],
        reason=told["reason"],
        again=told["again"],
        determination=determination,
        by=by,
    )


def knows(test: Test, key: str, *, is_condition: bool) -> bool:
    """Whether a test has such a box."""
    it = test.characteristic
    boxes = typed_conditions_of(it) if is_condition else slots_of(it)
    return key in [each.key for each in boxes]


def _keys(test: Test) -> list[str]:
    it = test.characteristic
    return [each.key for each in typed_conditions_of(it)] + [
        each.key for each in slots_of(it)
    ]


def _asked(test: Test, key: str) -> Condition | None:
    found = (
        each for each in typed_conditions_of(test.characteristic) if each.key == key
    )
    return next(found, None)


def _record(test: Test, key: str, form: BoxForm, sent: QueryDict, by: Person) -> None:
    asked, text = _asked(test, key), form.text_typed
    determination = set_sent(test, sent)
    if not text:
        _leave_empty(determination, key)
    elif asked is not None:
        text = as_time(text) if asked.kind == "time" else text
        record_condition(
            test=test,
            key=key,
            text=text,
            reason=form.reason_told,
            determination=determination,
            by=by,
        )
    else:
        record_reading(
            test=test,
            slot=key,
            text=text,
            read_at=moment_typed(sent.get("read_at", "")),
            reason=form.reason_told,
            again=form.again_typed,
            determination=determination,
            by=by,
        )


def _leave_empty(determination: Determination | None, key: str) -> None:
    """An empty box saves nothing; what was saved is not emptied."""
    has = held(determination)
    old = has.readings.get(key) or has.conditions.get(key)
    if old is not None:
        raise BadInput(
            f"{old.text} is saved here and is not emptied. Write the right value, or "
            "press Esc to show the saved one.",
            field=key,
        )
