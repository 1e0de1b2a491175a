"""The database's leaf of the write gate: locking the chain's tail, opening and closing."""

from django.db import connections

from lims.record.refusals import GateError

TAIL_LOCK = (
    0x4B65_7474_6C65  # any fixed number; every writer of a record asks for the same
)


def lock_tail(using: str) -> None:
    """Let nobody else write an entry until this transaction ends.

    On SQLite the transaction has begun IMMEDIATE and holds the only write lock.
    """
    connection = connections[using]
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(%s)", [TAIL_LOCK])


def open_gate(using: str) -> None:
    """Let the triggers of this transaction allow writing."""
    connection = connections[using]
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SELECT set_config('kettlemark.entry', 'open', true)")
            return
        cursor.execute("SELECT count(*) FROM record_gate")
        if cursor.fetchone()[0]:
            raise GateError(
                "The table record_gate holds a row outside an entry, so the gate stands "
                "open. Find out who wrote it, then delete the row."
            )
        cursor.execute("INSERT INTO record_gate (id) VALUES (1)")


def close_gate(using: str) -> None:
    """Close it again before the transaction ends; a rollback closes it by itself."""
    connection = connections[using]
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SELECT set_config('kettlemark.entry', '', true)")
        else:
            cursor.execute("DELETE FROM record_gate")


def stands_open(using: str) -> bool:
    """Whether the gate was left open for everybody (SQLite: a committed row)."""
    connection = connections[using]
    if connection.vendor == "postgresql":
        return False
    with connection.cursor() as cursor:
        cursor.execute("SELECT count(*) FROM record_gate")
        return bool(cursor.fetchone()[0])
