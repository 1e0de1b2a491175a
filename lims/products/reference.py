"""The published specifications as shipped, each row with its source and standing."""

import json
from typing import Any

from django.conf import settings

PLACE = "fixtures/reference/specifications.json"

Row = dict[str, Any]


class About:
    """What an entry of the record about published specifications is about."""

    def record_key(self) -> tuple[str, str, str]:
        return "reference data", "specifications", "published specifications"


def shipped() -> list[Row]:
    """The published specifications in this copy's folder of fixtures."""
    path = settings.ROOT / PLACE
    rows: list[Row] = json.loads(path.read_text(encoding="utf-8"))
    return rows
