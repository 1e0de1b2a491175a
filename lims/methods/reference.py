"""The reference data as shipped: characteristics and methods, each figure with its source and standing."""

import json
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any, Protocol, TypedDict

from django.conf import settings

PLACE = "fixtures/reference"

Row = dict[str, Any]


class ReferenceData(TypedDict):
    """What `load_reference` takes: the characteristics, and the methods with their editions."""

    characteristics: list[Row]
    methods: list[Row]


class Named(Protocol):
    """What the reference data know a characteristic by."""

    code: str
    name: str
    conditions: str


class About:
    """What an entry of the record about reference data is about."""

    def record_key(self) -> tuple[str, str, str]:
        return "reference data", "methods", "reference data of the methods"


def shipped() -> ReferenceData:
    """The reference data in this copy's folder of fixtures; a family of methods has a file of its own."""
    place = settings.ROOT / PLACE
    files = sorted((place / "methods").glob("*.json"))
    methods = [row for file in files for row in _rows(file)]
    return {
        "characteristics": _rows(place / "characteristics.json"),
        "methods": joined(methods),
    }


def names_in(it: Named, language: str) -> Mapping[str, str]:
    """What the reference data call this characteristic in a language, while it bears their name: a book that was begun before a language came has its names too."""
    row = _characteristics().get(it.code, {})
    is_theirs = (row.get("name"), row.get("conditions", "")) == (it.name, it.conditions)
    names: Mapping[str, str] = row["elsewhere"].get(language, {}) if is_theirs else {}
    return names


@cache
def _characteristics() -> dict[str, Row]:
    rows = _rows(settings.ROOT / PLACE / "characteristics.json")
    return {row["code"]: row for row in rows}


def joined(methods: Iterable[Row]) -> list[Row]:
    """One row a method: two files may tell of its editions. The edition told first stands."""
    found: dict[str, Row] = {}
    for row in methods:
        here = found.setdefault(row["designation"], row | {"editions": []})
        known = {edition["edition"] for edition in here["editions"]}
        here["editions"] += [
            edition for edition in row["editions"] if edition["edition"] not in known
        ]
    return list(found.values())


def figures_of(edition: Row) -> list[Row]:
    """What an edition asks and how well it measures, as plain figures."""
    return [
        {"level_from": "", "level_to": ""} | figure
        for figure in edition.get("figures", ())
    ]


def _rows(path: Path) -> list[Row]:
    rows: list[Row] = json.loads(path.read_text(encoding="utf-8"))
    return rows
