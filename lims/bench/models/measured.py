"""What was read and what it means: tests, determinations, readings, conditions, reported values. A reading never changes; a correction is a new row that names the old one."""

from typing import Any

from django.conf import settings
from django.db import models
from django.db.models import Q

from lims.batches.models import Sample
from lims.instruments.models import Instrument
from lims.methods.models import Characteristic, MethodEdition
from lims.record.gate import Recorded, RecordedManager, Versioned

PERSON = settings.AUTH_USER_MODEL
OF_A_SET = (
    "determination__test__characteristic",
    "determination__test__sample__fill_lot",
)


def older() -> Any:
    """The row that this one takes the place of."""
    return models.OneToOneField(
        "self", models.PROTECT, related_name="replaced_by", null=True, blank=True
    )


def _has_reason(name: str) -> models.CheckConstraint:
    what = Q(replaces__isnull=True) | ~Q(reason="")
    return models.CheckConstraint(condition=what, name=name)


class Test(Versioned, Recorded, models.Model):
    """One characteristic on one sample."""

    named_by = ("characteristic", "sample__fill_lot")

    __test__ = False  # not a test of the program

    class State(models.TextChoices):
        DUE = "due"
        RUNNING = "running"
        REPORTED = "reported"
        AUTHORISED = "authorised"

    sample = models.ForeignKey(Sample, models.PROTECT, related_name="tests")
    characteristic = models.ForeignKey(
        Characteristic, models.PROTECT, related_name="tests"
    )
    edition = models.ForeignKey(
        MethodEdition, models.PROTECT, related_name="+", null=True, blank=True
    )
    state = models.CharField(max_length=12, choices=State.choices, default=State.DUE)
    due_at = models.DateTimeField(null=True, blank=True)
    is_required = models.BooleanField(default=True)  # by a requirement of the lot
    asks = models.TextField(blank=True)  # what its edition asks further
    figures = models.JSONField(default=list, blank=True)  # of the method, that ask it
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["sample_id", "characteristic__place", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["sample", "characteristic"],
                name="one_test_a_characteristic_of_a_sample",
            )
        ]

    def __str__(self) -> str:
        return f"{self.characteristic} of {self.sample}"

    def record_key(self) -> tuple[str, str, str]:
        kind = "fill lot" if self.sample.fill_lot_id else "sample"
        lot = self.sample.fill_lot
        key = lot.number if lot else self.sample.number
        return kind, key, f"{self.characteristic} of {self.sample}"


class Determination(Versioned, Recorded, models.Model):
    """One complete run of a method and the value it gives."""

    named_by = ("test__characteristic", "test__sample__fill_lot")

    class State(models.TextChoices):
        BEGUN = "begun"
        ACCEPTED = "accepted"
        SET_ASIDE = "set aside"

    test = models.ForeignKey(Test, models.PROTECT, related_name="determinations")
    place = models.PositiveSmallIntegerField()  # 1 for the first set, 2 for the next
    state = models.CharField(max_length=10, choices=State.choices, default=State.BEGUN)
    started_at = models.DateTimeField(null=True, blank=True)  # of a run by the clock
    ends_at = models.DateTimeField(null=True, blank=True)
    reason = models.TextField(blank=True)  # why it was set aside
    by_rule = models.BooleanField(default=False)  # set aside by the repeat rule
    set_aside_by = models.ForeignKey(
        PERSON, models.PROTECT, related_name="+", null=True, blank=True
    )
    value = models.CharField(max_length=40, blank=True)  # unrounded, exact
    reported = models.CharField(max_length=40, blank=True)  # rounded by the method
    says = models.TextField(blank=True)
    parts = models.JSONField(default=dict, blank=True)
    bars = models.JSONField(default=list, blank=True)  # why it cannot count
    asks = models.JSONField(default=list, blank=True)
    is_complete = models.BooleanField(default=False)
    begun_at = models.DateTimeField()
    begun_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["test_id", "place"]
        constraints = [
            models.UniqueConstraint(
                fields=["test", "place"], name="one_determination_a_place"
            ),
            models.CheckConstraint(
                condition=~Q(state="set aside") | ~Q(reason=""),
                name="what_is_set_aside_has_a_reason",
            ),
            models.CheckConstraint(
                condition=~Q(state="accepted") | (~Q(value="") & Q(bars=[])),
                name="what_is_accepted_has_a_value_and_no_bar",
            ),
            models.CheckConstraint(
                condition=Q(by_rule=False)
                | Q(state="set aside", set_aside_by__isnull=True),
                name="a_rule_sets_aside_without_a_person",
            ),
        ]

    def __str__(self) -> str:
        return f"set {self.place} of {self.test}"

    def record_key(self) -> tuple[str, str, str]:
        kind, key, name = self.test.record_key()
        return kind, key, f"{name}, set {self.place}"


class Reading(Recorded, models.Model):
    """One number, mark or word as typed, beside its exact value."""

    named_by = OF_A_SET

    append_only = True

    determination = models.ForeignKey(
        Determination, models.PROTECT, related_name="readings"
    )
    slot = models.CharField(max_length=30)
    text = models.CharField(max_length=200)  # as typed
    value = models.CharField(max_length=40, blank=True)  # exact; empty for words
    unit = models.CharField(max_length=20, blank=True)
    read_at = models.DateTimeField()
    saved_at = models.DateTimeField()
    saved_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    replaces = older()
    reason = models.CharField(max_length=300, blank=True)

    objects = RecordedManager()

    class Meta:
        ordering = ["determination_id", "id"]
        constraints = [
            _has_reason("a_changed_reading_has_a_reason"),
            models.UniqueConstraint(
                fields=["determination", "slot"],
                condition=Q(replaces__isnull=True),
                name="one_first_reading_a_slot",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.text} {self.unit}".strip()

    def record_key(self) -> tuple[str, str, str]:
        return self.determination.record_key()


class Condition(Recorded, models.Model):
    """A condition of a determination: a temperature, a time, an instrument with its state at the time of use."""

    named_by = OF_A_SET

    append_only = True

    determination = models.ForeignKey(
        Determination, models.PROTECT, related_name="conditions"
    )
    key = models.CharField(max_length=30)
    text = models.CharField(max_length=100)
    value = models.CharField(max_length=60, blank=True)
    instrument = models.ForeignKey(
        Instrument, models.PROTECT, related_name="uses", null=True, blank=True
    )
    instrument_state = models.CharField(max_length=20, blank=True)
    saved_at = models.DateTimeField()
    saved_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    replaces = older()
    reason = models.CharField(max_length=300, blank=True)

    objects = RecordedManager()

    class Meta:
        ordering = ["determination_id", "id"]
        constraints = [
            _has_reason("a_changed_condition_has_a_reason"),
            models.UniqueConstraint(
                fields=["determination", "key"],
                condition=Q(replaces__isnull=True),
                name="one_first_condition_a_key",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.key}: {self.text}"

    def record_key(self) -> tuple[str, str, str]:
        return self.determination.record_key()


class Trace(Recorded, models.Model):
    """The curve of one run as it came from the instrument: two columns, time and signal, kept as received."""

    named_by = OF_A_SET

    append_only = True

    determination = models.ForeignKey(
        Determination, models.PROTECT, related_name="traces"
    )
    name = models.CharField(max_length=120)  # of the file
    sha256 = models.CharField(max_length=64)
    block = models.BinaryField()  # the file, compressed
    count = models.PositiveIntegerField()  # points
    saved_at = models.DateTimeField()
    saved_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    replaces = older()
    reason = models.CharField(max_length=300, blank=True)

    objects = RecordedManager()

    class Meta:
        ordering = ["determination_id", "id"]
        constraints = [
            _has_reason("a_changed_trace_has_a_reason"),
            models.UniqueConstraint(
                fields=["determination"],
                condition=Q(replaces__isnull=True),
                name="one_first_trace_a_determination",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def record_key(self) -> tuple[str, str, str]:
        return self.determination.record_key()
