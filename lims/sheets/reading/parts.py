"""The small parts of a workbook: where its sheets lie, its epoch, its comments, and the number forms that add a sign to what is stored."""

import posixpath
import re
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lims.sheets.reading.guard import BOOK
from lims.sheets.reading.refusing import CELL, MiB, damaged

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

SMALL = 32 * MiB  # of one of these parts, unpacked
TRUE = ("1", "true")
ONLY_CHARTS = ("/chartsheet", "/dialogsheet")  # kinds of sheet without cells
PER_CENT, CLOCK = "%", "h:mm"  # what a number form adds, or that it shows hours alone
LONGEST_FORM = 80  # of a number form that is looked at
# Forms that have a number and no code: ISO/IEC 29500-1, 18.8.30.
BUILT_IN_PER_CENT = ("9", "10")
BUILT_IN_CLOCK = ("18", "19", "20", "21", "45", "47")
# The first section of a form: figures, then a sign in quotes or after a backslash.
_SIGNED = re.compile(r'^[#0?,.\s]+(?:\\ ?|_.)*\s*(?:"([^"]{1,12})"|\\(\S))\s*$')
_CLOCK = re.compile(r"h{1,2}:mm(?::ss(?:[.,]0+)?)?(?: ?AM/PM)?|mm:ss(?:[.,]0+)?", re.I)
_LOCALE = re.compile(r"\[[^\]]*\]")


@dataclass(frozen=True)
class Place:
    """Where one sheet of the workbook lies."""

    name: str
    part: str
    is_hidden: bool


@dataclass(frozen=True)
class Book:
    """What the workbook says of itself."""

    places: tuple[Place, ...]
    is_1904: bool
    signs: Mapping[str, str]  # style of a cell -> what its number form adds


def book_of(archive: zipfile.ZipFile) -> Book:
    """The sheets in their order, the epoch, and the styles that add a sign."""
    root = _tree(archive, BOOK)
    targets = _targets(archive, BOOK)
    places = []
    for one in _all(root, "sheet"):
        kind, part = targets.get(_attribute(one, "id"), ("", ""))
        if kind.endswith(ONLY_CHARTS):
            continue
        if part not in archive.NameToInfo:
            raise damaged(f"sheet “{_attribute(one, 'name')}” is missing")
        is_hidden = _attribute(one, "state") in ("hidden", "veryHidden")
        places.append(Place(_attribute(one, "name"), part, is_hidden))
    if len({it.name for it in places}) < len(places):
        raise damaged("two of its sheets have one name")
    settings = _all(root, "workbookPr")
    is_1904 = any(_attribute(one, "date1904") in TRUE for one in settings)
    return Book(tuple(places), is_1904, _signs(archive))


def comments_of(archive: zipfile.ZipFile, part: str) -> dict[str, str]:
    """The comments of a sheet by the address of their cell."""
    found: dict[str, str] = {}
    for kind, target in _targets(archive, part).values():
        if not kind.endswith("/comments") or target not in archive.NameToInfo:
            continue
        for one in _all(_tree(archive, target), "comment"):
            words = "".join(_all_text(one)).strip()[:CELL]
            if words:
                found[_attribute(one, "ref")] = words
    return found


def _all_text(comment: "Element") -> list[str]:
    return [one.text or "" for one in _all(comment, "t")]


def _signs(archive: zipfile.ZipFile) -> dict[str, str]:
    kinds = _targets(archive, BOOK).values()
    part = next((it for kind, it in kinds if kind.endswith("/styles")), "")
    if part not in archive.NameToInfo:
        return {}
    root = _tree(archive, part)
    forms = {
        _attribute(one, "numFmtId"): sign_of(_attribute(one, "formatCode"))
        for one in _all(root, "numFmt")
    }
    forms |= dict.fromkeys(BUILT_IN_PER_CENT, PER_CENT)
    forms |= dict.fromkeys(BUILT_IN_CLOCK, CLOCK)
    styles = [style for one in _all(root, "cellXfs") for style in one]
    signs = {
        str(place): forms.get(_attribute(style, "numFmtId"), "")
        for place, style in enumerate(styles)
    }
    return {place: sign for place, sign in signs.items() if sign}


def sign_of(form: str) -> str:
    """What a number form adds behind the number: "%", or words in quotes such as "kPa"; CLOCK where it shows the hours of a day."""
    first = _LOCALE.sub("", form.partition(";")[0][:LONGEST_FORM]).strip()
    if first.endswith("%") and '"' not in first:
        return PER_CENT
    if _CLOCK.fullmatch(first):
        return CLOCK
    match = _SIGNED.match(first)
    return (match[1] or match[2] or "").strip() if match else ""


def _targets(archive: zipfile.ZipFile, part: str) -> dict[str, tuple[str, str]]:
    """What a part points at inside the workbook: id -> kind, part."""
    folder, name = posixpath.split(part)
    listed = f"{folder}/_rels/{name}.rels"
    if listed not in archive.NameToInfo:
        return {}
    found = {}
    for one in _all(_tree(archive, listed), "Relationship"):
        if _attribute(one, "TargetMode") != "External":
            target = posixpath.join(f"/{folder}", _attribute(one, "Target"))
            inside = posixpath.normpath(target).lstrip("/")
            found[_attribute(one, "Id")] = (_attribute(one, "Type"), inside)
    return found


def _tree(archive: zipfile.ZipFile, part: str) -> "Element":
    from defusedxml import DefusedXmlException
    from defusedxml.ElementTree import ParseError, fromstring

    if archive.getinfo(part).file_size > SMALL:
        raise damaged(f"its part {part} is too large")
    try:
        root: Element = fromstring(archive.read(part))
    except (ParseError, DefusedXmlException, ValueError, LookupError) as why:
        raise damaged(f"its part {part} cannot be read") from why
    return root


def _all(root: "Element", name: str) -> list["Element"]:
    """Every element of that name, whatever its namespace."""
    return root.findall(f".//{{*}}{name}")


def _attribute(one: "Element", name: str) -> str:
    """An attribute, with or without a namespace."""
    for key, value in one.attrib.items():
        if key.rpartition("}")[2] == name:
            return value
    return ""
