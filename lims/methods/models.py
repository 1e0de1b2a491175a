"""What is measured and how: characteristics, methods, their dated editions, and in revisions the figures that each edition states."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from lims.methods.reference import names_in
from lims.record.gate import Recorded, RecordedManager, Versioned
from lims.record.models import Signature

PERSON = settings.AUTH_USER_MODEL

JOINTS = {
    "ASTM": "-",
    "ISO": ":",
    "DIN": ":",
    "EN": ":",
    "IP": ":",
}  # as the issuers write it


class Characteristic(Recorded, models.Model):
    """One thing that is measured, with its conditions; `procedure` names the function in specs that carries it out."""

    class Kind(models.TextChoices):
        NUMBER = "number"
        LADDER = "ladder"  # a number of a ladder of loads; never averaged
        RATING = "rating"  # a mark of an ordered scale; never averaged
        FINDING = "pass or fail"
        WORDS = "words"

    code = models.SlugField(max_length=60, unique=True)
    name = models.CharField(max_length=80)
    conditions = models.CharField(max_length=120, blank=True)
    unit = models.CharField(max_length=20, blank=True)
    kind = models.CharField(max_length=12, choices=Kind.choices, default=Kind.NUMBER)
    procedure = models.CharField(max_length=60)
    parameters = models.JSONField(default=dict, blank=True)
    derived_from = models.JSONField(default=dict, blank=True)  # role -> code
    step = models.CharField(max_length=10, default="1")  # reported to this step
    is_signed = models.BooleanField(default=False)  # a change: +22, −3
    span = models.CharField(max_length=10, blank=True)  # length of a one-sided ruler
    place = models.PositiveSmallIntegerField(default=100)  # order on bench and paper
    caution = models.CharField(max_length=300, blank=True)
    elsewhere = models.JSONField(default=dict, blank=True)  # names by language

    objects = RecordedManager()

    class Meta:
        ordering = ["place", "name"]

    def __str__(self) -> str:
        return self.name

    def record_key(self) -> tuple[str, str, str]:
        return "characteristic", self.code, self.in_full

    @property
    def in_full(self) -> str:
        return f"{self.name}, {self.conditions}" if self.conditions else self.name

    def named(self, language: str) -> tuple[str, str]:
        """Name and conditions in a language of the papers: its own, else the reference's, else as they stand."""
        names = self.elsewhere.get(language) or names_in(self, language)
        return names.get("name", self.name), names.get("conditions", self.conditions)

    @property
    def is_derived(self) -> bool:
        return bool(self.derived_from)


class Method(Recorded, models.Model):
    """A standard procedure, as its issuer names it."""

    designation = models.CharField(max_length=40, unique=True)
    title = models.CharField(max_length=200)

    objects = RecordedManager()

    class Meta:
        ordering = ["designation"]

    def __str__(self) -> str:
        return self.designation

    def record_key(self) -> tuple[str, str, str]:
        return "method", self.designation, self.designation


class MethodEdition(Recorded, models.Model):
    """A dated issue of a method; its figures stand in revisions."""

    named_by = ("method",)

    class Standing(models.TextChoices):
        PUBLISHED = "published"
        FROM_MEMORY = "from memory"
        DERIVED = "derived"
        COMMON_PRACTICE = "common practice"

    method = models.ForeignKey(
        Method, on_delete=models.PROTECT, related_name="editions"
    )
    edition = models.CharField(max_length=20)
    characteristics = models.JSONField(default=list, blank=True)  # codes it measures
    source = models.CharField(max_length=300)
    standing = models.CharField(max_length=20, choices=Standing.choices)

    objects = RecordedManager()

    class Meta:
        ordering = ["method__designation", "edition"]
        constraints = [
            models.UniqueConstraint(
                fields=["method", "edition"], name="one_row_an_edition_of_a_method"
            )
        ]

    def __str__(self) -> str:
        issuer = self.method.designation.split()[0]
        joint = JOINTS.get(issuer, ", edition ")
        return f"{self.method.designation}{joint}{self.edition}"

    def record_key(self) -> tuple[str, str, str]:
        return "method edition", str(self), str(self)


class FiguresRevision(Versioned, Recorded, models.Model):
    """A numbered list of what an edition asks and how well it measures. In force, it cannot change.

    `figures` is a list of lims.methods.figures.Figure as plain objects.
    """

    named_by = ("edition__method",)

    class State(models.TextChoices):
        DRAFT = "draft"
        IN_FORCE = "in force"
        SUPERSEDED = "superseded"

    edition = models.ForeignKey(
        MethodEdition, models.PROTECT, related_name="figures_revisions"
    )
    number = models.PositiveSmallIntegerField()
    state = models.CharField(max_length=12, choices=State.choices, default=State.DRAFT)
    note = models.CharField(max_length=200, blank=True)
    figures = models.JSONField(default=list, blank=True)
    is_shipped = models.BooleanField(
        default=False
    )  # reference data, nobody's signature
    approved_at = models.DateTimeField(null=True, blank=True)
    approved_by = models.ForeignKey(
        PERSON, models.PROTECT, related_name="+", null=True, blank=True
    )
    signature = models.OneToOneField(
        Signature, models.PROTECT, related_name="+", null=True, blank=True
    )
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["edition", "-number"]
        constraints = [
            models.UniqueConstraint(
                fields=["edition", "number"], name="one_figures_revision_a_number"
            ),
            models.UniqueConstraint(
                fields=["edition"],
                condition=Q(state="in force"),
                name="one_figures_revision_in_force_an_edition",
            ),
            models.UniqueConstraint(
                fields=["edition"],
                condition=Q(state="draft"),
                name="one_figures_draft_an_edition",
            ),
            models.CheckConstraint(
                condition=Q(state="draft", signature__isnull=True)
                | Q(is_shipped=True)
                | (~Q(state="draft") & Q(signature__isnull=False)),
                name="figures_are_in_force_only_when_signed_or_shipped",
            ),
            models.CheckConstraint(
                condition=Q(
                    signature__isnull=True,
                    approved_at__isnull=True,
                    approved_by__isnull=True,
                )
                | Q(
                    signature__isnull=False,
                    approved_at__isnull=False,
                    approved_by__isnull=False,
                ),
                name="figures_are_signed_by_somebody_at_a_time",
            ),
        ]

    def __str__(self) -> str:
        return f"figures {self.number} of {self.edition}"

    def record_key(self) -> tuple[str, str, str]:
        return "method edition", str(self.edition), str(self)


class FigureCheck(Recorded, models.Model):
    """That a named person compared figures with the laboratory's own copy; it holds for exactly these figures."""

    named_by = ("edition__method",)

    append_only = True

    edition = models.ForeignKey(
        MethodEdition, models.PROTECT, related_name="figure_checks"
    )
    figures = models.JSONField(default=list)  # the exact figures that were compared
    checked_by = models.CharField(max_length=80)
    checked_on = models.DateField()

    objects = RecordedManager()

    class Meta:
        ordering = ["edition", "id"]

    def __str__(self) -> str:
        return f"check of {self.edition} by {self.checked_by}"

    def record_key(self) -> tuple[str, str, str]:
        return "method edition", str(self.edition), str(self)


class OwnUncertainty(Recorded, models.Model):
    """The laboratory's own standard uncertainty of a characteristic, stated with a signature; the newest stands."""

    named_by = ("characteristic",)

    append_only = True

    characteristic = models.ForeignKey(
        Characteristic, models.PROTECT, related_name="own_uncertainties"
    )
    number = models.PositiveSmallIntegerField()
    uncertainty = models.CharField(max_length=20)  # standard, in the unit
    site_precision = models.CharField(max_length=20, blank=True)  # R′
    level_from = models.CharField(max_length=20, blank=True)
    level_to = models.CharField(max_length=20, blank=True)
    basis = models.CharField(max_length=300)  # how it was found
    stated_at = models.DateTimeField()
    stated_by = models.ForeignKey(PERSON, models.PROTECT, related_name="+")
    signature = models.OneToOneField(Signature, models.PROTECT, related_name="+")

    objects = RecordedManager()

    class Meta:
        ordering = ["characteristic", "-number"]
        constraints = [
            models.UniqueConstraint(
                fields=["characteristic", "number"],
                name="one_own_uncertainty_a_number",
            )
        ]

    def __str__(self) -> str:
        return f"own uncertainty {self.number} of {self.characteristic}"

    def record_key(self) -> tuple[str, str, str]:
        return "characteristic", self.characteristic.code, str(self)
