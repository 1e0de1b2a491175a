"""Entering at the bench: one reading or one condition saved is one entry. What is typed over a saved value needs a reason and replaces it by a new row."""

import datetime as dt
from typing import NoReturn

from lims.bench import rules, typed
from lims.bench.evaluation import conditions_of, held, slots_of
from lims.bench.models import Condition, Determination, Reading, Test
from lims.bench.reporting import settle
from lims.bench.sets import current_of
from lims.methods.models import Characteristic
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record.clock import now
from lims.record.gate import entry
from lims.record.refusals import BadInput
from specs.methods.outcome import Condition as Asked
from specs.methods.outcome import Slot

START = "started_at"


def record_reading(
    *,
    test: Test,
    slot: str,
    text: str,
    read_at: dt.datetime | None = None,
    reason: str = "",
    again: str = "",
    determination: Determination | None = None,
    by: Person,
) -> Determination:
    """Save what was read in one place of a test; the same text saved again changes nothing. It goes to the open set, or to the one named, which is how an earlier set is corrected."""
    _check_may_enter(test, by, determination)
    place = _slot(test.characteristic, slot)
    rules.check_reason_fits(reason, field=slot)
    if read_at is not None:
        typed.check_year(read_at, field=slot)
    text = text.strip()
    try:
        value = typed.value_of(place, text)
    except BadInput as refusal:
        _keep_text(test=test, key=slot, text=text, refusal=refusal, by=by)
    rules.check_plausible(slot=place, value=value, text=text, again=again)
    if read_at is not None and read_at > now() + dt.timedelta(minutes=1):
        raise BadInput("The reading lies in the future. Check its time.", field=slot)
    current = determination or current_determination(test)
    saved = held(current).readings.get(slot)
    if current is not None and _says_the_same(saved, text, read_at):
        return current
    with entry(by=by, verb="reading_recorded", about=test) as record:
        test = rules.again(test)
        determination = set_of(test, determination, by=by)
        has = held(determination)
        old = has.readings.get(slot)
        if old is not None:
            rules.check_reason(old=old.text, reason=reason, field=slot)
            record.verb, record.reason = "reading_corrected", reason.strip()
        row = Reading(
            determination=determination,
            slot=slot,
            text=text,
            value=value,
            unit=place.unit,
            read_at=read_at or (old.read_at if old else now()),
            saved_at=now(),
            saved_by=by,
            replaces=old,
            reason=reason.strip() if old else "",
        )
        row.save()
        settle(determination, has=has.having(row), by=by)
    return determination


def record_condition(
    *,
    test: Test,
    key: str,
    text: str,
    reason: str = "",
    determination: Determination | None = None,
    by: Person,
) -> Determination:
    """Save one condition of a test: a temperature, a time, a choice or the instrument used. It goes to the open set, or to the one named."""
    _check_may_enter(test, by, determination)
    asked = _condition(test.characteristic, key)
    rules.check_is_typed(asked)
    rules.check_reason_fits(reason, field=key)
    text = text.strip()
    try:
        kept = typed.condition_of(asked, text)
    except BadInput as refusal:
        _keep_text(test=test, key=key, text=text, refusal=refusal, by=by)
    current = determination or current_determination(test)
    saved = held(current).conditions.get(key)
    if current is not None and saved is not None and _is_same(saved, kept):
        return current
    with entry(by=by, verb="condition_recorded", about=test) as record:
        test = rules.again(test)
        determination = set_of(test, determination, by=by)
        has = held(determination)
        old = has.conditions.get(key)
        if old is not None:
            rules.check_reason(old=old.text, reason=reason, field=key)
            record.verb, record.reason = "condition_corrected", reason.strip()
        row = Condition(
            determination=determination,
            key=key,
            text=kept.text,
            value=kept.value,
            instrument=kept.instrument,
            instrument_state=kept.instrument_state,
            saved_at=now(),
            saved_by=by,
            replaces=old,
            reason=reason.strip() if old else "",
        )
        row.save()
        if key == START:
            determination.started_at = dt.datetime.fromisoformat(kept.value)
        settle(determination, has=has.having(row), by=by)
    return determination


def set_aside(
    *, determination: Determination, reason: str, by: Person
) -> Determination:
    """Set a determination aside with what was seen; it stays readable. The one that readings go to after that comes back: a fresh one, unless another is open or nothing more is asked for."""
    check(by, Permission.RECORD_READINGS)
    rules.check_takes_readings(determination.test.sample)
    rules.check_may_be_set_aside(determination, reason)
    with entry(
        by=by,
        verb="determination_set_aside",
        about=determination.test,
        reason=reason.strip(),
    ):
        test = rules.again(determination.test)
        determination.test = test
        determination.state = Determination.State.SET_ASIDE
        determination.reason, determination.set_aside_by = reason.strip(), by
        settle(determination, by=by)
        return current_determination(test) or _begun(test, by=by)


def open_determination(test: Test, *, by: Person) -> Determination:
    """The determination that readings of a test go to now; the first is begun by its first reading."""
    current = current_determination(test)
    return current if current is not None else _begin(test, by=by)


def current_determination(test: Test) -> Determination | None:
    """The set that readings go to now: one that is begun, else none where a further set is asked for, else the last that stands."""
    return current_of(test.determinations.all(), asks=test.asks)


def set_of(test: Test, named: Determination | None, *, by: Person) -> Determination:
    """The set to write to, as the database has it now."""
    if named is None:
        return open_determination(test, by=by)
    fresh = test.determinations.get(pk=named.pk)
    rules.check_may_be_corrected(fresh, test)
    return fresh


def _begun(test: Test, *, by: Person) -> Determination:
    fresh = _begin(test, by=by)
    settle(fresh, by=by)
    return fresh


def _begin(test: Test, *, by: Person) -> Determination:
    fresh = Determination(
        test=test,
        place=test.determinations.count() + 1,
        begun_at=now(),
        begun_by=by,
    )
    fresh.save()
    return fresh


def _check_may_enter(
    test: Test, by: Person, determination: Determination | None
) -> None:
    check(by, Permission.RECORD_READINGS)
    rules.check_takes_readings(test.sample)
    rules.check_is_entered(test)
    if determination is not None:
        rules.check_may_be_corrected(determination, test)


def _keep_text(
    *, test: Test, key: str, text: str, refusal: BadInput, by: Person
) -> NoReturn:
    """Text that is no value is kept as typed in the record, and told in words."""
    kept = typed.plain(text)[: typed.LONGEST_WORDS].strip()
    if kept:
        with entry(
            by=by,
            verb="text_kept",
            about=test,
            note=f"{key}: “{kept}” is no value. {refusal.sentence}",
        ):
            pass
    raise refusal


def _says_the_same(
    saved: Reading | None, text: str, read_at: dt.datetime | None
) -> bool:
    """Another time of reading is a change too, when one is given."""
    return saved is not None and saved.text == text and read_at in (None, saved.read_at)


def _is_same(saved: Condition, kept: typed.Kept) -> bool:
    return (saved.text, saved.value) == (kept.text, kept.value)


def _slot(characteristic: Characteristic, key: str) -> Slot:
    for slot in slots_of(characteristic):
        if slot.key == key:
            return slot
    raise BadInput(
        f"{characteristic} has no place “{typed.quotable(key)}” to read.", field=key
    )


def _condition(characteristic: Characteristic, key: str) -> Asked:
    for condition in conditions_of(characteristic):
        if condition.key == key:
            return condition
    raise BadInput(
        f"{characteristic} knows no condition “{typed.quotable(key)}”.", field=key
    )
