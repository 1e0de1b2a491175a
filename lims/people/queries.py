"""Who works here, with which roles; and the site."""

from zoneinfo import ZoneInfo

from django.db.models import Exists, OuterRef, QuerySet

from lims.people import here
from lims.people.models import Person, RoleGiven, Site
from lims.people.names import account_form


def the_site() -> Site:
    """The site whose laboratory this is. Raises Site.DoesNotExist before it is founded."""
    found = here.site()
    if found is None:
        raise Site.DoesNotExist
    return found


def site_zone() -> ZoneInfo:
    """The time zone of the laboratory's clock; UTC before the site is founded."""
    found = here.site()
    return ZoneInfo(found.zone if found else "UTC")


def people() -> QuerySet[Person]:
    """Everybody, active first, with the roles they hold or held."""
    found: QuerySet[Person] = Person.objects.order_by("-is_active", "name")
    return found.prefetch_related("roles_given")


def person(account: str) -> Person:
    """The person of an account name, however typed. Raises Person.DoesNotExist."""
    found: Person = Person.objects.get(account=account_form(account))
    return found


def holders(role: str) -> QuerySet[Person]:
    """The active persons who hold a role now."""
    held = RoleGiven.objects.filter(person=OuterRef("pk"), role=role, taken_at=None)
    found: QuerySet[Person] = Person.objects.filter(Exists(held), is_active=True)
    return found


def roles_given(person: Person) -> QuerySet[RoleGiven]:
    """The history of a person's roles, newest first."""
    return RoleGiven.objects.filter(person=person).order_by("-id")
