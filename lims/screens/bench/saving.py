"""From what was sent to the actions: one box, or a whole set in the order of its boxes."""

from django.http import QueryDict

from lims.bench.actions.entering import (
    current_determination,
    record_condition,
    record_reading,
)
from lims.bench.evaluation import conditions_of, held, slots_of
from lims.bench.models import Test
from lims.bench.rules import NeedsReason, TypeAgain
from lims.people.models import Person
from lims.record.refusals import BadInput, NotAllowed, Refusal
from lims.screens.bench.boxes import Typed
from lims.screens.bench.forms import BoxForm, as_time, moment_typed
from specs.methods.outcome import Condition


def save_box(test: Test, key: str, sent: QueryDict, *, by: Person) -> Typed | None:
    """Save one box; what was refused comes back with its sentence, never lost."""
    form = BoxForm(sent, prefix=key)
    try:
        _record(test, key, form, sent.get("read_at", ""), by)
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
    has = held(current_determination(test))
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


def knows(test: Test, key: str, *, is_condition: bool) -> bool:
    """Whether a test has such a box."""
    it = test.characteristic
    boxes = conditions_of(it) if is_condition else slots_of(it)
    return key in [each.key for each in boxes]


def _keys(test: Test) -> list[str]:
    it = test.characteristic
    return [each.key for each in conditions_of(it)] + [
        each.key for each in slots_of(it)
    ]


def _asked(test: Test, key: str) -> Condition | None:
    found = (each for each in conditions_of(test.characteristic) if each.key == key)
    return next(found, None)


def _record(test: Test, key: str, form: BoxForm, read_at: str, by: Person) -> None:
    asked, text = _asked(test, key), form.text_typed
    if not text:
        _leave_empty(test, key)
    elif asked is not None:
        text = as_time(text) if asked.kind == "time" else text
        record_condition(test=test, key=key, text=text, reason=form.reason_told, by=by)
    else:
        record_reading(
            test=test,
            slot=key,
            text=text,
            read_at=moment_typed(read_at),
            reason=form.reason_told,
            again=form.again_typed,
            by=by,
        )


def _leave_empty(test: Test, key: str) -> None:
    """An empty box saves nothing; what was saved is not emptied."""
    has = held(current_determination(test))
    old = has.readings.get(key) or has.conditions.get(key)
    if old is not None:
        raise BadInput(
            f"{old.text} is saved here and is not emptied. Write the right value, or "
            "press Esc to show the saved one.",
            field=key,
        )
