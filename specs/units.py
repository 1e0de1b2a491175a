"""Units of the laboratory and exact conversion between them.

Factors: 1 psi = 6.894757 kPa as ASTM D942 rounds it; 1 bar = 100 kPa, 1 MPa = 1000 kPa
and 0 °C = 273.15 K by definition (the SI brochure). One penetration unit is 0.1 mm.
"""

from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from specs.numbers import Refused, to_decimal


class UnitRefused(Refused):
    """An unknown unit, or two units that measure different things."""


class Unit(NamedTuple):
    """What a unit measures: base value = number × factor + offset."""

    measures: str
    factor: Decimal
    offset: Decimal = Decimal(0)


UNITS = {
    "kPa": Unit("pressure", Decimal(1)),
    "psi": Unit("pressure", Decimal("6.894757")),
    "bar": Unit("pressure", Decimal(100)),
    "MPa": Unit("pressure", Decimal(1000)),
    "°C": Unit("temperature", Decimal(1)),
    "K": Unit("temperature", Decimal(1), Decimal("-273.15")),
    "mg": Unit("mass", Decimal("0.001")),
    "g": Unit("mass", Decimal(1)),
    "kg": Unit("mass", Decimal(1000)),
    "mass %": Unit("mass fraction", Decimal(1)),
    "mm": Unit("length", Decimal(1)),
    "0.1 mm": Unit("length", Decimal("0.1")),
    "s": Unit("time", Decimal(1)),
    "min": Unit("time", Decimal(60)),
    "h": Unit("time", Decimal(3600)),
}


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


def _unit(name: str) -> Unit:
    try:
        return UNITS[name]
    except KeyError:
        raise UnitRefused(
            f"“{name}” is no unit kept here: use one of {', '.join(UNITS)}."
        ) from None
