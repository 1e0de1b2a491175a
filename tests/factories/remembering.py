"""What actions built once in this process is put down again row by row: the same rows, in a tenth of the time. The head of the record says whether the database stands where the building began."""

import json

from django.apps import apps
from django.core.management.color import no_style
from django.db import connection, transaction
from django.db.models import QuerySet

from lims.batches.models import FillLot
from lims.products.models import Requirement
from lims.record import doors, triggers
from lims.record.models import Entry
from lims.record.queries import tail
from lims.record.recorded import Recorded

ON_TEST = {"state": FillLot.State.ON_TEST}  # a released lot takes no more rows
_remembered = {}


def built(what, build):
    """Do what `build` does, or put down what it did when it was called on the same record before."""
    key = (tail().head, json.dumps(what, sort_keys=True))
    if key in _remembered:
        _put_down(*_remembered[key])
        return
    before = _rows()
    build()
    _remembered[key] = _difference(before, _rows())


def _models():
    """Every recorded model; requirements before the revisions that guard them."""
    recorded = [
        model
        for model in apps.get_models()
        if issubclass(model, Recorded) and model is not Requirement
    ]
    return [Entry, Requirement, *recorded]


def _rows():
    return {
        model: {
            row[model._meta.pk.attname]: row
            for row in QuerySet(model).order_by().values()
        }
        for model in _models()
    }


def _difference(before, after):
    new, changed = {}, {}
    for model, rows in after.items():
        old = before[model]
        new[model] = [rows[pk] for pk in sorted(rows.keys() - old.keys())]
        changed[model] = [
            row for pk, row in rows.items() if pk in old and old[pk] != row
        ]
    return new, changed


def _put_down(new, changed):
    with transaction.atomic():
        triggers.demand_all("default")
        doors.open_gate("default")
        for model, rows in new.items():
            begun = rows if model is not FillLot else [it | ON_TEST for it in rows]
            QuerySet(model).bulk_create(model(**row) for row in begun)
        for model, rows in [(FillLot, new[FillLot]), *changed.items()]:
            for row in rows:
                QuerySet(model).filter(pk=row[model._meta.pk.attname]).update(**row)
        doors.close_gate("default")
    _go_on_counting()


def _go_on_counting():
    """Keys that were given must not be given again: PostgreSQL counts apart from the rows."""
    with connection.cursor() as cursor:
        for statement in connection.ops.sequence_reset_sql(no_style(), _models()):
            cursor.execute(statement)
