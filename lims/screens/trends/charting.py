"""One chart with all that stands beneath it: summaries, lines over time, limits, and the same values in a table."""

from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest
from django.urls import reverse

from lims.drawing.trend import OF
from lims.imports.models import Import
from lims.imports.rules import may_bring_in
from lims.methods.models import Characteristic
from lims.people.permissions import Permission, allowed
from lims.products.models import Product
from lims.screens.batches.answers import person_of
from lims.screens.paging import ROWS, page_of
from lims.screens.trends import asking, drawn, moving, points, summaries, words
from lims.screens.trends.forms import TrendForm
from lims.screens.zone import zone
from lims.trends.asked import Asked, Span, Trend
from lims.wording import dates

ALL = "all"  # instead of a page's number


@dataclass(frozen=True)
class Held:
    """The limits of one revision, and when they held."""

    revision: str
    must: str
    when: str


def page(
    request: HttpRequest, product: Product, form: TrendForm, trend: Trend
) -> dict[str, Any]:
    """Everything of one chart."""
    person = person_of(request)
    newest_first = tuple(reversed(trend.points))
    is_all = request.GET.get("page") == ALL
    size = max(len(newest_first), 1) if is_all else ROWS
    rows = page_of(request, newest_first, size=size)
    lines = moving.rows_of(trend)
    return {
        **_head(product, trend.characteristic, form),
        "trend": trend,
        "answer": answer(trend, lines),
        "drawn": drawn.one(trend),
        "summaries": summaries.rows_of(trend),
        "lines": lines,
        "held": [held(it, trend.characteristic) for it in trend.spans],
        "page": rows,
        "rows": [points.shown(it) for it in rows],
        "is_narrowed": asking.is_narrowed(trend.asked),
        "no_match": no_match(trend.asked),
        "of": OF[trend.asked.where],
        "query": asking.query_of(trend.asked),
        "everything": everything(trend.asked),
        "may_see_persons": allowed(person, Permission.SEE_PERSONS),
        "may_bring_in": may_bring_in(person, Import.Kind.HISTORY),
    }


def refused_page(
    product: Product, measured: Characteristic, form: TrendForm
) -> dict[str, Any]:
    """The form again with what was typed, and nothing drawn."""
    return {
        **_head(product, measured, form),
        "answer": "Nothing is drawn: what is asked for needs another look.",
    }


def no_match(asked: Asked) -> str:
    """What leaves nothing, and what to do."""
    said = words.listed(asking.narrowed_by(asked))
    return (
        f"{said[:1].upper()}{said[1:]}: take something of it away, or show everything."
    )


def _head(
    product: Product, measured: Characteristic, form: TrendForm
) -> dict[str, Any]:
    return {
        "product": product,
        "characteristic": measured,
        "form": form,
        "is_averaged": summaries.is_averaged(measured),
        "heads": summaries.heads(measured),
        "has_order": summaries.has_order(measured),
        "has_more": asking.has_more(form),
    }


def everything(asked: Asked) -> str:
    """The address of the chart with nothing left out."""
    plain = Asked(asked.product, asked.characteristic, asked.where, asked.along)
    own = reverse("trends:one", args=[asked.product, asked.characteristic])
    return own + asking.query_of(plain)


def answer(trend: Trend, lines: list[moving.Moving]) -> str:
    """How many values there are, what the last one is, and whether they move."""
    if not trend.points:
        return "No value fits what is asked for."
    first, last = trend.points[0], trend.points[-1]
    of = f"{OF[trend.asked.where]} of {trend.asked.product}"
    days = f"{points.day_words(first)} to {points.day_words(last)}"
    told = (
        f"{words.number_of(len(trend.points), 'value')} of {of}, {days}; "
        f"the last is {last.said}{_lies(last.beside)}."
    )
    first_line = next(iter(lines), None)  # history comes last, where there is more
    return f"{told} {first_line.sentence}" if first_line else told


def _lies(beside: str) -> str:
    return {
        "within": ", within the limits of its day",
        "beyond": ", beyond the limits of its day",
        "not known": "; whether it lies within the limits is not known",
    }.get(beside, "")


def held(span: Span, measured: Characteristic) -> Held:
    """A revision's limits with their days in words."""
    since = _day(span.since) if span.since else "the beginning"
    until = f"to {_day(span.until)}" if span.until else "until today"
    must = words.must(span.lower, span.upper, span.must, measured)
    return Held(span.revision, must, f"{since} {until}")


def _day(day: Any) -> str:
    return dates.day(day, zone())
