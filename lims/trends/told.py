"""Values that files told of earlier batches: unverified history that stands."""

import datetime as dt
from collections.abc import Iterator

from django.db.models import QuerySet

from lims.batches.models import Sample
from lims.imports.models import HistoryLine, Import
from lims.people.queries import site_zone
from lims.trends.asked import Source, Where
from lims.trends.own import Found

IN_PROCESS = {
    Where.KETTLE: Sample.Place.KETTLE,
    Where.AFTER_MILL: Sample.Place.AFTER_MILL,
}
NOON = dt.time(12)  # of history only the day is known
AT_ONCE = 5000
FIELDS = (
    "pk",
    "measured_on",
    "batch",
    "kettle",
    "pack",
    "place",
    "instrument",
    "person",
    "values",
)


def lines(product: str, where: Where | None = None) -> QuerySet[HistoryLine]:
    """The lines of history of a product, of everywhere or of where they were taken; what tells no place is finished product."""
    rows = HistoryLine.objects.filter(
        product__code=product, import_of__state=Import.State.TAKEN_IN
    ).order_by("measured_on", "pk")
    if where is None:
        return rows
    if where == Where.FINISHED:
        return rows.exclude(place__in=IN_PROCESS.values())
    return rows.filter(place=IN_PROCESS[where])


def where_of(place: str) -> Where:
    """Where a line was taken, by the place that it tells."""
    return next(
        (it for it, name in IN_PROCESS.items() if name == place), Where.FINISHED
    )


def found_in_history(
    product: str,
    where: Where,
    code: str = "",
    since: dt.date | None = None,
    until: dt.date | None = None,
) -> list[Found]:
    """The values in order of time, of all characteristics or of one."""
    rows = lines(product, where)
    if since:
        rows = rows.filter(measured_on__gte=since)
    if until:
        rows = rows.filter(measured_on__lte=until)
    return list(_found(rows, code))


def _found(rows: QuerySet[HistoryLine], code: str) -> Iterator[Found]:
    zone = site_zone()
    for (
        pk,
        day,
        batch,
        kettle,
        pack,
        place,
        instrument,
        person,
        values,
    ) in rows.values_list(*FIELDS).iterator(chunk_size=AT_ONCE):
        for it in values:
            if code and it["characteristic"] != code:
                continue
            yield Found(
                at=dt.datetime.combine(day, NOON, tzinfo=zone),
                day=day,
                characteristic=it["characteristic"],
                batch=batch,
                value=it["value"],
                source=Source.HISTORY,
                kettle=kettle,
                instruments=frozenset({instrument} if instrument else ()),
                person=person,
                place=place or pack,
                line_id=pk,
                is_words=bool(it.get("is_words")),
            )
