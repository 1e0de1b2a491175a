"""What was decided on a fill lot, by whom, on what: decisions with their signature, and the verdicts as they stood."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from lims.batches.models import FillLot
from lims.products.models import Requirement
from lims.record.gate import Recorded, RecordedManager
from lims.record.models import Signature

PERSON = settings.AUTH_USER_MODEL


class Decision(Recorded, models.Model):
    """One signed disposition of a fill lot. It cannot be taken back; a later one is a new signature."""

    named_by = ("fill_lot",)

    append_only = True

    class Disposition(models.TextChoices):
        RELEASE = "release"
        HOLD = "hold"
        END_HOLD = "end of hold"

    fill_lot = models.ForeignKey(FillLot, models.PROTECT, related_name="decisions")
    disposition = models.CharField(max_length=20, choices=Disposition.choices)
    remark = models.CharField(max_length=300, blank=True)
    alone_reason = models.CharField(
        max_length=300, blank=True
    )  # a deputy alone on duty
    signature = models.OneToOneField(Signature, models.PROTECT, related_name="+")
    decided_at = models.DateTimeField()
    decided_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")

    objects = RecordedManager()

    class Meta:
        ordering = ["fill_lot_id", "-decided_at", "-id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(disposition="release") | ~Q(remark=""),
                name="a_decision_other_than_release_has_a_remark",
            )
        ]

    def __str__(self) -> str:
        return f"{self.disposition} of {self.fill_lot}"

    def record_key(self) -> tuple[str, str, str]:
        return self.fill_lot.record_key()


class FrozenVerdict(Recorded, models.Model):
    """One result against one requirement as it stood when the decision was signed."""

    named_by = ("decision__fill_lot",)

    append_only = True

    decision = models.ForeignKey(Decision, models.PROTECT, related_name="verdicts")
    requirement = models.ForeignKey(Requirement, models.PROTECT, related_name="+")
    verdict = models.CharField(max_length=20)
    reported = models.CharField(max_length=40, blank=True)
    compared = models.CharField(max_length=40, blank=True)
    evidence = models.CharField(max_length=30, blank=True)
    source = models.CharField(max_length=100, blank=True)  # lot and days of the result
    why = models.TextField(blank=True)  # whole

    objects = RecordedManager()

    class Meta:
        ordering = ["decision_id", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["decision", "requirement"], name="one_verdict_a_requirement"
            )
        ]

    def __str__(self) -> str:
        return f"{self.requirement}: {self.verdict}"

    def record_key(self) -> tuple[str, str, str]:
        return self.decision.record_key()
