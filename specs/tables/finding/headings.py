"""What a column is taken for: by the words of its head, else by what stands in it. Proposed, never settled."""

from collections import Counter
from collections.abc import Mapping

from specs.tables.days.written import written
from specs.tables.finding.heading_words import codes_of, plain, role_of
from specs.tables.known import Known, Measured, Role, Use
from specs.tables.layout import Block
from specs.tables.sheet import DAY, MOMENT, TEXT, Sheet
from specs.tables.texts.batches import shape
from specs.units import UNITS

LOOKED_AT = 400  # rows from which a column without a known head is told
PAIR = {Role.TESTED, Role.FOUND}
MOST = 0.8  # of them have to agree: common practice, no source
SHARES = {"%": ("mass %", "volume %", "%")}


def proposed(block: Block, sheet: Sheet, known: Known) -> dict[str, Use]:
    """A use for each column of the block; what nobody knows is LEFT_OUT.

    One column at most for each characteristic, and for each role but REMARK: the first that
    bears the laboratory's own name, then the first from the left. Raises nothing.
    """
    found: dict[str, Use] = {}
    by_name = _names(known)
    for tell in (_by_name, _by_words, _by_contents):
        for letter in block.letters:
            use = (
                None if letter in found else tell(block, letter, sheet, known, by_name)
            )
            if use is not None and not _is_taken(use, found):
                found[letter] = use
        found = _without_half(found)
    return {it: found.get(it, Use(Role.LEFT_OUT)) for it in block.letters}


def _without_half(found: dict[str, Use]) -> dict[str, Use]:
    """What was tested and the result of it stand together, and without columns of results, or not at all."""
    roles = {it.role for it in found.values()}
    if roles >= PAIR and Role.RESULT not in roles:
        return found
    return {it: use for it, use in found.items() if use.role not in {*PAIR, Role.UNIT}}


def _is_taken(use: Use, found: Mapping[str, Use]) -> bool:
    if use.role is Role.REMARK:
        return False
    if use.role is Role.RESULT:
        return any(it.characteristic == use.characteristic for it in found.values())
    return any(it.role is use.role for it in found.values())


Names = Mapping[str, str]  # plain words -> code, where only one characteristic has them


def _names(known: Known) -> Names:
    """The laboratory's own words for each characteristic: its code, its name, its name with its conditions."""
    words: dict[str, list[str]] = {}
    for code, it in known.characteristics.items():
        for text in {plain(code), plain(it.name), plain(f"{it.name} {it.conditions}")}:
            words.setdefault(text, []).append(code)
    return {text: codes[0] for text, codes in words.items() if len(codes) == 1 and text}


def _by_name(
    block: Block, letter: str, _sheet: Sheet, known: Known, names: Names
) -> Use | None:
    code = names.get(plain(block.headings.get(letter, "")))
    return _result(block, letter, known.characteristics[code]) if code else None


def _by_words(
    block: Block, letter: str, _sheet: Sheet, known: Known, _names: Names
) -> Use | None:
    heading = block.headings.get(letter, "")
    role = role_of(heading)
    if role is not None:
        return Use(role)
    codes = [it for it in codes_of(heading) if it in known.characteristics]
    return _result(block, letter, known.characteristics[codes[0]]) if codes else None


def _by_contents(
    block: Block, letter: str, sheet: Sheet, known: Known, _names: Names
) -> Use | None:
    """Product codes, days and batch numbers are told by themselves; nothing else is."""
    last = min(block.last, block.first + LOOKED_AT - 1)
    cells = [
        (text.strip(), sheet.kind(letter, row))
        for row in range(block.first, last + 1)
        if (text := sheet.text(letter, row)) and text.strip()
    ]
    if not cells:
        return None
    texts = [text for text, _ in cells]
    if _mostly(sum(text in known.products for text in texts), texts):
        return Use(Role.PRODUCT)
    if _mostly(sum(_is_day(*it) for it in cells), texts):
        return Use(Role.DAY)
    return Use(Role.BATCH) if _are_batches(cells) else None


def _mostly(count: int, texts: list[str]) -> bool:
    return count >= MOST * len(texts)


def _is_day(text: str, kind: str) -> bool:
    """Whether a cell is a day for sure: a count of days may be any number."""
    if kind in (DAY, MOMENT):
        return True
    it = written(text)
    return kind == TEXT and bool(it.figures or it.day)


def _are_batches(cells: list[tuple[str, str]]) -> bool:
    """Whether most texts are built alike, of figures and of letters or strokes, and hardly repeat."""
    built = [
        shape(text)
        for text, kind in cells
        if kind == TEXT and " " not in text and any("0" <= it <= "9" for it in text)
    ]
    alike = Counter(
        it for it in built if ("A" in it or "-" in it) and it.count("9") >= 3
    )
    most = alike.most_common(1)[0][1] if alike else 0
    is_varied = len({text for text, _ in cells}) * 2 >= len(cells)
    return is_varied and len(cells) > 1 and most >= MOST * len(cells)


def _result(block: Block, letter: str, it: Measured) -> Use:
    unit = fitting_unit(block.units.get(letter, ""), it.unit)
    return Use(Role.RESULT, it.code, unit)


def fitting_unit(stated: str, wanted: str) -> str:
    """The unit that a head states, if it measures what is measured; else empty, and the unit is asked."""
    if stated in SHARES:
        return wanted if wanted in SHARES[stated] else ""
    if stated == wanted:
        return stated
    one, other = UNITS.get(stated), UNITS.get(wanted)
    return stated if one and other and one.measures == other.measures else ""
