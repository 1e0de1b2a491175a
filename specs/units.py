"""Units of the laboratory and exact conversion between them.

Factors: 1 psi = 6.894757 kPa as ASTM D942 rounds it; 1 bar = 100 kPa, 1 MPa = 1000 kPa
and 0 °C = 273.15 K by definition (the SI brochure); 1 kgf = 9.80665 N,
1 lbf = 4.4482216152605 N, 1 kgf/cm² (the technical atmosphere, at) = 98.0665 kPa and
1 P = 0.1 Pa·s exactly (NIST SP 811, appendix B); a degree Fahrenheit is 5/9 of a degree
Celsius and 32 °F is 0 °C. One penetration unit is 0.1 mm.
"""

import re
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from specs.numbers import Refused, shortened, to_decimal


class UnitRefused(Refused):
    """An unknown unit, or two units that measure different things."""


class Unit(NamedTuple):
    """What a unit measures: base value = number × factor + offset."""

    measures: str
    factor: Decimal | Fraction
    offset: Decimal | Fraction = Decimal(0)


UNITS = {
    "kPa": Unit("pressure", Decimal(1)),
    "psi": Unit("pressure", Decimal("6.894757")),
    "bar": Unit("pressure", Decimal(100)),
    "MPa": Unit("pressure", Decimal(1000)),
    "mbar": Unit("pressure", Decimal("0.1")),
    "hPa": Unit("pressure", Decimal("0.1")),
    "kgf/cm²": Unit("pressure", Decimal("98.0665")),
    "Pa": Unit("pressure", Decimal("0.001")),
    "N": Unit("force", Decimal(1)),
    "kgf": Unit("force", Decimal("9.80665")),
    "lbf": Unit("force", Decimal("4.4482216152605")),
    "°C": Unit("temperature", Decimal(1)),
    "K": Unit("temperature", Decimal(1), Decimal("-273.15")),
    "°F": Unit("temperature", Fraction(5, 9), Fraction(-160, 9)),
    "mg": Unit("mass", Decimal("0.001")),
    "g": Unit("mass", Decimal(1)),
    "kg": Unit("mass", Decimal(1000)),
    "mass %": Unit("mass fraction", Decimal(1)),
    "mm": Unit("length", Decimal(1)),
    "0.1 mm": Unit("length", Decimal("0.1")),
    "s": Unit("time", Decimal(1)),
    "min": Unit("time", Decimal(60)),
    "h": Unit("time", Decimal(3600)),
    "mm²/s": Unit("kinematic viscosity", Decimal(1)),
    "cSt": Unit("kinematic viscosity", Decimal(1)),
    "Pa·s": Unit("viscosity", Decimal(1)),
    "mPa·s": Unit("viscosity", Decimal("0.001")),
    "P": Unit("viscosity", Decimal("0.1")),
    "cP": Unit("viscosity", Decimal("0.001")),
}

# How else people write them; looked up in small letters.
ALSO = {
    "f": "°F", "degf": "°F", "fahrenheit": "°F", "℉": "°F",
    "c": "°C", "degc": "°C", "celsius": "°C", "℃": "°C",
    "kelvin": "K", "psig": "psi", "barg": "bar",
    "kp": "kgf", "at": "kgf/cm²",
    "kgf/cm2": "kgf/cm²", "kg/cm2": "kgf/cm²", "kg/cm²": "kgf/cm²",
    "kp/cm2": "kgf/cm²", "kp/cm²": "kgf/cm²",
    "mm2/s": "mm²/s", "pa.s": "Pa·s", "pas": "Pa·s",
    "0,1mm": "0.1 mm", "1/10mm": "0.1 mm", "mm/10": "0.1 mm",
}  # fmt: skip
_DEGREES = str.maketrans({"º": "°", "˚": "°"})
_WITH_UNIT = re.compile(
    r"(?P<sign>[<>]?) *(?P<number>[+-]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)) *"
    r"(?P<unit>[^0-9\s.,].*)"
)


def convert(value: Decimal, given: str, wanted: str) -> Decimal:
    """A value of the unit `given` in the unit `wanted`: exact, or 28 digits.

    Gauge pressures stay gauge pressures. Raises UnitRefused.
    """
    source, target = _unit(given), _unit(wanted)
    if source.measures != target.measures:
        raise UnitRefused(
            f"{given} measures {source.measures}, {wanted} measures {target.measures}: "
            "one cannot become the other."
        )
    base = Fraction(value) * Fraction(source.factor) + Fraction(source.offset)
    return to_decimal((base - Fraction(target.offset)) / Fraction(target.factor))


def unit_typed(text: str) -> tuple[str, Decimal, str] | None:
    """Sign, number and unit of a text such as "<77 °F"; None for any other text."""
    found = _WITH_UNIT.fullmatch(text.strip())
    if found is None:
        return None
    unit = named(found["unit"])
    number = Decimal(found["number"].replace(",", "."))
    return (found["sign"], number, unit) if unit else None


def named(text: str) -> str:
    """The unit that a text means, as it is kept here; empty for any other text."""
    plain = text.strip().translate(_DEGREES)
    if plain in UNITS:
        return plain
    small = plain.casefold().replace(" ", "").rstrip(".")
    if small in ALSO:
        return ALSO[small]
    alike = [name for name in UNITS if name.casefold().replace(" ", "") == small]
    # mPa is not MPa, nor is Mg mg: a prefix by its size of letter is never guessed.
    return alike[0] if len(alike) == 1 and plain[:1] == alike[0][:1] else ""


def offer(text: str, wanted: str) -> str:
    """What to say of a number typed with its unit where a box takes `wanted`.

    A sentence without its subject, which names the converted value and leaves it to
    the person to type it; empty where there is nothing to convert. Where the box's
    unit is not known, degrees Fahrenheit and pressures alone are told.
    """
    typed = unit_typed(text)
    if typed is None:
        return ""
    sign, number, unit = typed
    if not wanted:
        return _offer_to_any(sign, number, unit)
    if unit == wanted or wanted not in UNITS:
        return ""
    if UNITS[unit].measures != UNITS[wanted].measures:
        return ""
    value = _short(sign, convert(number, unit, wanted))
    return (
        f"is {_with_unit(value, wanted)}: this box takes {wanted}; "
        f"if that is what you read, type {value}."
    )


def _offer_to_any(sign: str, number: Decimal, unit: str) -> str:
    if unit == "°F":
        value = _short(sign, convert(number, unit, "°C"))
        return (
            f"is {value} °C: where a box takes °C, and that is what you read, "
            f"type {value}."
        )
    if UNITS[unit].measures != "pressure" or unit == "kPa":
        return ""
    value = _short(sign, convert(number, unit, "kPa"))
    return (
        f"is {value} kPa: write the number alone, without its unit, in the unit of the "
        f"gauge: {sign}{number:f} for one in {unit}, {value} for one in kPa."
    )


def _short(sign: str, value: Decimal) -> str:
    """At least four figures and two decimals, without idle noughts."""
    return sign + shortened(value, max(2, 3 - value.adjusted()))


def _with_unit(value: str, unit: str) -> str:
    return f"{value} × {unit}" if unit[0].isdigit() else f"{value} {unit}"


def _unit(name: str) -> Unit:
    try:
        return UNITS[name]
    except KeyError:
        raise UnitRefused(
            f"“{name}” is no unit kept here: use one of {', '.join(UNITS)}."
        ) from None
