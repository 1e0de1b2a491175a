"""Numbers of a sheet in the unit of their characteristic, with the sentence that shows how."""

from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import round_to_step
from specs.judging.steps import StepRefused, step_at
from specs.numbers import Number
from specs.tables.known import Measured
from specs.units import UNITS, convert

# Units that differ by a prefix: converting only moves the decimal mark, so nothing is rounded.
_ALIKE = (
    {"mm", "0.1 mm"}, {"mg", "g", "kg"}, {"kPa", "MPa", "Pa", "hPa"}, {"bar", "mbar"},
    {"Pa·s", "mPa·s"}, {"P", "cP"}, {"mm²/s", "cSt"},
)  # fmt: skip


def same_measure(one: str, other: str) -> bool:
    """Whether two units are known and one can become the other."""
    if one not in UNITS or other not in UNITS:
        return False
    return UNITS[one].measures == UNITS[other].measures


def converted(number: Number, given: str, measured: Measured) -> Number:
    """A number of the unit `given` in that of the characteristic, its sign kept.

    Units apart by a prefix are converted exactly, all others rounded to a tenth of the
    step that is reported. Raises specs.units.UnitRefused for units that do not fit.
    """
    value = convert(number.value, given, measured.unit)
    if any(given in some and measured.unit in some for some in _ALIKE):
        return Number.of(value, number.sign)
    return Number.of(round_to_step(value, _tenth(value, measured.step)), number.sign)


def shown(number: Number, given: str, result: Number, unit: str) -> str:
    """How a number was converted: 5.5 psi = 37.9 kPa."""
    return f"{with_unit(number, given)} = {with_unit(result, unit)}"


def with_unit(number: Number | str, unit: str) -> str:
    """A number before its unit: 279 × 0.1 mm, 37.9 kPa, 281."""
    times = " ×" if unit[:1].isdigit() else ""
    return f"{number}{times} {unit}".strip()


def _tenth(value: Decimal, step: str) -> Decimal:
    try:
        at = step_at(value, step)
    except StepRefused:
        at = Decimal(1)
    return at / 10 if Fraction(at) else Decimal("0.1")
