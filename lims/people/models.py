"""Who works here: persons, the roles they were given, and the site."""

from functools import cached_property
from typing import Any, ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.contrib.auth.hashers import check_password, make_password
from django.db import models
from django.db.models import Q

from lims.people import roles
from lims.people.names import account_form, password_form
from lims.people.permissions import Permission
from lims.record.gate import Recorded, RecordedManager, RecordedQuerySet, Versioned
from lims.wording.languages import IN_ENGLISH, known


class PersonManager(BaseUserManager.from_queryset(RecordedQuerySet)):  # type: ignore[misc]
    """Persons by their account name; nobody is made here, only by invitation."""

    def get_by_natural_key(self, username: str | None) -> "Person":
        person: Person = self.get(account=account_form(username or ""))
        return person


class Person(Recorded, AbstractBaseUser):
    """One account for one human being. Deactivated, never deleted; the name is never reused."""

    secret_fields = frozenset({"password"})

    account = models.CharField(max_length=40, unique=True)
    name = models.CharField("printed name", max_length=120)
    mail = models.EmailField(blank=True)
    is_active = models.BooleanField(default=True)
    invited = models.BooleanField(default=True)  # no password chosen yet
    created_at = models.DateTimeField()
    last_login = None  # signing in is no change of the record

    objects = PersonManager()

    USERNAME_FIELD = "account"
    EMAIL_FIELD = "mail"
    REQUIRED_FIELDS: ClassVar[list[str]] = []

    class Meta:
        verbose_name_plural = "people"
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name

    def record_key(self) -> tuple[str, str, str]:
        return "person", self.account, self.name

    @cached_property
    def roles(self) -> frozenset[str]:
        """The keys of the roles held now."""
        given = self.roles_given.filter(taken_at=None)
        return frozenset(given.values_list("role", flat=True))

    @property
    def permissions(self) -> frozenset[Permission]:
        return roles.permissions_of(self.roles)

    @property
    def function(self) -> str:
        """The roles as they are printed beside a signature."""
        return roles.in_words(self.roles)

    @property
    def zone(self) -> str:
        """The time zone in which this person signs: the site's."""
        return Site.objects.values_list("zone", flat=True).first() or "UTC"

    def refresh_from_db(self, *args: Any, **kwargs: Any) -> None:
        self.__dict__.pop("roles", None)
        super().refresh_from_db(*args, **kwargs)

    def set_password(self, raw_password: str | None) -> None:
        self.password = make_password(
            None if raw_password is None else password_form(raw_password)
        )
        self._password = raw_password

    def check_password(self, raw_password: str | None) -> bool:
        # Without Django's silent re-hashing: that would be a change outside an entry.
        if raw_password is None:
            return False
        return check_password(password_form(raw_password), self.password)


class RoleGiven(Recorded, models.Model):
    """A role that a person holds, or held, and who gave it."""

    named_by = ("person",)

    person = models.ForeignKey(
        Person, on_delete=models.PROTECT, related_name="roles_given"
    )
    role = models.CharField(
        max_length=30, choices=[(role.key, role.words) for role in roles.ROLES.values()]
    )
    given_at = models.DateTimeField()
    given_by = models.TextField()
    taken_at = models.DateTimeField(null=True, blank=True)
    taken_by = models.TextField(blank=True)

    objects = RecordedManager()

    class Meta:
        verbose_name_plural = "roles given"
        ordering = ["id"]
        constraints = [
            models.UniqueConstraint(
                fields=["person", "role"],
                condition=Q(taken_at=None),
                name="a_role_is_held_once",
            ),
            models.CheckConstraint(
                condition=Q(taken_at=None, taken_by="")
                | (Q(taken_at__isnull=False) & ~Q(taken_by="")),
                name="role_taken_at_and_by_go_together",
            ),
        ]

    def __str__(self) -> str:
        return self.words

    @property
    def words(self) -> str:
        return roles.ROLES[self.role].words

    def record_key(self) -> tuple[str, str, str]:
        key = f"{self.person.account} {self.role}"
        return "role", key, f"{self.words}: {self.person.name}"


class Site(Versioned, models.Model):
    """The site whose laboratory this is: one row."""

    code = models.CharField(max_length=10, unique=True)
    name = models.CharField(max_length=120)
    laboratory = models.CharField(max_length=200)  # how the papers name the laboratory
    address = models.TextField()
    mail = models.EmailField()
    quality_mail = models.EmailField()
    zone = models.CharField(max_length=60, default="Europe/Berlin")
    language = models.CharField(max_length=10, default="en")
    check_address = models.URLField()  # where the QR code of a certificate leads
    allow_deputy_alone = models.BooleanField(default=False)
    # where certificates begin here, when a laboratory moves from another series
    first_certificate = models.PositiveIntegerField(default=1)
    only = models.BooleanField(default=True, editable=False)
    version = models.PositiveIntegerField(default=1)

    objects = RecordedManager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["only"], name="there_is_one_site"),
            models.CheckConstraint(condition=Q(only=True), name="the_site_is_the_only"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def language_in_words(self) -> str:
        """The language of certificates where the customer asks for none."""
        return IN_ENGLISH[known(self.language)]

    def record_key(self) -> tuple[str, str, str]:
        return "site", self.code, self.name
