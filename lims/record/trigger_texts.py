"""The SQL of the gate's triggers, for each recorded table, on both engines."""

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from django.apps import apps
from django.db import models

if TYPE_CHECKING:
    from lims.record.recorded import Recorded

WHAT_TO_DO = "is written only inside an entry of the record"

# One function for the gate, one for rows that never change, one for the chain's next number.
POSTGRES_FUNCTIONS = f"""
CREATE OR REPLACE FUNCTION kettlemark_gate() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF coalesce(current_setting('kettlemark.entry', true), '') <> 'open' THEN
    RAISE EXCEPTION '% {WHAT_TO_DO}', TG_TABLE_NAME USING ERRCODE = 'restrict_violation';
  END IF;
  IF TG_OP = 'DELETE' THEN RETURN OLD; END IF;
  RETURN NEW;
END $$;
CREATE OR REPLACE FUNCTION kettlemark_never() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% is never changed, only added to', TG_TABLE_NAME
    USING ERRCODE = 'restrict_violation';
END $$;
CREATE OR REPLACE FUNCTION kettlemark_next_entry() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.seq <> (SELECT coalesce(max(seq), 0) + 1 FROM record_entry) THEN
    RAISE EXCEPTION 'record_entry has no gaps' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
"""  # noqa: S608 - the texts hold no value from outside


class Trigger(NamedTuple):
    """A trigger by its name and table, with its text for either engine."""

    name: str
    table: str
    sqlite_sql: str
    postgres_sql: str

    def statements(self, vendor: str) -> list[str]:
        """What to run to have it, whether or not an older one stands."""
        if vendor == "postgresql":
            return [
                f'DROP TRIGGER IF EXISTS {self.name} ON "{self.table}"',
                self.postgres_sql,
            ]
        return [f'DROP TRIGGER IF EXISTS "{self.name}"', self.sqlite_sql]


_BODY = re.compile(r"FUNCTION (\w+)\(\)[^$]*\$\$(.*?)\$\$", re.DOTALL)
_RUNS = re.compile(r"EXECUTE FUNCTION (\w+)\(")


def postgres_body(trigger: Trigger) -> str:
    """The text of the function that a trigger runs on PostgreSQL, as the server keeps it."""
    bodies = dict(_BODY.findall(POSTGRES_FUNCTIONS + trigger.postgres_sql))
    runs = _RUNS.search(trigger.postgres_sql)
    return bodies.get(runs[1], "") if runs else ""


def for_all_models(vendor: str) -> Iterator[Trigger]:
    """The triggers of every recorded model of every app, and of the record itself."""
    for model in recorded_models():
        append_only = model.append_only
        yield from for_table(model, vendor, append_only=append_only)
    entry = apps.get_model("record", "Entry")
    yield from for_table(entry, vendor, append_only=True)
    yield _next_entry()


def recorded_models() -> list[type["Recorded"]]:
    """Every model that carries Recorded and has a table of its own."""
    from lims.record.recorded import Recorded  # it stands on the gate, which asks here

    return [
        model
        for model in apps.get_models(include_auto_created=True)
        if issubclass(model, Recorded) and model._meta.managed and not model._meta.proxy
    ]


def for_table(
    model: type[models.Model], vendor: str, *, append_only: bool
) -> Iterator[Trigger]:
    """INSERT, UPDATE and DELETE (and TRUNCATE) of one table."""
    table, key = model._meta.db_table, model._meta.pk.column
    for what in ("insert", "update", "delete"):
        never = append_only and what != "insert"
        unique = key if append_only and what == "insert" else None
        yield _row_trigger(table, what, never=never, unique=unique)
    if vendor == "postgresql":
        yield Trigger(
            f"{table}_gate_truncate",
            table,
            "",
            f'CREATE TRIGGER {table}_gate_truncate BEFORE TRUNCATE ON "{table}" '
            "FOR EACH STATEMENT EXECUTE FUNCTION kettlemark_never()",
        )


def _row_trigger(table: str, what: str, *, never: bool, unique: str | None) -> Trigger:
    name = f"{table}_gate_{what}"
    function = "kettlemark_never" if never else "kettlemark_gate"
    closed = "NOT EXISTS (SELECT 1 FROM record_gate)"
    if unique:  # INSERT OR REPLACE would take a row away without a DELETE trigger
        same = f'"{unique}" = NEW."{unique}"'
        closed += f' OR EXISTS (SELECT 1 FROM "{table}" WHERE {same})'  # noqa: S608 - our names
    when = "" if never else f" WHEN {closed}"
    why = "is never changed, only added to" if never else WHAT_TO_DO
    return Trigger(
        name,
        table,
        f'CREATE TRIGGER "{name}" BEFORE {what.upper()} ON "{table}"{when} '
        f"BEGIN SELECT RAISE(ABORT, '{table} {why}'); END",
        f'CREATE TRIGGER {name} BEFORE {what.upper()} ON "{table}" '
        f"FOR EACH ROW EXECUTE FUNCTION {function}()",
    )


def _next_entry() -> Trigger:
    name = "record_entry_next"
    gap = "NEW.seq <> (SELECT coalesce(max(seq), 0) + 1 FROM record_entry)"
    return Trigger(
        name,
        "record_entry",
        f'CREATE TRIGGER "{name}" BEFORE INSERT ON "record_entry" '
        f"WHEN {gap} BEGIN SELECT RAISE(ABORT, 'record_entry has no gaps'); END",
        f'CREATE TRIGGER {name} BEFORE INSERT ON "record_entry" '
        "FOR EACH ROW EXECUTE FUNCTION kettlemark_next_entry()",
    )
