"""What must be true before a person or the site changes: each check raises the sentence."""

from collections.abc import Iterable
from zoneinfo import available_timezones

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.core.validators import URLValidator, validate_email

from lims.people import queries, roles
from lims.people.models import Person
from lims.people.names import ACCOUNT, account_form
from lims.record.opening import SYSTEM_ACCOUNT
from lims.record.refusals import BadInput, WrongMove

MOST_CHARACTERS = 120
LAST_CERTIFICATE = 99_999
RESERVED = {SYSTEM_ACCOUNT, "new"}  # the program itself; the page that invites


def check_account(typed: str) -> str:
    """The account name in its stored form; refused when unfit or ever used."""
    account = account_form(typed)
    if not ACCOUNT.fullmatch(account):
        raise BadInput(
            "An account name has 2 to 40 letters, digits, full stops or hyphens, and "
            "begins with a letter or digit.",
            field="account",
        )
    if account in RESERVED or Person.objects.filter(account=account).exists():
        raise BadInput(
            f"The account name “{account}” is, or was, somebody's. Names are never used "
            "again; choose another.",
            field="account",
        )
    return account


def check_text(typed: str, field: str, what: str) -> str:
    """A short line of text that must not be empty."""
    text = " ".join(typed.split())
    if not text or len(text) > MOST_CHARACTERS:
        raise BadInput(
            f"Give {what}, in at most {MOST_CHARACTERS} characters.", field=field
        )
    return text


def check_mail(typed: str, field: str = "mail", *, needed: bool = False) -> str:
    """A mail address; none at all where it is not needed."""
    mail = typed.strip()
    if not mail and not needed:
        return ""
    try:
        validate_email(mail)
    except ValidationError:
        raise BadInput(
            "This is no mail address. It looks like name@example.com.", field=field
        ) from None
    return mail


def check_role(key: str) -> str:
    """A role that there is."""
    if key not in roles.ROLES:
        raise BadInput("Choose one of the roles.", field="role")
    return key


def check_reason(typed: str) -> str:
    """A reason somebody can understand later."""
    reason = typed.strip()
    if len(reason) < 3:
        raise BadInput("Say why, in a few words; the record keeps it.", field="reason")
    return reason


def check_new_password(person: Person, typed: str) -> None:
    """The password rule, with every reason that applies."""
    try:
        validate_password(typed, person)
    except ValidationError as error:
        raise BadInput(" ".join(error.messages), field="password") from None


def check_not_own(person: Person, by: Person, what: str) -> None:
    """Nobody changes their own standing."""
    if person.pk == by.pk:
        raise WrongMove(f"Nobody {what}. Ask another administrator.")


def check_leaves_administrator(person: Person, losing: Iterable[str]) -> None:
    """Somebody must be left who can keep the accounts."""
    if roles.ADMINISTRATOR not in losing:
        return
    others = queries.holders(roles.ADMINISTRATOR).exclude(pk=person.pk)
    if not others.filter(invited=False).exists():
        raise WrongMove(
            f"{person.name} is the only administrator. Give the role to somebody else "
            "first; when they have chosen a password, take it back here."
        )


def check_zone(typed: str) -> str:
    """A time zone by its name."""
    if typed not in available_timezones():
        raise BadInput(
            "This is no time zone. Give a name like Europe/Berlin.", field="zone"
        )
    return typed


def check_first_certificate(typed: int) -> int:
    """The number at which certificates begin; five digits are printed."""
    if not 1 <= typed <= LAST_CERTIFICATE:
        raise BadInput(
            f"Certificates begin at a number from 1 to {LAST_CERTIFICATE}.",
            field="first_certificate",
        )
    return typed


def check_web_address(typed: str) -> str:
    """The address where certificates are checked, without a slash at its end."""
    address = typed.strip().rstrip("/")
    try:
        URLValidator(schemes=["http", "https"])(address)
    except ValidationError:
        raise BadInput(
            "This is no web address. It looks like https://check.example.com.",
            field="check_address",
        ) from None
    return address
