"""Sheets to bytes and back: compressed JSON, a text a cell, quick rather than small."""

import json
import zlib
from typing import Any

from lims.sheets.reading.found import How, Workbook
from specs.tables.sheet import Column, Merged, Sheet

VERSION = 1
QUICK = 1  # how hard to compress: level 6 takes four times as long and saves a fifth


def packed(workbook: Workbook) -> bytes:
    """The workbook as bytes that `unpacked` reads."""
    told = {
        "version": VERSION,
        "how": [workbook.how.encoding, workbook.how.delimiter],
        "notes": workbook.notes,
        "sheets": [_told(sheet) for sheet in workbook.sheets],
    }
    text = json.dumps(told, separators=(",", ":"))
    return zlib.compress(text.encode("ascii"), QUICK)


def _told(sheet: Sheet) -> dict[str, Any]:
    return {
        "name": sheet.name,
        "columns": [[it.letter, it.texts, it.kinds] for it in sheet.columns],
        "merged": [[it.top, it.left, it.bottom, it.right] for it in sheet.merged],
        "hidden": sorted(sheet.hidden_rows),
        "notes": dict(sheet.notes),
        "is_1904": sheet.is_1904,
    }


def unpacked(content: bytes) -> Workbook:
    """The workbook that was packed; raises ValueError for bytes of another version."""
    told = json.loads(zlib.decompress(content))
    if told["version"] != VERSION:
        raise ValueError(f"packed by version {told['version']}")
    return Workbook(
        sheets=tuple(_sheet(it) for it in told["sheets"]),
        how=How(*told["how"]),
        notes=tuple(told["notes"]),
    )


def _sheet(told: dict[str, Any]) -> Sheet:
    return Sheet(
        name=told["name"],
        columns=tuple(Column(*it) for it in told["columns"]),
        merged=tuple(Merged(*it) for it in told["merged"]),
        hidden_rows=frozenset(told["hidden"]),
        notes=told["notes"],
        is_1904=told["is_1904"],
    )
