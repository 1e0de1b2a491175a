"""What a product must meet: specifications, their revisions and requirements."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from lims.methods.models import Characteristic, MethodEdition
from lims.products.models.goods import Customer, Product
from lims.record.gate import Recorded, RecordedManager, Versioned
from lims.record.models import Signature

PERSON = settings.AUTH_USER_MODEL


class Specification(Recorded, models.Model):
    """The document that a product must meet: the plant's own, or one agreed with a customer."""

    named_by = ("product", "customer")

    product = models.ForeignKey(Product, models.PROTECT, related_name="specifications")
    customer = models.ForeignKey(
        Customer, models.PROTECT, related_name="specifications", null=True, blank=True
    )

    objects = RecordedManager()

    class Meta:
        ordering = ["product__code", "customer__code"]
        constraints = [
            models.UniqueConstraint(
                fields=["product", "customer"],
                name="one_specification_a_product_and_customer",
            ),
            models.UniqueConstraint(
                fields=["product"],
                condition=Q(customer__isnull=True),
                name="one_specification_of_its_own_a_product",
            ),
        ]

    def __str__(self) -> str:
        return (
            f"{self.customer.code} for {self.product.code}"
            if self.customer
            else self.product.code
        )

    def record_key(self) -> tuple[str, str, str]:
        return "specification", str(self), f"specification {self}"


class Revision(Versioned, Recorded, models.Model):
    """A numbered, dated, approved list of requirements. In force, it cannot change."""

    named_by = ("specification__product", "specification__customer")

    class State(models.TextChoices):
        DRAFT = "draft"
        IN_FORCE = "in force"
        SUPERSEDED = "superseded"

    specification = models.ForeignKey(
        Specification, models.PROTECT, related_name="revisions"
    )
    number = models.CharField(max_length=10)
    state = models.CharField(max_length=12, choices=State.choices, default=State.DRAFT)
    part_number = models.CharField(max_length=40, blank=True)
    note = models.CharField(max_length=200, blank=True)
    in_force_on = models.DateField(null=True, blank=True)
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
        ordering = ["specification", "-in_force_on", "-id"]
        constraints = [
            models.UniqueConstraint(
                fields=["specification", "number"],
                name="one_row_a_revision_of_a_specification",
            ),
            models.UniqueConstraint(
                fields=["specification"],
                condition=Q(state="in force"),
                name="one_revision_in_force_a_specification",
            ),
            models.UniqueConstraint(
                fields=["specification"],
                condition=Q(state="draft"),
                name="one_draft_a_specification",
            ),
            models.CheckConstraint(
                condition=Q(
                    state="draft",
                    in_force_on__isnull=True,
                    approved_at__isnull=True,
                    approved_by__isnull=True,
                    signature__isnull=True,
                )
                | (
                    ~Q(state="draft")
                    & Q(
                        in_force_on__isnull=False,
                        approved_at__isnull=False,
                        approved_by__isnull=False,
                        signature__isnull=False,
                    )
                ),
                name="a_revision_is_in_force_only_when_approved_and_dated",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.specification} revision {self.number}"

    def record_key(self) -> tuple[str, str, str]:
        return "revision", str(self), f"specification {self}"


class Requirement(Recorded, models.Model):
    """One line of a revision."""

    named_by = (
        "characteristic",
        "revision__specification__product",
        "revision__specification__customer",
    )

    class Kind(models.TextChoices):
        LIMIT = "limit"
        REPORT_ONLY = "report only"
        TYPICAL = "typical"

    class Scope(models.TextChoices):
        FILL_LOT = "per fill lot"
        BATCH = "per batch"
        PERIODIC = "periodic"

    class Comparing(models.TextChoices):
        ROUNDING = "rounding"
        ABSOLUTE = "absolute"

    class Basis(models.TextChoices):
        OWN = "own uncertainty", "the laboratory's own uncertainty"
        METHOD = "reproducibility", "the method's reproducibility"

    revision = models.ForeignKey(Revision, models.PROTECT, related_name="requirements")
    line = models.PositiveSmallIntegerField()
    characteristic = models.ForeignKey(
        Characteristic, models.PROTECT, related_name="requirements"
    )
    edition = models.ForeignKey(
        MethodEdition,
        models.PROTECT,
        related_name="requirements",
        null=True,
        blank=True,
    )
    kind = models.CharField(max_length=12, choices=Kind.choices, default=Kind.LIMIT)
    lower = models.CharField(max_length=20, blank=True)  # as text: 0.5 and 0.50 differ
    upper = models.CharField(max_length=20, blank=True)
    must = models.CharField(max_length=120, blank=True)  # words, for an appearance
    comparing = models.CharField(max_length=10, choices=Comparing.choices, blank=True)
    rule = models.CharField(max_length=40, blank=True)  # of specs.judging.rules
    basis = models.CharField(max_length=20, choices=Basis.choices, blank=True)
    uncertainty = models.CharField(max_length=20, blank=True)  # u, or R, by the basis
    confidence = models.CharField(max_length=10, blank=True)  # one-sided: 0.95
    scope = models.CharField(
        max_length=12, choices=Scope.choices, default=Scope.FILL_LOT
    )
    every_batches = models.PositiveSmallIntegerField(null=True, blank=True)
    every_months = models.PositiveSmallIntegerField(null=True, blank=True)
    internal_lower = models.CharField(max_length=20, blank=True)
    internal_upper = models.CharField(max_length=20, blank=True)
    typical = models.CharField(max_length=80, blank=True)
    origin = models.CharField(max_length=300, blank=True)  # a published specification
    origin_standing = models.CharField(max_length=20, blank=True)
    origin_checked_by = models.CharField(max_length=80, blank=True)

    objects = RecordedManager()

    class Meta:
        ordering = ["revision_id", "line"]
        constraints = [
            models.UniqueConstraint(
                fields=["revision", "line"], name="one_requirement_a_line"
            ),
            models.UniqueConstraint(
                fields=["revision", "characteristic", "kind"],
                name="one_requirement_a_characteristic_and_kind",
            ),
            models.CheckConstraint(
                condition=~Q(kind="limit") | (~Q(comparing="") & ~Q(rule="")),
                name="a_limit_names_its_comparing_and_its_rule",
            ),
            models.CheckConstraint(
                condition=~Q(kind="limit") | ~Q(lower="") | ~Q(upper="") | ~Q(must=""),
                name="a_limit_has_a_limit",
            ),
            models.CheckConstraint(
                condition=~Q(scope="periodic")
                | Q(every_batches__isnull=False)
                | Q(every_months__isnull=False),
                name="a_periodic_requirement_says_how_often",
            ),
            models.CheckConstraint(
                condition=Q(basis="", uncertainty="", confidence="")
                | (~Q(basis="") & ~Q(uncertainty="") & ~Q(confidence="")),
                name="an_uncertainty_has_its_basis_and_its_confidence",
            ),
            models.CheckConstraint(
                condition=Q(origin="", origin_standing="", origin_checked_by="")
                | (~Q(origin="") & ~Q(origin_standing="")),
                name="an_origin_has_its_standing",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.characteristic} ({self.limits})"

    def record_key(self) -> tuple[str, str, str]:
        return "requirement", f"{self.revision}, line {self.line}", str(self)

    @property
    def limits(self) -> str:
        """The limits in words, as the bench and the review read them."""
        if self.must:
            return self.must
        if self.lower and self.upper:
            return f"{self.lower} to {self.upper}"
        if self.upper:
            return f"at most {self.upper}"
        return f"at least {self.lower}" if self.lower else "no limit"
