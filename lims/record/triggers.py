"""The triggers of the write gate: what they are, putting them on, and naming those that are missing."""

from typing import Any

from django.db import connections

from lims.record import trigger_texts
from lims.record.refusals import GateError
from lims.record.trigger_texts import Trigger

_further: dict[str, Trigger] = {}
_seen_whole: set[tuple[str, str]] = set()


def register(name: str, *, table: str, sqlite_sql: str, postgres_sql: str) -> None:
    """Add a room's own rule. Each text is one whole CREATE TRIGGER `name` statement.

    The PostgreSQL text may begin with the CREATE OR REPLACE FUNCTION that it needs.
    """
    _further[name] = Trigger(name, table, _bare(sqlite_sql), _bare(postgres_sql))


def expected(using: str) -> list[Trigger]:
    """Every trigger that this database must have, for the tables it has."""
    connection = connections[using]
    with connection.cursor() as cursor:
        tables = set(connection.introspection.table_names(cursor))
    every = [*trigger_texts.for_all_models(connection.vendor), *_further.values()]
    return [trigger for trigger in every if trigger.table in tables]


def missing(using: str) -> list[str]:
    """The names of triggers that are absent, switched off or altered."""
    present = _present(using)
    vendor = connections[using].vendor
    return [
        trigger.name
        for trigger in expected(using)
        if not _stands(trigger, present, vendor)
    ]


def install(using: str) -> None:
    """Put on every trigger that is missing. May be called at any time."""
    connection = connections[using]
    absent = set(missing(using))
    wanted = [trigger for trigger in expected(using) if trigger.name in absent]
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute(trigger_texts.POSTGRES_FUNCTIONS)
        for trigger in wanted:
            for statement in trigger.statements(connection.vendor):
                cursor.execute(statement)
    _seen_whole.clear()


def demand_all(using: str) -> None:
    """Refuse to write while a trigger is missing; looked at once per process and database."""
    place = (using, str(connections[using].settings_dict["NAME"]))
    if place in _seen_whole:
        return
    absent = missing(using)
    if absent:
        raise GateError(
            "The database does not guard the record: "
            f"{', '.join(absent[:5])} {'is' if len(absent) == 1 else 'are'} missing. "
            "Run `manage.py migrate`, which puts the triggers on, then `manage.py verify`."
        )
    _seen_whole.add(place)


def look_again() -> None:
    """Forget that the triggers were seen, so that the next entry looks for them."""
    _seen_whole.clear()


def install_after_migrate(using: str, **kwargs: Any) -> None:
    """A migration may have made tables, or rebuilt one without its triggers."""
    install(using)


def take_off_before_migrate(using: str, **kwargs: Any) -> None:
    """SQLite cannot rebuild a table that another table's trigger speaks of."""
    connection = connections[using]
    if connection.vendor != "sqlite":
        return
    present = _present(using)
    with connection.cursor() as cursor:
        for name in _further.keys() & present.keys():
            cursor.execute(f'DROP TRIGGER "{name}"')
    _seen_whole.clear()


def _bare(sql: str) -> str:
    return sql.strip().rstrip(";")  # as SQLite keeps it, so that the two compare


def _stands(trigger: Trigger, present: dict[str, str], vendor: str) -> bool:
    if trigger.name not in present:
        return False
    if vendor == "postgresql":
        return present[trigger.name] == trigger_texts.postgres_body(trigger)
    return present[trigger.name] == trigger.sqlite_sql


def _present(using: str) -> dict[str, str]:
    connection = connections[using]
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            # what each trigger runs; one with a condition of its own is not ours
            cursor.execute(
                "SELECT t.tgname, p.prosrc FROM pg_trigger t "
                "JOIN pg_proc p ON p.oid = t.tgfoid WHERE NOT t.tgisinternal "
                "AND t.tgenabled IN ('O', 'A') AND t.tgqual IS NULL"
            )
        else:
            cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
        rows: list[tuple[str, str]] = cursor.fetchall()
    return dict(rows)
