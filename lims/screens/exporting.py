"""A list taken along as a file: what its page shows by filter and order, on all its pages, behind the same address with `?as=`."""

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase
from django_tables2 import RequestConfig

from lims.screens.zone import close_request, open_request, zone
from lims.sheets.exports import Export, csv_lines, workbook

AS, OF, PAGE = "as", "of", "page"
TYPES = {
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "csv": "text/csv; charset=utf-8",
}


def is_asked(request: HttpRequest) -> bool:
    """Whether the list is wanted as a file."""
    return AS in request.GET


def answer(request: HttpRequest, *exports: Export) -> HttpResponseBase:
    """The export that the address names by `of`, the first where it names none; Http404 for another name or form."""
    named = request.GET.get(OF, exports[0].key)
    export = next((it for it in exports if it.key == named), None)
    kind = request.GET[AS]
    if export is None or kind not in TYPES:
        raise Http404
    response = _made(export, kind)
    name = f"{export.key}.{kind}"
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    return response


def _made(export: Export, kind: str) -> HttpResponseBase:
    """CSV as it is made; a workbook whole."""
    if kind == "csv":
        lines = _at_one_site(csv_lines(export.columns, export.rows))
        return StreamingHttpResponse(lines, content_type=TYPES[kind])
    title = in_words(export.key).capitalize()
    content = workbook(title, export.columns, export.rows)
    return HttpResponse(content, content_type=TYPES[kind])


def _at_one_site(lines: Iterable[str]) -> Iterator[str]:
    """The lines, made after the request has ended: the site is asked for once, not once a row."""
    open_request()
    try:
        yield from lines
    finally:
        close_request()


def links(request: HttpRequest, key: str = "") -> dict[str, str]:
    """The addresses of the forms, workbook first, with the filter and the order that the page has."""
    asked = request.GET.copy()
    asked.pop(PAGE, None)
    asked.pop(OF, None)
    if key:
        asked[OF] = key
    return {kind.upper(): f"?{_with(asked, kind)}" for kind in TYPES}


def _with(asked: Any, kind: str) -> str:
    given = asked.copy()
    given[AS] = kind
    return str(given.urlencode())


def along(
    request: HttpRequest, keys: Iterable[str]
) -> list[tuple[str, Mapping[str, str]]]:
    """What can be taken along from a page, in words, with its addresses."""
    return [(in_words(key), links(request, key)) for key in keys or ("",)]


def in_words(key: str) -> str:
    return key.replace("-", " ")


def rows_of(request: HttpRequest, table: Any) -> Iterator[Any]:
    """Every row of a table in the order that the address asks for, whatever page the list stands at."""
    RequestConfig(request, paginate=False).configure(table)
    data = table.data.data
    yield from data.iterator(chunk_size=500) if _is_plain(data) else data


def _is_plain(data: Any) -> bool:
    """Whether rows can be fetched piece by piece: what is fetched beside them would ask again for each piece."""
    beside = getattr(data, "_prefetch_related_lookups", ())  # no public way to ask
    return isinstance(data, QuerySet) and not beside


def on_the_clock() -> Callable[[dt.datetime | None], dt.datetime | None]:
    """What turns a moment into the time on the laboratory's clock, as a cell holds it; the unit of its column names the zone."""
    here = zone()
    return lambda it: it.astimezone(here).replace(tzinfo=None) if it else None


def clock() -> str:
    """The zone of the laboratory's clock, for the row of units."""
    return str(zone())
