"""What is measured and how: characteristics, methods, their dated editions and the precision that each edition states."""

from django.db import models

from lims.record.gate import Recorded, RecordedManager

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
        RATING = "rating"
        WORDS = "words"

    code = models.SlugField(max_length=60, unique=True)
    name = models.CharField(max_length=80)
    conditions = models.CharField(max_length=120, blank=True)
    unit = models.CharField(max_length=20, blank=True)
    kind = models.CharField(max_length=10, choices=Kind.choices, default=Kind.NUMBER)
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
        """Name and conditions in a language of the papers; as they stand where none is given."""
        names = self.elsewhere.get(language, {})
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
    """A dated issue of a method, and who checked its figures against the laboratory's own copy."""

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
    checked_by = models.CharField(max_length=80, blank=True)
    checked_on = models.DateField(null=True, blank=True)

    objects = RecordedManager()

    class Meta:
        ordering = ["method__designation", "edition"]
        constraints = [
            models.UniqueConstraint(
                fields=["method", "edition"], name="one_row_an_edition_of_a_method"
            ),
            models.CheckConstraint(
                condition=models.Q(checked_by="", checked_on__isnull=True)
                | (~models.Q(checked_by="") & models.Q(checked_on__isnull=False)),
                name="edition_checked_by_and_on_go_together",
            ),
        ]

    def __str__(self) -> str:
        issuer = self.method.designation.split()[0]
        joint = JOINTS.get(issuer, ", edition ")
        return f"{self.method.designation}{joint}{self.edition}"

    def record_key(self) -> tuple[str, str, str]:
        return "method edition", str(self), str(self)


class Precision(Recorded, models.Model):
    """Repeatability and reproducibility of an edition over a range of level. A missing figure is missing, never nought."""

    named_by = ("edition__method", "characteristic")

    edition = models.ForeignKey(
        MethodEdition, on_delete=models.PROTECT, related_name="precisions"
    )
    characteristic = models.ForeignKey(
        Characteristic, on_delete=models.PROTECT, related_name="precisions"
    )
    level_from = models.CharField(max_length=20, blank=True)
    level_to = models.CharField(max_length=20, blank=True)
    repeatability = models.CharField(max_length=20, blank=True)
    reproducibility = models.CharField(max_length=20, blank=True)
    source = models.CharField(max_length=300)
    standing = models.CharField(max_length=20, choices=MethodEdition.Standing.choices)
    checked_by = models.CharField(max_length=80, blank=True)

    objects = RecordedManager()

    class Meta:
        ordering = ["edition", "characteristic", "id"]

    def __str__(self) -> str:
        return f"{self.edition}, {self.characteristic}"

    def record_key(self) -> tuple[str, str, str]:
        return "precision", str(self.pk), str(self)
