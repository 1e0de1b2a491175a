"""What measures, and the dated checks that say whether it may be used."""

import datetime as dt

from django.conf import settings
from django.db import models

from lims.record.gate import Recorded, RecordedManager, Versioned


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
