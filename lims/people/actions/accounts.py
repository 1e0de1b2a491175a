"""The acts on people: inviting, choosing passwords, giving and taking roles, deactivating."""

from collections.abc import Sequence

from django.contrib.sessions.models import Session

from lims.people import checks, roles, tokens
from lims.people.models import Person, RoleGiven
from lims.people.permissions import Permission, check
from lims.record import clock
from lims.record.gate import entry
from lims.record.opening import SYSTEM_NAME
from lims.record.refusals import BadInput, WrongMove


def invite_first_administrator(
    *, account: str, name: str, mail: str = "", by: None = None
) -> Person:
    """Let the first person in, when there is none: the program itself does it."""
    if Person.objects.exists():
        raise WrongMove("There are people already; an administrator invites the next.")
    given = [roles.ADMINISTRATOR]
    return _invited(account=account, name=name, mail=mail, given=given, by=by)


def invite(
    *, account: str, name: str, mail: str = "", given: Sequence[str] = (), by: Person
) -> Person:
    """Add a person with the roles given. They choose a password by a link (tokens.py)."""
    check(by, Permission.KEEP_PEOPLE)
    return _invited(account=account, name=name, mail=mail, given=given, by=by)


def accept_invitation(*, person: Person, token: str, password: str, by: Person) -> None:
    """Choose the password of one's own account, by the link; also after a reset."""
    if person.pk != by.pk or not tokens.is_good(person, token):
        raise WrongMove(
            "This link has been used or is out of date. Ask an administrator for a new one."
        )
    checks.check_new_password(person, password)
    with entry(by=by, verb="invitation_accepted", about=person):
        person.set_password(password)
        person.invited = False
        person.save(update_fields=["password", "invited"])


def change_own_password(*, old: str, new: str, by: Person) -> None:
    """Replace one's own password; other sessions of the person end with the old one."""
    if not (by.is_active and by.check_password(old)):
        raise BadInput("That is not your present password.", field="old")
    checks.check_new_password(by, new)
    with entry(by=by, verb="password_changed", about=by):
        by.set_password(new)
        by.save(update_fields=["password"])


def change_person(
    *, person: Person, name: str, mail: str, reason: str, by: Person
) -> None:
    """Change the printed name or the mail address; what is signed keeps the old name."""
    check(by, Permission.KEEP_PEOPLE)
    reason = checks.check_reason(reason)
    name = checks.check_text(name, "name", "the name as it is printed")
    mail = checks.check_mail(mail)
    if (name, mail) == (person.name, person.mail):
        raise WrongMove("Nothing was changed.")
    with entry(by=by, verb="person_changed", about=person, reason=reason):
        person.name, person.mail = name, mail
        person.save(update_fields=["name", "mail"])


def give_role(*, person: Person, role: str, by: Person) -> RoleGiven:
    """Give a person one more role. Two duties in one person are noted in the record."""
    check(by, Permission.KEEP_PEOPLE)
    checks.check_not_own(person, by, "gives a role to themselves")
    checks.check_role(role)
    _check_is_not_yet(person, role)
    with entry(by=by, verb="role_given", about=person) as record:
        held = _check_is_not_yet(person, role)
        record.note = roles.mixing({*held, role})
        return _given(person, role, by)


def take_role(*, person: Person, role: str, reason: str, by: Person) -> None:
    """Take a role back. What was done with it stays as it was."""
    check(by, Permission.KEEP_PEOPLE)
    checks.check_role(role)
    reason = checks.check_reason(reason)
    _held(person, role)
    with entry(by=by, verb="role_taken", about=person, reason=reason):
        held = _held(person, role)
        checks.check_leaves_administrator(person, [role])
        held.taken_at = clock.now()
        held.taken_by = by.name
        held.save(update_fields=["taken_at", "taken_by"])
        person.__dict__.pop("roles", None)


def deactivate(*, person: Person, reason: str, by: Person) -> None:
    """Close an account for good or for a while; its sessions end now."""
    check(by, Permission.KEEP_PEOPLE)
    reason = checks.check_reason(reason)
    if not person.is_active:
        raise WrongMove(f"The account of {person.name} is deactivated already.")
    with entry(by=by, verb="person_deactivated", about=person, reason=reason):
        checks.check_leaves_administrator(person, _roles_now(person))
        person.is_active = False
        person.save(update_fields=["is_active"])
        _end_sessions(person)


def reactivate(*, person: Person, reason: str, by: Person) -> None:
    """Open a closed account again. The old password is void: a new one is chosen by link."""
    check(by, Permission.KEEP_PEOPLE)
    reason = checks.check_reason(reason)
    if person.is_active:
        raise WrongMove(f"The account of {person.name} is active.")
    with entry(by=by, verb="person_reactivated", about=person, reason=reason):
        person.is_active = True
        person.set_password(None)
        person.save(update_fields=["is_active", "password"])


def start_password_reset(*, person: Person, reason: str, by: Person) -> None:
    """Make a password void, so that its owner chooses a new one by link. Nobody else does."""
    check(by, Permission.KEEP_PEOPLE)
    reason = checks.check_reason(reason)
    if not person.is_active:
        raise WrongMove(f"The account of {person.name} is deactivated; reactivate it.")
    with entry(by=by, verb="password_reset_started", about=person, reason=reason):
        person.set_password(None)
        person.save(update_fields=["password"])
        _end_sessions(person)


def _invited(
    *, account: str, name: str, mail: str, given: Sequence[str], by: Person | None
) -> Person:
    person = Person(
        account=checks.check_account(account),
        name=checks.check_text(name, "name", "the name as it is printed"),
        mail=checks.check_mail(mail),
        created_at=clock.now(),
    )
    person.set_password(None)
    wanted = [checks.check_role(role) for role in dict.fromkeys(given)]
    note = roles.mixing(wanted)
    with entry(by=by, verb="person_invited", about=person, note=note):
        checks.check_account(account)
        person.save()
        for role in wanted:
            _given(person, role, by)
    return person


def _given(person: Person, role: str, by: Person | None) -> RoleGiven:
    given = RoleGiven(
        person=person,
        role=role,
        given_at=clock.now(),
        given_by=by.name if by else SYSTEM_NAME,
    )
    given.save()
    person.__dict__.pop("roles", None)
    return given


def _check_is_not_yet(person: Person, role: str) -> frozenset[str]:
    """The roles held now, without the one that is to be given."""
    held = _roles_now(person)
    if role in held:
        raise WrongMove(f"{person.name} is {roles.ROLES[role].words} already.")
    return held


def _held(person: Person, role: str) -> RoleGiven:
    held = person.roles_given.filter(role=role, taken_at=None).first()
    if held is None:
        raise WrongMove(f"{person.name} is not {roles.ROLES[role].words}.")
    return held


def _roles_now(person: Person) -> frozenset[str]:
    person.__dict__.pop("roles", None)
    return person.roles


def _end_sessions(person: Person) -> None:
    for session in list(Session.objects.all()):
        if session.get_decoded().get("_auth_user_id") == str(person.pk):
            session.delete()
