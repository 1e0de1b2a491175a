"""Units as heads of columns state them: in brackets, behind a comma or a stroke, or in a row of their own."""

import re
import unicodedata
from collections.abc import Iterator

from specs.units import ALSO, UNITS

# How else units are written in heads; looked up without blanks, in small letters.
WRITTEN = {
    "0.1mm": "0.1 mm", "0,1mm": "0.1 mm", "1/10mm": "0.1 mm", "mm/10": "0.1 mm",
    "dmm": "0.1 mm", "zehntelmm": "0.1 mm", "10^-1mm": "0.1 mm", "×0.1mm": "0.1 mm", "x0.1mm": "0.1 mm",
    "%": "%", "percent": "%", "prozent": "%", "pct": "%",
    "mass%": "mass %", "wt%": "mass %", "%wt": "mass %", "w%": "mass %", "%m/m": "mass %",
    "m%": "mass %", "%(m/m)": "mass %", "%w/w": "mass %", "gew.-%": "mass %", "gew%": "mass %",
    "gew.%": "mass %", "masse-%": "mass %", "ma.-%": "mass %", "ma%": "mass %", "m.-%": "mass %",
    "volume%": "volume %", "vol%": "volume %", "vol.%": "volume %", "vol.-%": "volume %", "%v/v": "volume %",
    "mg/kg": "mg/kg", "ppm": "mg/kg", "mnm": "mN·m", "mn·m": "mN·m", "mn.m": "mN·m",
    "nm": "N·m", "n·m": "N·m", "pas": "Pa·s", "pa·s": "Pa·s", "pa.s": "Pa·s", "mpas": "mPa·s", "mpa·s": "mPa·s",
    "mm2/s": "mm²/s", "mm^2/s": "mm²/s", "cst": "cSt", "hpa": "hPa", "grdc": "°C", "grad": "°C",
    "kgf/cm2": "kgf/cm²", "kp/cm2": "kgf/cm²", "kg/cm2": "kgf/cm²", "at": "at", "shorea": "Shore A",
    "psi": "psi", "kpa": "kPa", "bar": "bar",
    "std": "h", "stunden": "h", "hours": "h", "hrs": "h", "minuten": "min", "minutes": "min", "sec": "s", "sek": "s",
}  # fmt: skip
_CASED = {
    "mPas": "mPa·s",
    "mPa·s": "mPa·s",
    "MPa": "MPa",
    "mPa": "",
    "Nm": "N·m",
    "nm": "",
    "mNm": "mN·m",
}
_DEGREE = {"C": "°C", "F": "°F", "K": "K"}  # by its letter, in brackets alone
LONGEST = 300
_DEGREES = str.maketrans({"º": "°", "˚": "°", "∘": "°"})
_BRACKETS = re.compile(r"[(\[{]([^()\[\]{}]{1,20}(?:\([^()]*\))?)[)\]}]")
_BEHIND = re.compile(r"(?:,|;|/|\bin\b)\s*([^,;()\[\]]{1,12})$")
_SHARE = re.compile(r"(% ?\([^()]{1,6}\))$")
_TENTHS = re.compile(r"(?:^|[\s,;/])((?:0[.,]1|1/10) ?mm)$", re.IGNORECASE)
_NUMBER = re.compile(r"[-−+~]?[0-9.,]+")


def unit_of(text: str) -> str:
    """The unit that a text names, as `specs.units` and the characteristics write it ("kPa", "0.1 mm", "mass %"); empty for any other text."""
    plain = _bare(unicodedata.normalize("NFC", text).translate(_DEGREES))
    if not plain or len(plain) > 20:
        return ""
    if plain in UNITS or plain in _CASED:
        return _CASED.get(plain, plain)
    small = "".join(plain.casefold().split())
    if small in WRITTEN:
        return WRITTEN[small]
    if small in ALSO and len(small) > 1:
        return ALSO[small]
    alike = [name for name in UNITS if name.casefold().replace(" ", "") == small]
    return alike[0] if len(alike) == 1 and plain[0] == alike[0][0] else ""


def unit_in(heading: str) -> str:
    """The unit that a head states beside its words: "(kPa)", "[°C]", ", 0,1 mm"; empty where it states none.

    Conditions such as "100 h" or "(100 °C)" are no unit of the numbers below.
    """
    words = " ".join(heading[:LONGEST].split())
    for found in _candidates(words):
        unit = unit_of(found)
        if unit:
            return unit
    return ""


def _candidates(words: str) -> Iterator[str]:
    """The parts of a heading that may be its unit, the surest first."""
    share = _SHARE.search(words)
    if share:
        yield share[1]
    for found in _BRACKETS.finditer(words):
        yield _DEGREE.get(found[1].strip(), found[1])
    tenths = _TENTHS.search(words)
    if tenths:
        yield tenths[1]
    *before, last = words.split() or [""]
    # Behind a number it is a condition: 100 h; one letter alone may be anything.
    if before and not _NUMBER.fullmatch(before[-1]) and (len(last) > 1 or last == "%"):
        yield last
    behind = _BEHIND.search(words)
    if behind:
        yield behind[1]


def _bare(text: str) -> str:
    """A text without blanks and brackets around it."""
    plain = text.strip()
    inner = plain[1:-1]
    is_within = plain[:1] + plain[-1:] in {"[]", "()", "{}"}
    return inner.strip() if is_within and not set(inner) & set("[](){}") else plain
