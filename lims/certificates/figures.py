"""Figures with their sign: a rise is written +22, a fall -22 on the data of a paper and −22 in a sentence."""

from lims.methods.models import Characteristic
from lims.products.models import Requirement
from specs.numbers import read

MINUS = "\u2212"


def signed_text(number: str, characteristic: Characteristic) -> str:
    """A rise with its sign: +22; a fall bears its own."""
    is_rise = characteristic.is_signed and number[:1].isdigit()
    return f"+{number}" if is_rise and read(number).value else number


def in_sentence(number: str, characteristic: Characteristic) -> str:
    """The same as a reader sees it, with a true minus."""
    text = signed_text(number, characteristic)
    return f"{MINUS}{text[1:]}" if text.startswith("-") else text


def limits_in_sentence(requirement: Requirement) -> str:
    """``−20 to +20 × 0.1 mm``; a demand in words as it was written."""
    if requirement.must:
        return requirement.must
    it = requirement.characteristic
    lower, upper = (in_sentence(x, it) for x in (requirement.lower, requirement.upper))
    if lower and upper:
        words = f"{lower} to {upper}"
    elif upper:
        words = f"at most {upper}"
    elif lower:
        words = f"at least {lower}"
    else:
        return "no limit"
    factor = "× " if it.unit[:1].isdigit() else ""  # 0.1 mm must not read as a value
    return f"{words} {factor}{it.unit}".strip()
