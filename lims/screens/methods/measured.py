"""One characteristic as its page shows it: by which procedure, with which settings, from what, how uncertain."""

from dataclasses import dataclass
from typing import Any

from lims.methods import queries
from lims.methods.models import Characteristic
from lims.people.models import Person
from lims.screens.methods.presenting import may
from lims.wording.numbers import with_unit
from specs.methods.catalogue import PROCEDURES
from specs.methods.outcome import Procedure, setting

NOT_SET = "none"
Kind = Characteristic.Kind
WHAT = {
    Kind.LADDER: "A load of a ladder, never averaged",
    Kind.RATING: "A mark of an ordered scale, never averaged",
    Kind.FINDING: "Pass or fail, never averaged",
    Kind.WORDS: "Words",
}


@dataclass(frozen=True)
class Setting:
    """One setting of a procedure as this characteristic uses it."""

    label: str
    value: str
    is_house: bool
    is_own: bool  # set for this characteristic, not the procedure's default

    @property
    def is_set(self) -> bool:
        return self.value != NOT_SET


def characteristic_page(row: Characteristic, person: Person) -> dict[str, Any]:
    """One characteristic: by which procedure, with which settings, from what."""
    procedure = PROCEDURES[row.procedure]
    known = queries.characteristics().in_bulk(
        list(row.derived_from.values()), field_name="code"
    )
    return {
        "characteristic": row,
        "is_number": row.kind == Kind.NUMBER,
        "settings": _settings(row, procedure),
        "scale": procedure.scale if row.kind != Kind.WORDS else (),
        "derived": [
            (role, known.get(code), code) for role, code in row.derived_from.items()
        ],
        "caution": row.caution or procedure.caution,
        "editions": queries.editions_for(row),
        "stated": queries.own_uncertainties([row])[row.pk],
        "answer": _by_which(row, procedure),
        "may": may(person),
    }


def _settings(row: Characteristic, procedure: Procedure) -> list[Setting]:
    return [
        Setting(
            it.label,
            setting(row.parameters, it) or NOT_SET,
            it.house,
            bool(row.parameters.get(it.key)),
        )
        for it in procedure.parameters
    ]


def _by_which(row: Characteristic, procedure: Procedure) -> str:
    if row.is_derived:
        return f"Worked out by the procedure “{procedure.name}” from other results of the same sample."
    if row.kind == Kind.NUMBER:
        step = row.step if "digit" in row.step else with_unit(row.step, row.unit)
        return f"A number, found by the procedure “{procedure.name}” and reported to {step}."
    return f"{WHAT[Kind(row.kind)]}, found by the procedure “{procedure.name}”."


def uncertainty_page(row: Characteristic, person: Person) -> dict[str, Any]:
    """What the laboratory stated of its own uncertainty so far, and the sentence that is signed."""
    stated = queries.own_uncertainties([row])[row.pk]
    last = f"statement {stated[0].number}" if stated else ""
    replaces = f" Where it reaches, it takes the place of {last}." if last else ""
    return {
        "characteristic": row,
        "is_number": row.kind == Kind.NUMBER,
        "stated": stated,
        "sentence": (
            f"I, {person.name}, {person.function}, state what is written above as this "
            f"laboratory's own uncertainty of {row.in_full}.{replaces}"
        ),
    }
