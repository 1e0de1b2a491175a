"""What was made and what was taken from it: batches, fill lots, samples, retains."""

from django.conf import settings
from django.db import models

from lims.products.models import Product, Revision
from lims.record.gate import Recorded, RecordedManager, Versioned

PERSON = settings.AUTH_USER_MODEL


class Batch(Versioned, Recorded, models.Model):
    """One kettle charge."""

    number = models.CharField(max_length=20, unique=True)
    product = models.ForeignKey(
        Product, on_delete=models.PROTECT, related_name="batches"
    )
    kettle = models.CharField(max_length=10)
    mass_kg = models.CharField(max_length=12)
    charged_on = models.DateField()
    registered_at = models.DateTimeField()
    registered_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["-charged_on", "-number"]
        verbose_name_plural = "batches"
        indexes = [models.Index(fields=["product", "charged_on", "number"])]

    def __str__(self) -> str:
        return self.number

    def record_key(self) -> tuple[str, str, str]:
        return "batch", self.number, f"batch {self.number}"


class FillLot(Versioned, Recorded, models.Model):
    """One batch filled into one pack size in one run: the thing that is sampled, released and shipped."""

    class State(models.TextChoices):
        ON_TEST = "on test"
        AWAITING_DECISION = "awaiting decision"
        RELEASED = "released"
        ON_HOLD = "on hold"

    batch = models.ForeignKey(Batch, models.PROTECT, related_name="fill_lots")
    letter = models.CharField(max_length=2)
    number = models.CharField(max_length=24, unique=True)  # Q1-26-0417-A
    pack = models.CharField(max_length=20)
    pack_kg = models.CharField(max_length=10)
    pack_count = models.PositiveIntegerField()
    filled_at = models.DateTimeField()
    leaves_on = models.DateField(null=True, blank=True)  # when the goods must leave
    order_note = models.CharField(max_length=60, blank=True)
    state = models.CharField(
        max_length=20, choices=State.choices, default=State.ON_TEST
    )
    state_since = models.DateTimeField()
    registered_at = models.DateTimeField()
    registered_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["-filled_at", "number"]
        indexes = [models.Index(fields=["state", "state_since"])]
        constraints = [
            models.UniqueConstraint(
                fields=["batch", "letter"], name="one_fill_lot_a_letter_of_a_batch"
            )
        ]

    def __str__(self) -> str:
        return f"{self.number[: -len(self.letter) - 1]} {self.letter}"

    def record_key(self) -> tuple[str, str, str]:
        return "fill lot", self.number, f"fill lot {self}"


class HeldAgainst(Recorded, models.Model):
    """The revisions in force when a fill lot was registered: its own product's first, then the customers'."""

    named_by = ("fill_lot",)

    append_only = True

    fill_lot = models.ForeignKey(FillLot, models.PROTECT, related_name="held_against")
    revision = models.ForeignKey(Revision, models.PROTECT, related_name="+")
    is_own = models.BooleanField()

    objects = RecordedManager()

    class Meta:
        ordering = ["fill_lot_id", "-is_own", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["fill_lot", "revision"], name="a_lot_is_held_once_against_each"
            ),
            models.UniqueConstraint(
                fields=["fill_lot"],
                condition=models.Q(is_own=True),
                name="a_lot_has_one_revision_of_its_own",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.fill_lot} against {self.revision}"

    def record_key(self) -> tuple[str, str, str]:
        return self.fill_lot.record_key()


class Sample(Recorded, models.Model):
    """What was taken, where, when and by whom. A kettle sample has no fill lot and never releases one."""

    append_only = True

    class Place(models.TextChoices):
        KETTLE = "kettle"
        AFTER_MILL = "after mill"
        PACK = "pack"
        TOTE = "tote"
        BULK = "bulk"

    number = models.CharField(max_length=30, unique=True)  # Q1-26-0417-A-01
    batch = models.ForeignKey(Batch, models.PROTECT, related_name="samples")
    fill_lot = models.ForeignKey(
        FillLot, models.PROTECT, related_name="samples", null=True, blank=True
    )
    place = models.CharField(max_length=12, choices=Place.choices)
    detail = models.CharField(max_length=60, blank=True)  # drum 11 of 30
    taken_at = models.DateTimeField()
    taken_by = models.CharField(max_length=80)
    counts = models.BooleanField()  # for release, by the product's sampling plan
    why_not = models.CharField(max_length=200, blank=True)
    received_at = models.DateTimeField()
    received_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")

    objects = RecordedManager()

    class Meta:
        ordering = ["number"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(
                    place__in=["kettle", "after mill"], fill_lot__isnull=True
                )
                | (
                    ~models.Q(place__in=["kettle", "after mill"])
                    & models.Q(fill_lot__isnull=False)
                ),
                name="a_finished_sample_belongs_to_a_fill_lot",
            ),
            models.CheckConstraint(
                condition=models.Q(counts=False) | models.Q(fill_lot__isnull=False),
                name="a_kettle_sample_never_counts_for_release",
            ),
        ]

    def __str__(self) -> str:
        return self.number

    def record_key(self) -> tuple[str, str, str]:
        return "sample", self.number, f"sample {self.number}"

    @property
    def is_in_process(self) -> bool:
        return self.fill_lot_id is None


class Retain(Recorded, models.Model):
    """The sealed sample kept for later, and where it stands."""

    sample = models.OneToOneField(Sample, models.PROTECT, related_name="retain")
    place = models.CharField(max_length=30, unique=True)
    sealed_at = models.DateTimeField()
    sealed_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")

    objects = RecordedManager()

    class Meta:
        ordering = ["place"]

    def __str__(self) -> str:
        return self.place

    def record_key(self) -> tuple[str, str, str]:
        return "retain", self.place, f"retain {self.place}"


class RetainException(Recorded, models.Model):
    """Leave, with a reason, to decide on a lot that has no retain."""

    named_by = ("fill_lot",)

    append_only = True

    fill_lot = models.OneToOneField(
        FillLot, models.PROTECT, related_name="retain_exception"
    )
    reason = models.CharField(max_length=300)
    allowed_at = models.DateTimeField()
    allowed_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")

    objects = RecordedManager()

    def __str__(self) -> str:
        return f"{self.fill_lot}: {self.reason}"

    def record_key(self) -> tuple[str, str, str]:
        return self.fill_lot.record_key()
