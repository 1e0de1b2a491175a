"""What is made, by which plan it is sampled, and whom it goes to."""

from django.db import models

from lims.methods.models import Characteristic
from lims.record.gate import Recorded, RecordedManager, Versioned


class SamplingPlan(Recorded, models.Model):
    """Which samples count for release: taken where, and how long after filling."""

    code = models.CharField(max_length=20, unique=True)
    words = models.CharField(max_length=200)
    places = models.JSONField(default=list)  # of Sample.Place
    hours_after_filling = models.PositiveSmallIntegerField(default=12)

    objects = RecordedManager()

    class Meta:
        ordering = ["code"]

    def __str__(self) -> str:
        return self.code

    def record_key(self) -> tuple[str, str, str]:
        return "sampling plan", self.code, f"sampling plan {self.code}"


class PublishedSpecification(Recorded, models.Model):
    """A specification that a standard publishes, to start from; `parts` are the codes that must all be met."""

    append_only = True  # a plant changes its own copy

    code = models.CharField(max_length=40, unique=True)
    title = models.CharField(max_length=200)
    issuer = models.CharField(max_length=80)
    edition = models.CharField(max_length=20, blank=True)
    parts = models.JSONField(default=list, blank=True)
    source = models.CharField(max_length=300)
    standing = models.CharField(max_length=20)

    objects = RecordedManager()

    class Meta:
        ordering = ["code"]

    def __str__(self) -> str:
        return self.code

    def record_key(self) -> tuple[str, str, str]:
        return "published specification", self.code, self.code


class PublishedLine(Recorded, models.Model):
    """One line of a published specification, with its source and standing."""

    named_by = ("specification", "characteristic")

    append_only = True

    specification = models.ForeignKey(
        PublishedSpecification, models.PROTECT, related_name="lines"
    )
    line = models.PositiveSmallIntegerField()
    characteristic = models.ForeignKey(
        Characteristic, models.PROTECT, related_name="published_lines"
    )
    conditions = models.CharField(max_length=120, blank=True)  # as it states them
    lower = models.CharField(max_length=20, blank=True)
    upper = models.CharField(max_length=20, blank=True)
    must = models.CharField(max_length=120, blank=True)
    source = models.CharField(max_length=300)
    standing = models.CharField(max_length=20)
    checked_by = models.CharField(max_length=80, blank=True)

    objects = RecordedManager()

    class Meta:
        ordering = ["specification", "line"]
        constraints = [
            models.UniqueConstraint(
                fields=["specification", "line"], name="one_published_line_a_number"
            )
        ]

    def __str__(self) -> str:
        return f"{self.specification}, {self.characteristic}"

    def record_key(self) -> tuple[str, str, str]:
        return "published specification", self.specification.code, str(self)


class Product(Versioned, Recorded, models.Model):
    """A grease as sold."""

    class Family(models.TextChoices):
        LITHIUM = "lithium soap"
        LITHIUM_COMPLEX = "lithium complex"
        CALCIUM = "calcium soap"
        CALCIUM_COMPLEX = "calcium complex"
        CALCIUM_SULFONATE = "calcium sulfonate complex"
        ALUMINIUM_COMPLEX = "aluminium complex"
        SODIUM = "sodium soap"
        CLAY = "clay"
        POLYUREA = "polyurea"

    code = models.CharField(max_length=20, unique=True)
    name = models.CharField(max_length=100)
    family = models.CharField(max_length=40, choices=Family.choices)
    base_oil = models.CharField(max_length=100, blank=True)
    nlgi_aim = models.CharField(max_length=5, blank=True)
    designation = models.CharField(max_length=40, blank=True)  # DIN 51502, ISO 6743-9
    pack_target = models.CharField(max_length=10, blank=True)  # worked penetration
    kettle_offset = models.CharField(max_length=10, blank=True)  # pack less kettle
    published = models.ForeignKey(
        PublishedSpecification,
        models.PROTECT,
        related_name="products",
        null=True,
        blank=True,
    )
    sampling_plan = models.ForeignKey(
        SamplingPlan, models.PROTECT, related_name="products"
    )
    safety_sheet = models.CharField(max_length=60, blank=True)
    shelf_life_months = models.PositiveSmallIntegerField(null=True, blank=True)
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["code"]

    def __str__(self) -> str:
        return self.code

    def record_key(self) -> tuple[str, str, str]:
        return "product", self.code, f"product {self.code}"


class Customer(Versioned, Recorded, models.Model):
    """Whom the plant delivers to, and in which language the certificate speaks to them."""

    class Language(models.TextChoices):
        ENGLISH = "en", "English"
        GERMAN = "de", "Deutsch"
        FRENCH = "fr", "Français"
        SPANISH = "es", "Español"
        POLISH = "pl", "Polski"

    code = models.CharField(max_length=10, unique=True)
    name = models.CharField(max_length=100)
    address = models.CharField(max_length=200, blank=True)
    mail = models.EmailField(blank=True)
    language = models.CharField(
        max_length=5, choices=Language.choices, default=Language.ENGLISH
    )
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name

    def record_key(self) -> tuple[str, str, str]:
        return "customer", self.code, self.name
