"""The database as it stands at one moment, read while others go on writing."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import connections, transaction


@contextmanager
def one_moment(using: str) -> Iterator[None]:
    """Everything read in the block is of one moment. Nobody is kept waiting, and nothing can be written in it."""
    connection = connections[using]
    if connection.in_atomic_block:  # whoever began that transaction chose its moment
        yield
    elif connection.vendor == "postgresql":
        with transaction.atomic(using=using), connection.cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
            yield
    else:
        with connection.cursor() as cursor:
            cursor.execute("BEGIN DEFERRED")  # Django's own begin takes the write lock
            try:
                yield
            finally:
                cursor.execute("ROLLBACK")
