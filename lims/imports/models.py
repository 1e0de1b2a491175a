"""Files that were brought in, what was answered about them, and what came of them."""

from typing import Any

from django.conf import settings
from django.db import models
from django.db.models import Q

from lims.bench.models import Test
from lims.products.models import Product
from lims.record.gate import Recorded, RecordedManager, Versioned

PERSON = settings.AUTH_USER_MODEL


class Import(Versioned, Recorded, models.Model):
    """One file that was brought in: kept as it came, with its hash and what was said about its columns."""

    class Kind(models.TextChoices):
        HISTORY = "history", "results of earlier batches"
        SPECIFICATIONS = "specifications", "products and their specifications"
        CUSTOMERS = "customers", "customers and their specifications"
        FIGURES = "figures", "figures of methods"
        INSTRUMENTS = "instruments", "instruments and their checks"
        SAMPLES = "samples", "samples to be tested"
        LOG = "log", "pressure or temperature over time"

    class State(models.TextChoices):
        RECEIVED = "received"  # kept, waits to be read and answered
        TAKEN_IN = "taken in"
        REFUSED = "refused"  # what it is cannot be read; nothing was taken
        LEFT = "left"  # somebody decided not to take it in
        WITHDRAWN = "withdrawn"  # was taken in; no longer shown on any chart

    kind = models.CharField(max_length=20, choices=Kind.choices)
    state = models.CharField(
        max_length=12, choices=State.choices, default=State.RECEIVED
    )
    name = models.CharField(max_length=120)  # of the file, as it came
    stored_as = models.CharField(max_length=120)  # where the storage keeps it
    sha256 = models.CharField(max_length=64)
    size = models.PositiveIntegerField()  # bytes
    reading = models.JSONField(default=dict, blank=True)  # encoding, delimiter
    mapping = models.JSONField(default=dict, blank=True)  # block -> letter -> use
    answers = models.JSONField(default=dict, blank=True)
    counts = models.JSONField(default=dict, blank=True)  # when taken in
    line_count = models.PositiveIntegerField(default=0)
    reason = models.CharField(max_length=300, blank=True)  # refused, left, withdrawn
    received_at = models.DateTimeField()
    received_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    taken_at = models.DateTimeField(null=True, blank=True)
    taken_by = models.ForeignKey(
        PERSON, models.PROTECT, related_name="+", null=True, blank=True
    )
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["-id"]
        indexes = [models.Index(fields=["sha256"], name="import_by_hash")]
        constraints = [
            models.CheckConstraint(
                condition=~Q(state__in=["refused", "left", "withdrawn"])
                | ~Q(reason=""),
                name="an_import_that_came_to_nothing_says_why",
            ),
            models.CheckConstraint(
                condition=Q(
                    state__in=["taken in", "withdrawn"],
                    taken_at__isnull=False,
                    taken_by__isnull=False,
                )
                | Q(
                    state__in=["received", "refused", "left"],
                    taken_at__isnull=True,
                    taken_by__isnull=True,
                ),
                name="an_import_is_taken_in_by_somebody_at_some_time",
            ),
            models.UniqueConstraint(
                fields=["sha256", "kind"],
                condition=Q(state="taken in"),
                name="a_file_is_taken_in_once",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def record_key(self) -> tuple[str, str, str]:
        return "import", str(self.pk), f"import of {self.name}"


class Layout(Versioned, Recorded, models.Model):
    """What the columns of a layout were taken for when it last came: proposed when it comes again."""

    fingerprint = models.CharField(max_length=64)
    kind = models.CharField(max_length=20, choices=Import.Kind.choices)
    uses = models.JSONField(default=dict)  # letter -> use, as in Import.mapping
    choices = models.JSONField(default=dict, blank=True)  # answers that hold again
    used_at = models.DateTimeField()
    used_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["-used_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["fingerprint", "kind"], name="one_memory_a_layout_and_kind"
            )
        ]

    def __str__(self) -> str:
        return f"layout {self.fingerprint[:8]}"

    def record_key(self) -> tuple[str, str, str]:
        return "layout", self.fingerprint, f"layout {self.fingerprint[:8]}"


class HistoryLine(Recorded, models.Model):
    """Unverified history: the results of one batch on one day, as a file told them. Charted; never on a certificate, never a verdict."""

    append_only = True
    named_by = ("import_of",)

    import_of = models.ForeignKey(Import, models.PROTECT, related_name="lines")
    sheet = models.CharField(max_length=60, blank=True)
    row = models.PositiveIntegerField()  # the first that it stands in
    batch = models.CharField(max_length=40)
    product = models.ForeignKey(Product, models.PROTECT, related_name="history")
    measured_on = models.DateField()
    kettle = models.CharField(max_length=20, blank=True)
    pack = models.CharField(max_length=40, blank=True)
    place = models.CharField(max_length=12, blank=True)  # of Sample.Place, if told
    instrument = models.CharField(max_length=40, blank=True)
    person = models.CharField(max_length=80, blank=True)
    remark = models.CharField(max_length=300, blank=True)
    values = models.JSONField(default=list)  # as specs.tables.saying.Value tells them
    key = models.CharField(
        max_length=64
    )  # of what it says: the same is not added twice

    objects = RecordedManager()

    class Meta:
        ordering = ["measured_on", "id"]
        indexes = [
            models.Index(fields=["product", "measured_on"], name="history_of_product"),
            models.Index(fields=["batch"], name="history_by_batch"),
            models.Index(fields=["key"], name="history_by_key"),
        ]

    def __str__(self) -> str:
        return f"history of {self.batch}"

    def record_key(self) -> tuple[str, str, str]:
        return self.import_of.record_key()


class Log(Recorded, models.Model):
    """A signal over time from a logger's file: one compressed block, never a row a point."""

    append_only = True
    named_by = ("import_of",)

    import_of = models.ForeignKey(Import, models.PROTECT, related_name="logs")
    heading = models.CharField(max_length=60)  # of its column
    measures = models.CharField(max_length=20)  # pressure, temperature
    unit = models.CharField(max_length=20)
    started_at = models.DateTimeField(null=True, blank=True)  # where the file tells it
    count = models.PositiveIntegerField()
    block = models.BinaryField()  # minutes and values as text, compressed
    sha256 = models.CharField(max_length=64)  # of the block before compression
    subject = models.CharField(max_length=60)  # batch, vessel or kettle, as told
    test = models.ForeignKey(
        Test, models.PROTECT, related_name="logs", null=True, blank=True
    )

    objects = RecordedManager()

    class Meta:
        ordering = ["import_of_id", "id"]

    def __str__(self) -> str:
        return f"{self.heading} of {self.subject}"

    def record_key(self) -> tuple[str, str, str]:
        return self.import_of.record_key()


class Staging(models.Model):
    """What is known of a file while it is looked at. No part of the record: it can be made again from the file, and goes when the file is taken in or left."""

    class Stage(models.TextChoices):
        WAITING = "waiting"
        READING = "reading"
        CHECKING = "checking"
        LOOKED_AT = "looked at"
        TAKING = "taking in"
        FAILED = "failed"

    import_of = models.OneToOneField(
        Import, models.CASCADE, related_name="staging", primary_key=True
    )
    stage = models.CharField(
        max_length=12, choices=Stage.choices, default=Stage.WAITING
    )
    done = models.PositiveIntegerField(default=0)
    total = models.PositiveIntegerField(default=0)
    words = models.CharField(max_length=300, blank=True)
    changed_at = models.DateTimeField()
    parsed = models.BinaryField(null=True)  # the sheets, compressed
    outcome = models.JSONField(default=dict, blank=True)  # what the last look found
    looked_at_version: Any = models.PositiveIntegerField(default=0)  # of the import

    def __str__(self) -> str:
        return f"staging of {self.import_of_id}"
