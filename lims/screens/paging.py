"""One page of a long list: a wrong page number shows the nearest page, never an error."""

from collections.abc import Sequence
from typing import Any

from django.core.paginator import Page, Paginator
from django.db.models import QuerySet
from django.http import HttpRequest

ROWS = 50


def page_of(
    request: HttpRequest,
    rows: "QuerySet[Any, Any] | Sequence[Any]",
    *,
    size: int = ROWS,
) -> "Page[Any]":
    """The page that the address asks for by ``?page=``."""
    return Paginator(rows, size).get_page(request.GET.get("page", "1"))
