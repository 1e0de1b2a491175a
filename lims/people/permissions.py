"""What a person may do at all. Whether it can be done now, to this thing, is another check, in the rooms."""

from enum import StrEnum
from typing import TYPE_CHECKING, Any

from lims.record.refusals import NotAllowed

if TYPE_CHECKING:
    from lims.people.models import Person


class Permission(StrEnum):
    """One kind of act each. Roles hold them; see roles.py."""

    READ = "read"
    """See everything that the laboratory has recorded."""
    RECORD_READINGS = "record_readings"
    """Enter readings, finish determinations, set one aside with a reason."""
    TAKE_SAMPLES = "take_samples"
    """Register a sample and where it was taken."""
    REGISTER_BATCHES = "register_batches"
    """Register batches and their fill lots."""
    KEEP_RETAINS = "keep_retains"
    """Say where a retain stands, and that it was drawn from or discarded."""
    ALLOW_WITHOUT_RETAIN = "allow_without_retain"
    """Allow a lot to be authorised although no retain has a place, with a reason."""
    AUTHORISE_LOTS = "authorise_lots"
    """Review a fill lot and authorise it with a signature."""
    HOLD_LOTS = "hold_lots"
    """Put a fill lot on hold, and take it off."""
    DRAFT_SPECIFICATIONS = "draft_specifications"
    """Write products, specifications and draft revisions."""
    APPROVE_SPECIFICATIONS = "approve_specifications"
    """Put a draft revision in force with a signature."""
    KEEP_METHODS = "keep_methods"
    """Keep methods, editions and drafts of their figures; say who checked figures."""
    APPROVE_FIGURES = "approve_figures"
    """Put figures of a method in force, and state the own uncertainty, with a signature."""
    CHECK_INSTRUMENTS = "check_instruments"
    """Record a check of an instrument."""
    KEEP_INSTRUMENTS = "keep_instruments"
    """Add instruments, take them out of service and back."""
    ALLOW_USES = "allow_uses"
    """Let a reading count that was made on an instrument not in service, with a reason."""
    KEEP_CUSTOMERS = "keep_customers"
    """Keep customers and their part numbers."""
    ALLOT_PACKS = "allot_packs"
    """Allot packs of a lot to an order."""
    ISSUE_CERTIFICATES = "issue_certificates"
    """Issue the certificate of an authorised lot."""
    BRING_IN = "bring_in"
    """Bring in files of the plant's history and its loggers, and withdraw what was brought in."""
    SEE_PERSONS = "see_persons"
    """Compare results by the person who obtained them."""
    ARCHIVE = "archive"
    """Take the whole record out of the program."""
    KEEP_PEOPLE = "keep_people"
    """Invite persons, give and take roles, deactivate."""
    KEEP_SITE = "keep_site"
    """Change the settings of the site."""
    VERIFY_RECORD = "verify_record"
    """Run the verification of the record."""


ACTS: dict[Permission, str] = {
    Permission.READ: "Reading the laboratory's record",
    Permission.RECORD_READINGS: "Recording readings",
    Permission.TAKE_SAMPLES: "Registering samples",
    Permission.REGISTER_BATCHES: "Registering batches and fill lots",
    Permission.KEEP_RETAINS: "Keeping retains",
    Permission.ALLOW_WITHOUT_RETAIN: "Allowing a lot without a retain",
    Permission.AUTHORISE_LOTS: "Authorising fill lots",
    Permission.HOLD_LOTS: "Putting fill lots on hold",
    Permission.DRAFT_SPECIFICATIONS: "Drafting specifications",
    Permission.APPROVE_SPECIFICATIONS: "Approving specifications",
    Permission.KEEP_METHODS: "Keeping methods",
    Permission.APPROVE_FIGURES: "Approving figures of methods",
    Permission.CHECK_INSTRUMENTS: "Checking instruments",
    Permission.KEEP_INSTRUMENTS: "Keeping instruments",
    Permission.ALLOW_USES: "Letting readings on an instrument not in service count",
    Permission.KEEP_CUSTOMERS: "Keeping customers",
    Permission.ALLOT_PACKS: "Allotting packs",
    Permission.ISSUE_CERTIFICATES: "Issuing certificates",
    Permission.BRING_IN: "Bringing in files",
    Permission.SEE_PERSONS: "Comparing results by person",
    Permission.ARCHIVE: "Taking the whole record out",
    Permission.KEEP_PEOPLE: "Keeping people and their roles",
    Permission.KEEP_SITE: "Changing the settings of the site",
    Permission.VERIFY_RECORD: "Verifying the record",
}


def allowed(person: "Person | Any | None", permission: Permission) -> bool:
    """Whether one of this person's roles holds the permission. Strangers hold none."""
    if person is None or not person.is_active:
        return False
    return permission in getattr(person, "permissions", ())


def check(person: "Person | Any | None", permission: Permission) -> None:
    """Refuse, naming who may, unless one of this person's roles holds the permission."""
    if allowed(person, permission):
        return
    if person is None or not getattr(person, "is_authenticated", False):
        raise NotAllowed("Sign in first.")
    if not person.is_active:
        raise NotAllowed("This account is deactivated.")
    raise NotAllowed(
        f"{ACTS[permission]} is for {_who_may(permission)}. "
        f"{person.name} {_has_roles(person)}."
    )


def _who_may(permission: Permission) -> str:
    from lims.people.roles import ROLES  # roles are made of permissions

    words = [
        f"the {role.words}" for role in ROLES.values() if permission in role.permissions
    ]
    return listed(words, "or")


def _has_roles(person: "Person | Any") -> str:
    from lims.people.roles import in_words  # roles are made of permissions

    words = in_words(person.roles)
    return f"is {words}" if words else "has no role yet"


def listed(words: list[str], last: str) -> str:
    """`a, b or c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"
