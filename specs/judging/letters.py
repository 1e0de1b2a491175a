"""The letters of grease symbols: DIN 51502 and the code of ISO 6743-9, each meaning with its source and standing."""

from collections.abc import Mapping
from dataclasses import dataclass

PUBLISHED, FROM_MEMORY = "published", "from memory"

DIN, ISO = "DIN 51502", "ISO 6743-9"

_DIN_USES = (
    "DIN 51502 classification: fuchs.com/es/en/products/product-program/"
    "lubricating-greases/din-51502-classification-of-lubricating-greases"
)
_DIN_MARKING = (
    "DIN 51502, marking of greases: www.e-coll.de, page "
    "Kennzeichnung_von_Schmierfetten_nach_DIN_51502"
)
_DIN_WIKI = "DIN 51502, grease letters: willy-janssen.de/doku.php/wiki/schmierfette"
_DIN_OWN = "DIN 51502, table of letters"
_ISO_OWN = "ISO 6743-9, table of letters"
_GB = (
    "GB 7324-1994 codes greases for -20 to 120 °C L-XBCHA: "
    "m.bzxz.net/en/990265c712c49d583.html"
)
_NLGI = (
    "ASTM D217-21a, table of NLGI numbers: standards.iteh.ai/catalog/standards/astm/"
    "4d07bec3-ace9-4d85-b81a-e8b1f0cc3f9d/astm-d217-21a"
)

_CHECKED = "agrees with GB 7324-1994, which gives its lithium greases the code L-XBCHA"
_WATER_CONFLICT = (
    "sources differ: published at 40 °C (fuchs.com), from memory at 90 °C; "
    "see the laboratory's own copy"
)


@dataclass(frozen=True)
class Meaning:
    """What one letter or number says, where that stands, and what to beware of."""

    says: str
    source: str
    standing: str = PUBLISHED
    note: str = ""


MINUS = "\u2212"


@dataclass(frozen=True)
class Heat:
    """The lower or the upper temperature of a letter, in °C; `is_beyond` where it lies further out."""

    degrees: int
    is_beyond: bool = False

    @property
    def is_cold(self) -> bool:
        return self.degrees <= 0

    def reach(self) -> tuple[int, bool]:
        """How far out it lies, to compare temperatures of one end."""
        return abs(self.degrees), self.is_beyond

    def lies_within(self, degrees: int) -> bool:
        """Whether a grease good to so many degrees is good to this temperature."""
        out = -degrees if self.is_cold else degrees
        return out > abs(self.degrees) if self.is_beyond else out >= abs(self.degrees)

    def agrees_with(self, other: "Heat") -> bool:
        """Whether both can be one temperature: above 180 agrees with 200, 120 with 120 alone."""
        if self.is_beyond == other.is_beyond:
            return self.is_beyond or self.degrees == other.degrees
        exact, beyond = (other, self) if self.is_beyond else (self, other)
        return beyond.lies_within(exact.degrees)

    def __str__(self) -> str:
        degrees = f"{self.degrees} °C".replace("-", MINUS)
        if not self.is_beyond:
            return degrees
        return f"{'below' if self.is_cold else 'above'} {degrees}"


def consistency(number: str) -> Meaning:
    """The consistency that a symbol's number stands for."""
    return Meaning(f"NLGI number {number}", _NLGI)


DIN_USES: Mapping[str, Meaning] = {
    "K": Meaning("for rolling and plain bearings and sliding surfaces", _DIN_USES),
    "G": Meaning("for closed gears", _DIN_USES),
    "OG": Meaning("for open gears", _DIN_USES),
    "M": Meaning("for plain bearings and seals, of lighter duty", _DIN_USES),
}

EP = "P"
DIN_ADDITIVES: Mapping[str, Meaning] = {
    EP: Meaning("additives against wear and for extreme pressure", _DIN_MARKING),
    "F": Meaning("a solid lubricant", _DIN_MARKING),
    "E": Meaning("ester oil", _DIN_MARKING),
    "FK": Meaning("fluorinated oil", _DIN_MARKING),
    "HC": Meaning("synthetic hydrocarbon oil", _DIN_MARKING),
    "PG": Meaning("polyglycol oil", _DIN_MARKING),
    "PH": Meaning("phosphate ester oil", _DIN_MARKING),
    "SI": Meaning("silicone oil", _DIN_MARKING),
    "X": Meaning("another oil", _DIN_MARKING),
}

DIN_UPPER: Mapping[str, Heat] = {
    "C": Heat(60),
    "D": Heat(60),
    "E": Heat(80),
    "F": Heat(80),
    "G": Heat(100),
    "H": Heat(100),
    "K": Heat(120),
    "M": Heat(120),
    "N": Heat(140),
    "P": Heat(160),
    "R": Heat(180),
    "S": Heat(200),
    "T": Heat(220),
    "U": Heat(220, is_beyond=True),
}
_UPPER_PUBLISHED = dict.fromkeys("CDEFGHK", _DIN_USES) | {"T": _DIN_WIKI}

# Of each pair the first resists water better (DIN 51807-1: 0 no change, 3 major change).
DIN_WATER: Mapping[str, Meaning] = {
    "C": Meaning("water rating 0-40 or 1-40", _DIN_USES),
    "D": Meaning("water rating 2-40 or 3-40", _DIN_USES),
    "E": Meaning("water rating 0-40 or 1-40", _DIN_USES),
    "F": Meaning("water rating 2-40 or 3-40", _DIN_USES),
    "G": Meaning("water rating 0-40 or 1-40", _DIN_USES, PUBLISHED, _WATER_CONFLICT),
    "H": Meaning("water rating 2-40 or 3-40", _DIN_USES, PUBLISHED, _WATER_CONFLICT),
    "K": Meaning("water rating 0-90 or 1-90", _DIN_OWN, FROM_MEMORY),
    "M": Meaning("water rating 2-90 or 3-90", _DIN_OWN, FROM_MEMORY),
    **{
        letter: Meaning("water resistance by agreement", _DIN_OWN, FROM_MEMORY)
        for letter in "NPRSTU"
    },
}
DIN_WATER_AT: Mapping[str, int] = dict.fromkeys("CDEFGH", 40) | dict.fromkeys("KM", 90)
DIN_LOWER: Mapping[str, Heat] = {
    str(degrees): Heat(degrees) for degrees in (-10, -20, -30, -40, -50, -60)
}

ISO_LOWER: Mapping[str, Heat] = {
    "A": Heat(0),
    "B": Heat(-20),
    "C": Heat(-30),
    "D": Heat(-40),
    "E": Heat(-40, is_beyond=True),
}
ISO_UPPER: Mapping[str, Heat] = {
    "A": Heat(60),
    "B": Heat(90),
    "C": Heat(120),
    "D": Heat(140),
    "E": Heat(160),
    "F": Heat(180),
    "G": Heat(180, is_beyond=True),
}
ISO_SURROUNDINGS: Mapping[str, str] = {
    "L": "dry surroundings",
    "M": "static damp",
    "H": "water washing",
}
ISO_RUST: Mapping[str, str] = {
    "L": "no protection against rust",
    "M": "protection against rust in fresh water",
    "H": "protection against rust in salt water",
}
# letter 3: surroundings and rust, of the two tables above
ISO_WATER: Mapping[str, tuple[str, str]] = {
    "A": ("L", "L"),
    "B": ("L", "M"),
    "C": ("L", "H"),
    "D": ("M", "L"),
    "E": ("M", "M"),
    "F": ("M", "H"),
    "G": ("H", "L"),
    "H": ("H", "M"),
    "I": ("H", "H"),
}
ISO_LOAD: Mapping[str, Meaning] = {
    "A": Meaning("no extreme pressure", _ISO_OWN, FROM_MEMORY, _CHECKED),
    "B": Meaning("extreme pressure", _ISO_OWN, FROM_MEMORY),
}


def din_upper(letter: str) -> Meaning:
    """The upper temperature of a letter of DIN 51502."""
    says = f"upper temperature {DIN_UPPER[letter]}"
    if letter in _UPPER_PUBLISHED:
        return Meaning(says, _UPPER_PUBLISHED[letter])
    return Meaning(says, _DIN_OWN, FROM_MEMORY)


def din_lower(number: str) -> Meaning:
    """The lower temperature of DIN 51502, whose number is the value itself."""
    return Meaning(f"lower temperature {DIN_LOWER[number]}", _DIN_OWN, FROM_MEMORY)


def iso_lower(letter: str) -> Meaning:
    """The first letter of ISO 6743-9."""
    return _iso_heat("lower", ISO_LOWER[letter], is_checked=letter == "B")


def iso_upper(letter: str) -> Meaning:
    """The second letter of ISO 6743-9."""
    return _iso_heat("upper", ISO_UPPER[letter], is_checked=letter == "C")


def iso_water(letter: str) -> Meaning:
    """The third letter of ISO 6743-9: surroundings, and protection against rust there."""
    surroundings, rust = ISO_WATER[letter]
    return Meaning(
        f"{ISO_SURROUNDINGS[surroundings]}, {ISO_RUST[rust]}",
        _ISO_OWN,
        FROM_MEMORY,
        _CHECKED if letter == "H" else "",
    )


def _iso_heat(end: str, heat: Heat, *, is_checked: bool) -> Meaning:
    says = f"{end} temperature {heat}"
    if is_checked:
        return Meaning(says, _GB)
    return Meaning(says, _ISO_OWN, FROM_MEMORY)
