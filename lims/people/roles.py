"""The roles as data: the words, a sentence for whoever gives one, and its permissions."""

from collections.abc import Iterable
from dataclasses import dataclass

from lims.people.permissions import Permission, listed


@dataclass(frozen=True)
class Role:
    """What somebody is in the laboratory."""

    key: str
    words: str
    sentence: str
    permissions: frozenset[Permission]


_ALL = (
    Role(
        "technician",
        "technician",
        "Takes samples, carries out the tests and keeps the retains.",
        frozenset(
            {
                Permission.READ,
                Permission.RECORD_READINGS,
                Permission.TAKE_SAMPLES,
                Permission.REGISTER_BATCHES,
                Permission.KEEP_RETAINS,
                Permission.CHECK_INSTRUMENTS,
            }
        ),
    ),
    Role(
        "laboratory_manager",
        "laboratory manager",
        "Runs the laboratory, reviews fill lots and authorises them.",
        frozenset(
            {
                Permission.READ,
                Permission.RECORD_READINGS,
                Permission.TAKE_SAMPLES,
                Permission.REGISTER_BATCHES,
                Permission.KEEP_RETAINS,
                Permission.ALLOW_WITHOUT_RETAIN,
                Permission.AUTHORISE_LOTS,
                Permission.HOLD_LOTS,
                Permission.DRAFT_SPECIFICATIONS,
                Permission.KEEP_METHODS,
                Permission.CHECK_INSTRUMENTS,
                Permission.KEEP_INSTRUMENTS,
                Permission.ALLOW_USES,
                Permission.ISSUE_CERTIFICATES,
                Permission.BRING_IN,
                Permission.SEE_PERSONS,
                Permission.ARCHIVE,
                Permission.VERIFY_RECORD,
            }
        ),
    ),
    Role(
        "quality_manager",
        "quality manager",
        "Answers for quality: approves specifications, authorises and holds fill lots.",
        frozenset(
            {
                Permission.READ,
                Permission.ALLOW_WITHOUT_RETAIN,
                Permission.AUTHORISE_LOTS,
                Permission.HOLD_LOTS,
                Permission.APPROVE_SPECIFICATIONS,
                Permission.KEEP_METHODS,
                Permission.APPROVE_FIGURES,
                Permission.KEEP_INSTRUMENTS,
                Permission.ALLOW_USES,
                Permission.KEEP_CUSTOMERS,
                Permission.ISSUE_CERTIFICATES,
                Permission.BRING_IN,
                Permission.SEE_PERSONS,
                Permission.ARCHIVE,
                Permission.VERIFY_RECORD,
            }
        ),
    ),
    Role(
        "technologist",
        "technologist",
        "Knows the products and the methods: drafts specifications, keeps and approves figures of methods, registers batches.",
        frozenset(
            {
                Permission.READ,
                Permission.DRAFT_SPECIFICATIONS,
                Permission.KEEP_METHODS,
                Permission.APPROVE_FIGURES,
                Permission.REGISTER_BATCHES,
                Permission.BRING_IN,
            }
        ),
    ),
    Role(
        "despatch",
        "despatch",
        "Allots packs to orders and issues certificates.",
        frozenset(
            {
                Permission.READ,
                Permission.KEEP_CUSTOMERS,
                Permission.ALLOT_PACKS,
                Permission.ISSUE_CERTIFICATES,
            }
        ),
    ),
    Role(
        "auditor",
        "auditor",
        "Reads everything, verifies the record and changes nothing.",
        frozenset({Permission.READ, Permission.VERIFY_RECORD}),
    ),
    Role(
        "administrator",
        "administrator",
        "Keeps accounts and settings; enters no data and approves nothing.",
        frozenset({Permission.READ, Permission.KEEP_PEOPLE, Permission.KEEP_SITE}),
    ),
)
ROLES: dict[str, Role] = {role.key: role for role in _ALL}
ADMINISTRATOR = "administrator"
READERS = frozenset({ADMINISTRATOR, "auditor"})


def permissions_of(keys: Iterable[str]) -> frozenset[Permission]:
    """All that these roles hold together."""
    return frozenset[Permission]().union(*(ROLES[key].permissions for key in keys))


def in_words(keys: Iterable[str]) -> str:
    """The roles as they are printed, in the order of the list above."""
    held = set(keys)
    return listed([role.words for role in _ALL if role.key in held], "and")


def mixing(keys: Iterable[str]) -> str:
    """The warning when one person keeps accounts and also works with data; else nothing."""
    held = set(keys)
    if ADMINISTRATOR in held and held - READERS:
        return (
            "Keeps accounts and works with the laboratory's data: two duties that are "
            "better held by two persons."
        )
    return ""
