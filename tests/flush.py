"""Emptying the test database past the triggers, which refuse exactly that."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import connection


def _around_sqlite(cursor, tables):
    """SQLite empties by DELETE FROM: its triggers go, and come back as they were."""
    cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
    found = cursor.fetchall()
    return [f'DROP TRIGGER "{name}"' for name, _ in found], [sql for _, sql in found]


def _around_postgresql(cursor, tables):
    return tuple(
        [f'ALTER TABLE "{table}" {what} TRIGGER USER' for table in tables]
        for what in ("DISABLE", "ENABLE")
    )


@contextmanager
def past_the_triggers() -> Iterator[None]:
    """Inside the block, Django's flush takes the triggers off and puts them on again."""
    operations = type(connection.ops)
    original = operations.sql_flush
    around = {"sqlite": _around_sqlite, "postgresql": _around_postgresql}

    def sql_flush(self, style, tables, **how):
        statements = original(self, style, tables, **how)
        if not statements:
            return statements
        with self.connection.cursor() as cursor:
            before, after = around[self.connection.vendor](cursor, tables)
        return [*before, *statements, *after]

    operations.sql_flush = sql_flush
    try:
        yield
    finally:
        operations.sql_flush = original
