"""What must hold of files that are brought in, whoever acts: who may, how large, in which state."""

from lims.imports.models import Import
from lims.people.days import day_of
from lims.people.models import Person
from lims.people.permissions import Permission, allowed, check
from lims.record.refusals import BadInput, WrongMove

LARGEST = 25 * 1024 * 1024  # bytes
LONGEST_NAME = 120

Kind, State = Import.Kind, Import.State
WITHDRAWN = frozenset({Kind.HISTORY, Kind.LOG})  # what is kept apart from the record

NEEDS: dict[str, tuple[Permission, ...]] = {
    Kind.HISTORY: (Permission.BRING_IN,),
    Kind.SPECIFICATIONS: (Permission.DRAFT_SPECIFICATIONS,),
    Kind.CUSTOMERS: (Permission.KEEP_CUSTOMERS,),
    Kind.FIGURES: (Permission.KEEP_METHODS,),
    Kind.INSTRUMENTS: (Permission.KEEP_INSTRUMENTS,),
    Kind.SAMPLES: (Permission.TAKE_SAMPLES,),
    Kind.LOG: (Permission.RECORD_READINGS,),
}


def may_bring_in(person: Person, kind: str) -> bool:
    """Whether the person may bring in files of this kind."""
    return all(allowed(person, it) for it in NEEDS[kind])


def kinds_for(person: Person) -> list[str]:
    """The kinds of file that the person may bring in."""
    return [kind for kind in Kind.values if may_bring_in(person, kind)]


def check_may(person: Person, kind: str) -> None:
    """Refuse who lacks the permission that this kind of file needs."""
    if kind not in Kind.values:
        raise BadInput("Say what the file holds.", field="kind")
    for permission in NEEDS[kind]:
        check(person, permission)


def check_size(size: int) -> None:
    """Refuse an empty file and one that is too large."""
    if size == 0:
        raise BadInput("The file is empty: choose another one.", field="file")
    if size > LARGEST:
        raise BadInput(
            f"The file is larger than the {LARGEST // 1024 // 1024} MB that are read at "
            "once: split it, for example by year.",
            field="file",
        )


def check_not_taken_in(sha256: str, kind: str) -> None:
    """Refuse a file that was taken in already, byte for byte."""
    old = taken_in_before(sha256, kind)
    if old is not None:
        raise BadInput(
            f"This very file was taken in on {day_of(old.taken_at)} by "
            f"{old.taken_by.name if old.taken_by else 'somebody'}, as {old.name}: nothing "
            f"is added. {_remedy(kind)}",
            field="file",
        )


def _remedy(kind: str) -> str:
    """What can be done with a file that was taken in; only some kinds are withdrawn."""
    if kind in WITHDRAWN:
        return "Withdraw what it brought if it is to be taken in anew."
    return "What it brought stands in the record: change it there."


def taken_in_before(sha256: str, kind: str) -> Import | None:
    """The import that took in the same bytes, if one did."""
    found = Import.objects.filter(sha256=sha256, kind=kind, state=State.TAKEN_IN)
    return found.select_related("taken_by").first()


def check_waits(import_of: Import) -> None:
    """Refuse what is no longer waiting to be taken in."""
    if import_of.state != State.RECEIVED:
        raise WrongMove(
            f"{import_of.name} is {import_of.state}: nothing about it changes any more. "
            "Bring the file in again if it is to be read anew."
        )


def check_was_taken_in(import_of: Import) -> None:
    """Refuse to withdraw what was never taken in."""
    if import_of.state != State.TAKEN_IN:
        raise WrongMove(
            f"{import_of.name} is {import_of.state}: only what was taken in is withdrawn."
        )
    if import_of.kind not in WITHDRAWN:
        raise WrongMove(
            "What this file brought stands in the record in its own right: change it "
            "there, draft by draft and instrument by instrument."
        )


def check_reason(reason: str) -> str:
    """The reason, tidied; refused when there is none or it is too long."""
    tidy = " ".join(reason.split())
    if len(tidy) < 3:
        raise BadInput("Say why.", field="reason")
    if len(tidy) > 300:
        raise BadInput("Say why in at most 300 characters.", field="reason")
    return tidy
