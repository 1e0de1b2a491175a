"""When the work behind reported values began: the first start of a run or the first reading, whichever was earlier. Three queries, however many values."""

import datetime as dt
from collections.abc import Collection, Iterable

from django.db.models import Min

from lims.bench.models import Determination, Reading, ReportedValue


def first_moments(
    values: Iterable[ReportedValue], *, derived: Collection[int]
) -> dict[int, dt.datetime]:
    """The first moment by test; a derived test begins with the earliest of its sources."""
    rests_on = _determinations_of(list(values), derived)
    began = _began({pk for several in rests_on.values() for pk in several})
    return {
        test: min(began[pk] for pk in known)
        for test, several in rests_on.items()
        if (known := several & began.keys())
    }


def _determinations_of(
    values: list[ReportedValue], derived: Collection[int]
) -> dict[int, set[int]]:
    """The determinations that each test's value rests on; a derived value names the values of its sources."""
    named = {pk for v in values if v.test_id in derived for pk in v.sources}
    sources = dict(
        ReportedValue.objects.filter(pk__in=named).values_list("pk", "sources")
    )
    return {
        value.test_id: {
            pk for source in value.sources for pk in sources.get(source, ())
        }
        if value.test_id in derived
        else set(value.sources)
        for value in values
    }


def _began(determinations: set[int]) -> dict[int, dt.datetime]:
    """By determination; one without a start and without a reading began when it was opened."""
    read: dict[int, dt.datetime] = dict(
        Reading.objects.filter(
            determination__in=determinations, replaced_by__isnull=True
        )
        .order_by()
        .values_list("determination")
        .annotate(Min("read_at"))
    )
    return {
        pk: min(filter(None, (started_at, read.get(pk))), default=begun_at)
        for pk, started_at, begun_at in Determination.objects.filter(
            pk__in=determinations
        ).values_list("pk", "started_at", "begun_at")
    }
