"""Helpers: SQL that must be refused, and SQL behind the triggers' back."""

import pytest
from django.db import Error, connection, transaction

from lims.record import triggers


def refused(sql, *values):
    """Run SQL that the database must refuse; gives back the refusal."""
    with pytest.raises(Error) as refusal, transaction.atomic():
        run(sql, *values)
    return str(refusal.value)


def run(sql, *values):
    with connection.cursor() as cursor:
        cursor.execute(sql, values)
        return cursor.rowcount


def take_off_triggers(table):
    """As somebody may who owns the database."""
    if connection.vendor == "postgresql":
        run("SET CONSTRAINTS ALL IMMEDIATE")
    for trigger in triggers.expected("default"):
        if trigger.table == table and connection.vendor == "postgresql":
            run(f'DROP TRIGGER {trigger.name} ON "{table}"')
        elif trigger.table == table:
            run(f'DROP TRIGGER "{trigger.name}"')


def behind_the_triggers(table, sql, *values):
    """Change rows of a table with its triggers off, then put them on again."""
    take_off_triggers(table)
    touched = run(sql, *values)
    triggers.install("default")
    return touched
