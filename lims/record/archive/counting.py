"""Keys are counted on from where they stood, so that no row gets the key of one that the record tells of."""

from django.db import connections, models
from django.db.models import Max

from lims.record.archive.tables import archived

LONGEST = 18  # figures of a key; no database counts further


class Highest:
    """The highest key of each table that the record tells of, those of rows that are gone among them."""

    def __init__(self) -> None:
        self._of: dict[str, int] = {}

    def note(self, label: str, key: str) -> None:
        """A key as a difference names it: `17`, or `17-4017` for rows added together. Raises ValueError for one that no database gives."""
        last = str(key).rpartition("-")[2]
        if len(last) > LONGEST and last.isdigit():
            raise ValueError(f"a key of {len(last)} figures")
        if last.isdigit():
            self._of[label] = max(self._of.get(label, 0), int(last))

    def of(self, model: type[models.Model]) -> int:
        stored = model._base_manager.aggregate(it=Max("pk"))["it"]
        return max(self._of.get(model._meta.label, 0), stored or 0)


def go_on_counting(highest: Highest, using: str) -> None:
    """Let the database give the next row of each table the key after the highest."""
    for model in archived():
        last = highest.of(model)
        if last and isinstance(model._meta.pk, models.AutoField | models.BigAutoField):
            _count_from(model._meta.db_table, last, using)


def _count_from(table: str, last: int, using: str) -> None:
    connection = connections[using]
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute(
                "SELECT setval(pg_get_serial_sequence(%s, 'id'), %s)",
                [f'"{table}"', last],
            )
            return
        cursor.execute("DELETE FROM sqlite_sequence WHERE name = %s", [table])
        cursor.execute(
            "INSERT INTO sqlite_sequence (name, seq) VALUES (%s, %s)", [table, last]
        )
