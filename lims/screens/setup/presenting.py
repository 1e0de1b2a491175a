"""Set-up as its pages show it: the site, the roles with what they may do, the people with their roles."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.forms import Form
from django.http import Http404, HttpRequest
from django.urls import reverse

from lims.certificates import rules as certificate_rules
from lims.people import queries, roles, tokens
from lims.people.checks import check_not_own
from lims.people.models import Person, Site
from lims.people.permissions import ACTS, Permission, allowed
from lims.people.rules import refusal_of
from lims.screens.setup import forms

LINK_FOR = "link_for"  # the account whose link the next page shows, once
STATES = {"active": "may sign in", "invited": "invited", "closed": "deactivated"}


@dataclass(frozen=True)
class MatrixRow:
    """One kind of act, and for each role whether it may."""

    words: str
    may: list[bool]


@dataclass(frozen=True)
class PersonAct:
    """Something that an administrator does to an account."""

    key: str
    words: str
    note: str
    form: Form
    is_grave: bool = False
    refusal: str = ""  # why it cannot be done now


def matrix() -> list[MatrixRow]:
    """Who may what, from the roles themselves."""
    return [
        MatrixRow(words, [it in role.permissions for role in roles.ROLES.values()])
        for it, words in ACTS.items()
    ]


def site_now() -> Site:
    """The site as the database has it, apart from what the page's head uses."""
    found = Site.objects.first()
    if found is None:
        raise Http404
    return found


def list_page(person: Person) -> dict[str, Any]:
    people = list(queries.people())
    here = [it for it in people if it.is_active]
    count = len(here)
    return {
        "setting": site_now(),
        "roles": roles.ROLES.values(),
        "matrix": matrix(),
        "helpers": [it.name for it in here if roles.ADMINISTRATOR in held(it)],
        "answer": f"{count} {'person works' if count == 1 else 'people work'} here, "
        f"for site {site_now().code}.",
        "may_site": allowed(person, Permission.KEEP_SITE),
        "may_people": allowed(person, Permission.KEEP_PEOPLE),
        "by_role": by_role(here),
    }


def by_role(people: Iterable[Person]) -> list[tuple[roles.Role, str]]:
    """Each role with the names of those who hold it."""
    everybody = list(people)
    return [
        (role, ", ".join(it.name for it in everybody if role.key in held(it)))
        for role in roles.ROLES.values()
    ]


def held(person: Person) -> frozenset[str]:
    """The roles held now, from rows that were fetched for the whole list."""
    return frozenset(
        given.role for given in person.roles_given.all() if given.taken_at is None
    )


def state_of(person: Person) -> str:
    if not person.is_active:
        return STATES["closed"]
    return STATES["invited" if person.invited else "active"]


def site_page(tried: Mapping[str, Form] | None = None) -> dict[str, Any]:
    """The page that changes the site; `tried` holds the form that was refused."""
    site = site_now()
    given = tried or {}
    context: dict[str, Any] = {
        "version": site.version,
        "setting": site,
        "site_form": given.get("site") or site_form(site),
    }
    if certificate_rules.can_begin_numbers():
        context["numbers_form"] = given.get("numbers") or forms.NumbersForm(
            initial={"first_certificate": site.first_certificate}
        )
    return context


def site_form(site: Site) -> forms.SiteForm:
    names = [name for name in forms.SiteForm.base_fields if hasattr(site, name)]
    return forms.SiteForm(initial={name: getattr(site, name) for name in names})


def person_or_404(account: str) -> Person:
    try:
        return queries.person(account)
    except Person.DoesNotExist:
        raise Http404 from None


def person_page(
    account: str, by: Person, tried: Mapping[str, Form] | None = None
) -> dict[str, Any]:
    """The page of one person; `tried` holds the form that was refused, by its act."""
    person = person_or_404(account)
    may_keep = allowed(by, Permission.KEEP_PEOPLE)
    return {
        "person": person,
        "state": state_of(person),
        "answer": _answer(person),
        "history": queries.roles_given(person),
        "mixing": roles.mixing(person.roles),
        "may_keep": may_keep,
        "helpers": [it.name for it in queries.holders(roles.ADMINISTRATOR)],
        "acts": acts_for(person, by, tried or {}) if may_keep else [],
    }


def _answer(person: Person) -> str:
    function = person.function
    what = f"is {function}" if function else "has no role"
    if not person.is_active:
        return f"{person.name} {what}; the account is deactivated."
    if person.invited:
        return f"{person.name} {what} and has not chosen a password yet."
    if not person.has_usable_password():
        return f"{person.name} {what}; a new password is to be chosen by the link."
    return f"{person.name} {what} and may sign in."


def acts_for(person: Person, by: Person, tried: Mapping[str, Form]) -> list[PersonAct]:
    """What an administrator can do to this account now."""
    is_open = person.is_active
    shown = [
        _give(person, by, tried.get("give-role")),
        _take(person, tried.get("take-role")) if person.roles else None,
        _change(person, tried.get("change")),
        _reason("reset", tried) if is_open else None,
        _reason("deactivate", tried) if is_open else _reason("reactivate", tried),
    ]
    return [it for it in shown if it is not None]


REASONED = {
    "reset": (
        "Start a new password",
        "The old one is void at once; you hand over a link by which the person chooses the new one. Nobody else chooses it.",
    ),
    "deactivate": (
        "Deactivate the account",
        "The person is signed out at once. What they did stays in the record; the account name is never used again.",
    ),
    "reactivate": (
        "Reactivate the account",
        "The old password stays void; you hand over a link by which the person chooses a new one.",
    ),
}


def _reason(key: str, tried: Mapping[str, Form]) -> PersonAct:
    words, note = REASONED[key]
    form = tried.get(key) or forms.ReasonForm(auto_id=f"{key}-%s")
    return PersonAct(key, words, note, form, is_grave=key == "deactivate")


def _give(person: Person, by: Person, tried: Form | None) -> PersonAct:
    form = tried or forms.GiveForm(auto_id="give-role-%s")
    _offer(form, set(roles.ROLES) - person.roles)
    return PersonAct(
        "give-role",
        "Give a role",
        "Two duties in one person are noted in the record.",
        form,
        refusal=refusal_of(check_not_own)(person, by, "gives a role to themselves"),
    )


def _take(person: Person, tried: Form | None) -> PersonAct:
    form = tried or forms.TakeForm(auto_id="take-role-%s")
    _offer(form, person.roles)
    note = "What was done with it stays as it was."
    return PersonAct("take-role", "Take a role back", note, form)


def _offer(form: Form, keys: Collection[str]) -> None:
    """Only the roles that can be given, or taken back, now."""
    offered = [choice for choice in forms.ROLE_CHOICES if choice[0] in keys]
    form.fields["role"].choices = [("", "choose"), *offered]  # type: ignore[attr-defined]


def _change(person: Person, tried: Form | None) -> PersonAct:
    now = {"name": person.name, "mail": person.mail}
    form = tried or forms.PersonForm(initial=now, auto_id="change-%s")
    note = "The account name stays for good."
    return PersonAct("change", "Change name or mail", note, form)


def link_of(request: HttpRequest, person: Person) -> str:
    """The link by which a person chooses a password, whole, to be handed over."""
    parts = [tokens.reference_of(person), tokens.token_for(person)]
    return request.build_absolute_uri(reverse("front:invitation", args=parts))
