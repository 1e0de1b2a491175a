"""Tables whose rows stand in one order only: rows that a column cannot tell apart follow their key."""

from typing import Any

import django_tables2 as tables
from django.db.models import QuerySet


class Listing(tables.Table):
    """A table of rows of the database. Without a last word on its order, two pages of it could show a row twice and another not at all."""

    @property
    def order_by(self) -> Any:
        """The columns that the rows are sorted by."""
        return tables.Table.order_by.fget(self)

    @order_by.setter
    def order_by(self, asked: Any) -> None:
        tables.Table.order_by.fset(self, asked)
        rows = getattr(self.data, "data", None)
        if isinstance(rows, QuerySet) and rows.query.order_by:
            self.data.data = rows.order_by(*rows.query.order_by, "pk")
