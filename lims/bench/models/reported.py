"""What was made of the readings: what somebody let count, and the reported value of a test. Neither ever changes."""

from django.db import models
from django.db.models import Q

from lims.bench.models.measured import PERSON, Condition, Test, older
from lims.record.gate import Recorded, RecordedManager


class UseAllowed(Recorded, models.Model):
    """Somebody answers for a reading on an instrument not in service: it may count."""

    append_only = True

    condition = models.OneToOneField(Condition, models.PROTECT, related_name="allowed")
    reason = models.CharField(max_length=300)
    allowed_at = models.DateTimeField()
    allowed_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")

    objects = RecordedManager()

    def __str__(self) -> str:
        return f"{self.condition} allowed by {self.allowed_by}"

    def record_key(self) -> tuple[str, str, str]:
        return self.condition.record_key()


class ReportedValue(Recorded, models.Model):
    """The value reported for a characteristic of a sample, with the rule that made it from accepted determinations."""

    named_by = ("test__characteristic", "test__sample__fill_lot")

    append_only = True

    test = models.ForeignKey(Test, models.PROTECT, related_name="reported_values")
    value = models.CharField(max_length=40)  # unrounded, exact; or a rating, or words
    reported = models.CharField(max_length=40)
    says = models.TextField()  # whole, as the rule: half a number is another number
    rule = models.TextField()
    constants = models.CharField(max_length=10, blank=True)  # exact or printed
    figures = models.JSONField(default=list, blank=True)  # of the method, that decided
    sources = models.JSONField(default=list)  # ids of the determinations or tests used
    reported_at = models.DateTimeField()
    reported_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    replaces = older()
    is_withdrawn = models.BooleanField(default=False)  # its determination was set aside

    objects = RecordedManager()

    class Meta:
        ordering = ["test_id", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["test"],
                condition=Q(replaces__isnull=True),
                name="one_first_reported_value_a_test",
            )
        ]

    def __str__(self) -> str:
        return self.reported

    def record_key(self) -> tuple[str, str, str]:
        return self.test.record_key()
