"""Taking a file in, whole or not at all, in one entry; refusing it, leaving it, withdrawing what it brought."""

from collections.abc import Sequence

from lims.imports import kinds, layouts, lines, rules
from lims.imports.models import Import, Staging
from lims.people.models import Person
from lims.record.clock import now
from lims.record.gate import entry
from lims.record.refusals import WrongMove
from specs.tables.checked import Checked

State = Import.State


def take_in(
    *,
    import_of: Import,
    tables: Sequence[Checked],
    version: int | None = None,
    by: Person,
) -> Import:
    """Take in what the tables of a file hold, all of it in one entry or nothing.

    `tables` is what a look at the file found, each without an open question. What an
    earlier file brought already is not added again. Raises WrongMove while anything is
    asked, and whatever a line of the file is refused for.
    """
    rules.check_may(by, import_of.kind)
    rules.check_waits(import_of)
    _check_all_is_answered(tables)
    is_history = import_of.kind == Import.Kind.HISTORY
    plan = lines.planned(import_of, tables) if is_history else None
    with entry(by=by, verb="file_taken_in", about=import_of) as record:
        import_of.refresh_from_db()
        rules.check_waits(import_of)
        rules.check_not_taken_in(import_of.sha256, import_of.kind)
        counts = _write(import_of, tables, plan, by)
        import_of.counts = _counted(tables) | counts
        import_of.line_count = counts["added"]
        import_of.state = State.TAKEN_IN
        import_of.taken_at, import_of.taken_by = now(), by
        import_of.save_if_version(import_of.version if version is None else version)
        layouts.remember(import_of, tables, by=by)
        Staging.objects.filter(import_of=import_of).delete()
        record.note = in_words(counts)
    return import_of


def _write(
    import_of: Import, tables: Sequence[Checked], plan: lines.Plan | None, by: Person
) -> dict[str, int]:
    if plan is not None:
        return lines.write(plan, import_of, tables)
    total: dict[str, int] = {"added": 0}
    for table in tables:
        for name, count in kinds.write(import_of.kind, import_of, table, by).items():
            total[name] = total.get(name, 0) + count
    return total


def _check_all_is_answered(tables: Sequence[Checked]) -> None:
    open_questions = sum(len(it.questions) for it in tables)
    if open_questions:
        raise WrongMove(
            f"{open_questions} question{'' if open_questions == 1 else 's'} about this "
            "file wait for an answer: nothing is taken in before all are answered."
        )
    if not any(it.lines or it.rows for it in tables):
        raise WrongMove(
            "No line of this file would be taken in: look at its columns and its cells, "
            "or leave the file."
        )


def _counted(tables: Sequence[Checked]) -> dict[str, int]:
    total: dict[str, int] = {}
    for table in tables:
        for name, count in table.counts.items():
            total[name] = total.get(name, 0) + count
    return total


def in_words(counts: dict[str, int]) -> str:
    """What was added, in a line for the record."""
    told = [f"{name}: {count}" for name, count in counts.items() if count]
    return ", ".join(told) or "nothing added: all of it was here already"


def refuse(*, import_of: Import, reason: str, by: Person | None = None) -> Import:
    """Say that the file cannot be read, and why: it is kept, nothing of it is taken."""
    rules.check_waits(import_of)
    with entry(by=by, verb="file_refused", about=import_of, reason=reason):
        _end(import_of, State.REFUSED, reason[:300])
    return import_of


def leave(*, import_of: Import, reason: str, by: Person) -> Import:
    """Decide not to take the file in."""
    rules.check_may(by, import_of.kind)
    rules.check_waits(import_of)
    reason = rules.check_reason(reason)
    with entry(by=by, verb="file_left", about=import_of, reason=reason):
        _end(import_of, State.LEFT, reason)
    return import_of


def withdraw(*, import_of: Import, reason: str, by: Person) -> Import:
    """Withdraw what a file brought: it stays readable and is charted no more."""
    rules.check_may(by, import_of.kind)
    rules.check_was_taken_in(import_of)
    reason = rules.check_reason(reason)
    with entry(by=by, verb="import_withdrawn", about=import_of, reason=reason):
        import_of.refresh_from_db()
        rules.check_was_taken_in(import_of)
        import_of.state, import_of.reason = State.WITHDRAWN, reason
        import_of.save()
    return import_of


def _end(import_of: Import, state: str, reason: str) -> None:
    import_of.refresh_from_db()
    rules.check_waits(import_of)
    import_of.state, import_of.reason = state, reason
    import_of.save()
    Staging.objects.filter(import_of=import_of).delete()
