"""Questions to what was brought in: files, lines of history, logs."""

from django.db.models import Q, QuerySet

from lims.batches.models import Batch, Sample
from lims.imports.models import HistoryLine, Import, Log
from lims.methods.models import FiguresRevision
from lims.methods.queries import revisions
from lims.products.models import Product
from lims.record import queries as record


def imports() -> QuerySet[Import]:
    """Every file that was brought in, newest first."""
    found = Import.objects.select_related("received_by", "taken_by", "staging")
    return found.defer("staging__parsed")  # the sheets themselves: megabytes


def one(pk: int) -> Import:
    """One import by its key; raises Import.DoesNotExist."""
    return imports().get(pk=pk)


def lines_of(import_of: Import) -> QuerySet[HistoryLine]:
    """The lines of history that a file brought."""
    return import_of.lines.select_related("product").order_by("row", "pk")


def products_of(import_of: Import) -> QuerySet[Product]:
    """The products of which a file brought history, by code."""
    told = import_of.lines.order_by().values("product")
    return Product.objects.filter(pk__in=told).order_by("code")


def history() -> QuerySet[HistoryLine]:
    """Unverified history that stands: of files taken in and not withdrawn."""
    return HistoryLine.objects.filter(
        import_of__state=Import.State.TAKEN_IN
    ).select_related("product", "import_of")


def history_line(pk: int) -> HistoryLine:
    """One line of history, withdrawn ones too; raises HistoryLine.DoesNotExist."""
    return HistoryLine.objects.select_related(
        "product", "import_of__received_by", "import_of__taken_by"
    ).get(pk=pk)


def history_of_batch(batch: str) -> QuerySet[HistoryLine]:
    """What history tells of a batch, by its number."""
    return history().filter(batch=batch)


def figures_brought_by(import_of: Import) -> list[FiguresRevision]:
    """The revisions of figures that a file opened as drafts and that still stand, as the record tells them."""
    if import_of.kind != Import.Kind.FIGURES or import_of.taken_at is None:
        return []
    taken = record.entries(about=import_of).filter(verb="file_taken_in").first()
    model = FiguresRevision._meta.label
    changes = taken.changes if taken else ()
    keys = {it["id"] for it in changes if it["model"] == model}
    return list(revisions().filter(pk__in=keys))


def log(pk: int) -> Log:
    """One log; raises Log.DoesNotExist."""
    return Log.objects.select_related("import_of__received_by", "test__sample").get(
        pk=pk
    )


def logs() -> QuerySet[Log]:
    """Logs that stand, without their readings: of files taken in and not withdrawn."""
    return Log.objects.filter(import_of__state=Import.State.TAKEN_IN).defer("block")


def logs_of_sample(sample: Sample) -> QuerySet[Log]:
    """The logs of a sample: of its tests, or with its number as what was logged."""
    return logs().filter(Q(test__sample=sample) | Q(subject=sample.number))


def logs_of_batch(batch: Batch) -> QuerySet[Log]:
    """The logs of a batch, of its fill lots and of their samples, by number or by test."""
    number = batch.number
    return logs().filter(
        Q(test__sample__batch=batch)
        | Q(subject=number)
        | Q(subject__startswith=f"{number}-")
    )
