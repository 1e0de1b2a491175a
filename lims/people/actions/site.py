"""The acts on the site's settings."""

from collections.abc import Callable
from typing import Any

from lims.people import checks
from lims.people.models import Person, Site
from lims.people.permissions import Permission, check
from lims.record.gate import entry
from lims.record.refusals import BadInput, WrongMove
from lims.wording.languages import LANGUAGES


def found_site(
    *,
    code: str,
    name: str,
    laboratory: str,
    address: str,
    mail: str,
    quality_mail: str,
    check_address: str,
    zone: str = "Europe/Berlin",
    language: str = "en",
    first_certificate: int = 1,
    by: Person | None,
) -> Site:
    """Write down whose laboratory this is, once. Before there are people, the program may."""
    if by is not None:
        check(by, Permission.KEEP_SITE)
    elif Person.objects.exists():
        raise WrongMove("There are people already; an administrator founds the site.")
    if Site.objects.exists():
        raise WrongMove("The site is founded already; its settings can be changed.")
    site = Site(
        code=_code(code),
        first_certificate=checks.check_first_certificate(first_certificate),
    )
    _set(
        site,
        name=name,
        laboratory=laboratory,
        address=address,
        mail=mail,
        quality_mail=quality_mail,
        check_address=check_address,
        zone=zone,
        language=language,
    )
    with entry(by=by, verb="site_founded", about=site):
        site.save()
    return site


def change_site(
    *, site: Site, version: int, reason: str, by: Person, **settings: Any
) -> Site:
    """Change settings of the site, named as its fields are; the code stays for good."""
    check(by, Permission.KEEP_SITE)
    reason = checks.check_reason(reason)
    stood = {name: getattr(site, name) for name in settings}
    _set(site, **settings)
    if stood == {name: getattr(site, name) for name in settings}:
        raise WrongMove("Nothing was changed.")
    with entry(by=by, verb="site_changed", about=site, reason=reason):
        site.save_if_version(version)
    return site


def _set(site: Site, **settings: Any) -> None:
    unknown = settings.keys() - _CHECKS.keys()
    if unknown:
        raise TypeError(f"The site has no setting {', '.join(sorted(unknown))}.")
    for name, value in settings.items():
        setattr(site, name, _CHECKS[name](value))


def _code(typed: str) -> str:
    code = typed.strip().upper()
    if not (1 <= len(code) <= 6 and code.isascii() and code.isalnum()):
        raise BadInput(
            "The site's code has 1 to 6 letters and digits; every number begins with it.",
            field="code",
        )
    return code


def _address(typed: str) -> str:
    lines = [line.strip() for line in typed.splitlines() if line.strip()]
    if not lines:
        raise BadInput("Give the postal address.", field="address")
    return "\n".join(lines)


def _language(typed: str) -> str:
    if typed not in LANGUAGES:
        raise BadInput("Choose one of the languages.", field="language")
    return typed


_CHECKS: dict[str, Callable[[Any], object]] = {
    "name": lambda typed: checks.check_text(typed, "name", "the name of the site"),
    "laboratory": lambda typed: checks.check_text(
        typed, "laboratory", "the name of the laboratory"
    ),
    "address": _address,
    "mail": lambda typed: checks.check_mail(typed, "mail", needed=True),
    "quality_mail": lambda typed: checks.check_mail(typed, "quality_mail", needed=True),
    "check_address": checks.check_web_address,
    "zone": checks.check_zone,
    "language": _language,
    "allow_deputy_alone": bool,
}
