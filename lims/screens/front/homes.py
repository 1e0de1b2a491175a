"""The first page of the day: for each role the answer to its question, and where to go on."""

from collections.abc import Callable, Mapping
from typing import Any

from lims.people.models import Person
from lims.people.roles import ROLES
from lims.screens.front import home_files
from lims.screens.front import home_laboratory as laboratory
from lims.screens.front import home_office as office
from lims.screens.front.home_parts import Part


def context(person: Person) -> dict[str, Any]:
    """The parts of every role that somebody holds, each part once."""
    held = [role for role in ROLES if role in person.roles]
    makers = dict.fromkeys(make for role in held for make in HOMES[role])
    parts = [make() for make in makers]
    answer = next((part.answer for part in parts if part.answer), "")
    return {"parts": parts, "answer": answer, "has_role": bool(held)}


HOMES: Mapping[str, tuple[Callable[[], Part], ...]] = {
    "technician": (laboratory.due,),
    "laboratory_manager": (
        laboratory.undecided,
        laboratory.held,
        laboratory.instruments,
        laboratory.due,
        home_files.files,
    ),
    "quality_manager": (
        laboratory.undecided,
        laboratory.held,
        laboratory.drafts,
        laboratory.instruments,
    ),
    "technologist": (laboratory.drafts, home_files.files, laboratory.filled),
    "despatch": (office.can_leave, office.papers),
    "auditor": (office.record, laboratory.undecided),
    "administrator": (office.accounts, office.record),
}
