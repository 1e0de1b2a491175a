"""The link by which a person chooses a password: good for three days, and once."""

from datetime import datetime

from django.contrib.auth.tokens import PasswordResetTokenGenerator
from django.utils.http import urlsafe_base64_decode, urlsafe_base64_encode

from lims.people.models import Person
from lims.record import clock


class _LinkTokens(PasswordResetTokenGenerator):
    key_salt = "lims.people.tokens"

    def _now(self) -> datetime:
        return clock.now().replace(tzinfo=None)

    def _make_hash_value(self, user: Person, timestamp: int) -> str:
        return f"{user.pk} {user.password} {user.is_active} {timestamp}"


_tokens = _LinkTokens()


def token_for(person: Person) -> str:
    """The secret half of the link. It dies when a password is chosen, or reset again."""
    return _tokens.make_token(person)


def is_good(person: Person, token: str) -> bool:
    """Whether the link was made for this person, in time, and not used yet."""
    return person.is_active and _tokens.check_token(person, token)


def reference_of(person: Person) -> str:
    """The open half of the link: which person."""
    return urlsafe_base64_encode(str(person.pk).encode())


def person_of(reference: str) -> Person | None:
    """The person of a link's open half, if there is one."""
    try:
        pk = int(urlsafe_base64_decode(reference).decode())
    except (ValueError, OverflowError):
        return None
    found: Person | None = Person.objects.filter(pk=pk).first()
    return found
