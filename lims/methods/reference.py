"""The reference data as shipped: characteristics and methods, each figure with its source and standing."""

import json
from typing import Any, TypedDict

from django.conf import settings

PLACE = "fixtures/reference"


class ReferenceData(TypedDict):
    """What `load_reference` takes: the rows of the two files."""

    characteristics: list[dict[str, Any]]
    methods: list[dict[str, Any]]


class About:
    """What an entry of the record about reference data is about."""

    def record_key(self) -> tuple[str, str, str]:
        return "reference data", "methods", "reference data of the methods"


def shipped() -> ReferenceData:
    """The reference data in this copy's folder of fixtures."""
    return {
        "characteristics": _rows("characteristics"),
        "methods": _rows("methods"),
    }


def _rows(name: str) -> list[dict[str, Any]]:
    path = settings.ROOT / PLACE / f"{name}.json"
    rows: list[dict[str, Any]] = json.loads(path.read_text(encoding="utf-8"))
    return rows
