"""What a column can be taken for, by the kind of file: words for the list, and what the action is told."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from lims.imports.models import Import
from lims.methods.models import Characteristic
from specs.tables.forms import FORMS
from specs.tables.known import Role
from specs.units import UNITS

LEFT_OUT = Role.LEFT_OUT.value
RESULT = "result:"
ROLES = {
    Role.BATCH: "Batch",
    Role.DAY: "Date",
    Role.PRODUCT: "Product",
    Role.KETTLE: "Kettle",
    Role.PACK: "Fill lot",
    Role.PLACE: "Where sampled",
    Role.INSTRUMENT: "Instrument",
    Role.PERSON: "Person",
    Role.REMARK: "Remark",
}
ONE_A_ROW = {
    Role.TESTED: "What was tested",
    Role.FOUND: "The result of it",
    Role.UNIT: "The unit of it",
}
NEEDED = (Role.BATCH, Role.DAY)  # a product that no column tells is asked about
Choices = list[tuple[str, Any]]  # of a select; the second may be a group of them


@dataclass(frozen=True)
class Meanings:
    """Every meaning that a column of one kind of file may have."""

    choices: Choices
    needed: Mapping[str, str]  # key -> word: each table must have it
    many: frozenset[str]  # keys that several columns may have
    has_units: bool = False  # whether a unit may be said of a column

    def words(self, key: str) -> str:
        """A meaning as the list says it."""
        return dict(_flat(self.choices)).get(key, key)


def meanings(kind: str) -> Meanings:
    """The meanings for one kind of file."""
    return _of_results() if kind == Import.Kind.HISTORY else _of_form(kind)


def _of_results() -> Meanings:
    about = [(role.value, words) for role, words in ROLES.items()]
    measured = [
        (f"{RESULT}{it.code}", f"{it.in_full}{_in(it.unit)}")
        for it in Characteristic.objects.all()
    ]
    choices: Choices = [
        (LEFT_OUT, "nothing: leave it out"),
        ("About the batch", about),
        ("Results", measured),
        (
            "One result a row",
            [(role.value, words) for role, words in ONE_A_ROW.items()],
        ),
    ]
    needed = {role.value: ROLES[role].lower() for role in NEEDED}
    return Meanings(choices, needed, frozenset({Role.REMARK.value}), has_units=True)


def _in(unit: str) -> str:
    return f" ({unit})" if unit else ""


def _of_form(kind: str) -> Meanings:
    columns = FORMS[kind].columns
    choices: Choices = [
        (LEFT_OUT, "nothing: leave it out"),
        *((it.key, f"{it.heading}{_in(it.unit)}") for it in columns),
    ]
    needed = {it.key: it.heading.lower() for it in columns if it.required}
    many = frozenset(it.key for it in columns if it.is_repeated)
    return Meanings(choices, needed, many, has_units=kind == Import.Kind.LOG)


def _flat(choices: Iterable[tuple[str, Any]]) -> Iterable[tuple[str, str]]:
    for key, words in choices:
        if isinstance(words, str):
            yield key, words
        else:
            yield from words


def key_of(use: Mapping[str, Any]) -> str:
    """The meaning that a stored use stands for, as the list sends it."""
    role = str(use.get("role", LEFT_OUT))
    if role == Role.RESULT:
        return f"{RESULT}{use.get('characteristic', '')}"
    return role


def use_of(key: str, unit: str) -> dict[str, str]:
    """What the action is told of a column."""
    if key.startswith(RESULT):
        code = key.removeprefix(RESULT)
        return {"role": Role.RESULT.value, "characteristic": code, "unit": unit}
    return {"role": key, "characteristic": "", "unit": unit}


def units() -> Choices:
    """Every unit that is kept here, by what it measures."""
    found: dict[str, list[tuple[str, str]]] = {}
    for name, it in UNITS.items():
        found.setdefault(it.measures, []).append((name, name))
    return [("", "not said"), *found.items()]
