"""What measures, and the dated checks that say whether it may be used."""

import datetime as dt
from decimal import Decimal

from django.conf import settings
from django.db import models

from lims.methods.models import Characteristic
from lims.record.gate import Recorded, RecordedManager, Versioned
from specs.control.reference import Finding, Judged, in_words, judge, plain


class Instrument(Versioned, Recorded, models.Model):
    """One instrument with its number, as written on its plate."""

    class State(models.TextChoices):
        IN_SERVICE = "in service"
        OVERDUE = "overdue"  # derived from the last check, never stored
        OUT_OF_SERVICE = "out of service"
        RETIRED = "retired"

    number = models.CharField(max_length=20, unique=True)
    kind = models.CharField(max_length=40)
    note = models.CharField(max_length=200, blank=True)
    state = models.CharField(
        max_length=20, choices=State.choices, default=State.IN_SERVICE
    )
    state_reason = models.CharField(max_length=200, blank=True)
    due_on = models.DateField(null=True, blank=True)  # of the last check
    out_since = models.DateTimeField(null=True, blank=True)  # of the last failure
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["number"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(state="overdue"), name="overdue_is_never_stored"
            )
        ]

    def __str__(self) -> str:
        return self.number

    def record_key(self) -> tuple[str, str, str]:
        return "instrument", self.number, f"{self.kind} {self.number}"

    def state_on(self, day: dt.date) -> str:
        """The state on a day: in service turns overdue when the check is no longer in date, or was never made."""
        if self.state == self.State.IN_SERVICE and (
            self.due_on is None or self.due_on < day
        ):
            return self.State.OVERDUE
        return self.state


class Check(Recorded, models.Model):
    """A dated verification of an instrument and what was found."""

    named_by = ("instrument",)

    instrument = models.ForeignKey(
        Instrument, on_delete=models.PROTECT, related_name="checks"
    )
    done_on = models.DateField()
    due_on = models.DateField()
    found = models.CharField(max_length=200)
    is_fit = models.BooleanField()
    recorded_at = models.DateTimeField()
    recorded_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )

    objects = RecordedManager()

    class Meta:
        ordering = ["-done_on", "-id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(due_on__gte=models.F("done_on")),
                name="check_is_due_again_after_it_was_done",
            )
        ]

    def __str__(self) -> str:
        return f"{self.instrument}, {self.done_on}"

    def record_key(self) -> tuple[str, str, str]:
        return self.instrument.record_key()


class ReferenceMaterial(Recorded, models.Model):
    """A material with an assigned value, read on instruments of a kind to see whether they still measure right."""

    named_by = ("characteristic",)

    append_only = True

    name = models.CharField(max_length=80)
    lot = models.CharField(max_length=40)
    kind = models.CharField(max_length=40)  # of the instruments that read it
    characteristic = models.ForeignKey(
        Characteristic, models.PROTECT, related_name="reference_materials"
    )
    assigned = models.CharField(max_length=20)
    basis = models.CharField(max_length=200)  # of the assigned value
    deviation = models.CharField(max_length=20, blank=True)  # of the site, if stated
    deviation_basis = models.CharField(max_length=200, blank=True)
    count = models.PositiveSmallIntegerField(default=3)  # readings in a set
    every_days = models.PositiveSmallIntegerField(default=7)
    expires_on = models.DateField()
    added_at = models.DateTimeField()
    added_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )

    objects = RecordedManager()

    class Meta:
        ordering = ["name", "lot"]
        constraints = [
            models.UniqueConstraint(
                fields=["name", "lot"], name="one_reference_material_a_lot"
            ),
            models.CheckConstraint(
                condition=models.Q(deviation="") | ~models.Q(deviation_basis=""),
                name="a_stated_deviation_has_a_basis",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.name}, lot {self.lot}"

    def record_key(self) -> tuple[str, str, str]:
        return "reference material", self.lot, str(self)


class ReferenceReading(Recorded, models.Model):
    """One set of readings of a reference material on an instrument, and how it was judged then."""

    named_by = ("instrument", "material__characteristic")

    append_only = True

    instrument = models.ForeignKey(
        Instrument, models.PROTECT, related_name="reference_readings"
    )
    material = models.ForeignKey(
        ReferenceMaterial, models.PROTECT, related_name="readings"
    )
    texts = models.JSONField()  # as typed
    mean = models.CharField(max_length=40)
    assigned = models.CharField(max_length=20)
    bias = models.CharField(max_length=40)  # exact
    deviation = models.CharField(max_length=40, blank=True)
    deviation_basis = models.CharField(max_length=200)
    finding = models.CharField(
        max_length=30, choices=[(str(it), str(it)) for it in Finding]
    )
    instrument_state = models.CharField(max_length=20)
    read_at = models.DateTimeField()
    read_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )

    objects = RecordedManager()

    class Meta:
        ordering = ["-read_at", "-id"]

    def __str__(self) -> str:
        return f"{self.mean} on {self.instrument}"

    def record_key(self) -> tuple[str, str, str]:
        return self.instrument.record_key()

    @property
    def is_good(self) -> bool:
        return Finding(self.finding).is_good

    @property
    def judged(self) -> Judged:
        """As it was judged then, from what is stored."""
        spread = Decimal(self.deviation) if self.deviation else None
        return judge([plain(it) for it in self.texts], Decimal(self.assigned), spread)

    @property
    def in_words(self) -> str:
        return in_words(self.judged, self.assigned, self.material.name)
