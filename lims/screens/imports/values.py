"""The results of a line of history as a page shows them: by name, with unit, as they stood, by which rule."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from lims.methods.models import Characteristic
from lims.sheets.exports import Value

BESIDE = {
    "within": "within the limits in force today",
    "beyond": "beyond the limits in force today",
    "not known": "beside today's limits: not known",
}


@dataclass(frozen=True)
class ValueShown:
    """One result."""

    code: str
    name: str
    conditions: str
    value: str
    unit: str
    is_signed: bool
    is_words: bool
    cells: tuple[str, ...]
    raw: tuple[str, ...]
    rule: str
    beside: str = ""


def shown(
    told: Iterable[Mapping[str, Any]], names: Mapping[str, Characteristic]
) -> list[ValueShown]:
    """Results as they are stored, or would be."""
    return [_shown(it, names.get(str(it["characteristic"]))) for it in told]


def _shown(told: Mapping[str, Any], measured: Characteristic | None) -> ValueShown:
    code = str(told["characteristic"])
    return ValueShown(
        code=code,
        name=measured.name if measured else code,
        conditions=measured.conditions if measured else "",
        value=str(told["value"]),
        unit="" if told.get("is_words") or measured is None else measured.unit,
        is_signed=bool(measured and measured.is_signed),
        is_words=bool(told.get("is_words")),
        cells=tuple(told["cells"]),
        raw=tuple(told["raw"]),
        rule=str(told.get("rule", "")),
        beside=BESIDE.get(str(told.get("beside", "")), ""),
    )


def names() -> dict[str, Characteristic]:
    """Every characteristic by its code."""
    return {it.code: it for it in Characteristic.objects.all()}


def plain(it: ValueShown) -> Value:
    """A result for a sheet."""
    return f"{it.value} {it.unit}".strip()
