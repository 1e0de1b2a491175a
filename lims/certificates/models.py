"""Which papers went out: packs allotted to orders, certificates with their revisions, the data frozen and the file as issued."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from lims.batches.models import FillLot
from lims.decisions.models import Decision
from lims.products.models import Customer, Revision
from lims.record.gate import Recorded, RecordedManager

PERSON = settings.AUTH_USER_MODEL


class Allotment(Recorded, models.Model):
    """Packs of a released fill lot allotted to a customer's order."""

    named_by = ("fill_lot",)

    fill_lot = models.ForeignKey(FillLot, models.PROTECT, related_name="allotments")
    customer = models.ForeignKey(Customer, models.PROTECT, related_name="allotments")
    order = models.CharField(max_length=40)
    pack_count = models.PositiveIntegerField()
    is_given_back = models.BooleanField(default=False)
    reason = models.CharField(max_length=300, blank=True)  # why it was given back
    allotted_at = models.DateTimeField()
    allotted_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")

    objects = RecordedManager()

    class Meta:
        ordering = ["-allotted_at", "-id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(pack_count__gt=0), name="an_allotment_has_packs"
            ),
            models.CheckConstraint(
                condition=Q(is_given_back=False) | ~Q(reason=""),
                name="what_is_given_back_has_a_reason",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.pack_count} of {self.fill_lot} for {self.order}"

    def record_key(self) -> tuple[str, str, str]:
        return self.fill_lot.record_key()


class Certificate(Recorded, models.Model):
    """A numbered document; its revisions carry what was printed."""

    number = models.CharField(max_length=30, unique=True)  # Q1-C-2026-00231
    site = models.CharField(max_length=10)
    year = models.PositiveSmallIntegerField()
    sequence = models.PositiveIntegerField()
    fill_lot = models.ForeignKey(FillLot, models.PROTECT, related_name="certificates")
    customer = models.ForeignKey(Customer, models.PROTECT, related_name="certificates")
    allotment = models.OneToOneField(
        Allotment, models.PROTECT, related_name="certificate"
    )

    objects = RecordedManager()

    class Meta:
        ordering = ["-year", "-sequence"]
        constraints = [
            models.UniqueConstraint(
                fields=["site", "year", "sequence"], name="a_number_is_used_once"
            )
        ]

    def __str__(self) -> str:
        return self.number

    def record_key(self) -> tuple[str, str, str]:
        return "certificate", self.number, f"certificate {self.number}"


class CertificateRevision(Recorded, models.Model):
    """What was issued: the data as frozen, the file as printed, its fingerprint."""

    named_by = ("certificate",)

    hashed_fields = frozenset({"data"})

    class State(models.TextChoices):
        CURRENT = "current"
        SUPERSEDED = "superseded"
        WITHDRAWN = "withdrawn"

    certificate = models.ForeignKey(
        Certificate, models.PROTECT, related_name="revisions"
    )
    revision = models.PositiveSmallIntegerField(default=0)
    state = models.CharField(
        max_length=12, choices=State.choices, default=State.CURRENT
    )
    code = models.CharField(max_length=26, unique=True)  # of the check address
    decision = models.ForeignKey(Decision, models.PROTECT, related_name="+")
    held_against = models.ForeignKey(Revision, models.PROTECT, related_name="+")
    data = models.TextField()  # JSON, exactly as frozen
    file = models.CharField(max_length=120, blank=True)  # name in the storage
    sha256 = models.CharField(max_length=64, blank=True)  # of the file
    issued_at = models.DateTimeField()
    issued_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    printed_at = models.DateTimeField(null=True, blank=True)

    objects = RecordedManager()

    class Meta:
        ordering = ["certificate_id", "-revision"]
        constraints = [
            models.UniqueConstraint(
                fields=["certificate", "revision"], name="a_revision_is_issued_once"
            ),
            models.UniqueConstraint(
                fields=["certificate"],
                condition=Q(state="current"),
                name="one_current_revision_a_certificate",
            ),
            models.CheckConstraint(
                condition=Q(file="", sha256="", printed_at__isnull=True)
                | (~Q(file="") & ~Q(sha256="") & Q(printed_at__isnull=False)),
                name="file_hash_and_printing_go_together",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.certificate} revision {self.revision}"

    def record_key(self) -> tuple[str, str, str]:
        return self.certificate.record_key()
