"""What the pages of trends say: where values come from, and figures that are short enough to read."""

from collections.abc import Sequence
from decimal import ROUND_HALF_EVEN, Decimal

from lims.methods.models import Characteristic
from lims.trends.asked import Source
from lims.wording.limits import limits
from lims.wording.numbers import counts, shown
from specs.judging.steps import step_at

SERIES = {
    Source.RELEASED: "released fill lots",
    Source.NOT_RELEASED: "fill lots not released",
    Source.FIRST_VALUE: "first values of the batches",
    Source.HISTORY: "unverified history",
}
NOT_DETERMINED = "not determined"
NONE = "none"


def number_of(count: int, thing: str, things: str = "") -> str:
    """``1 value``, ``4 120 values``."""
    return f"{counts(count)} {thing if count == 1 else things or f'{thing}s'}"


def figure(
    value: Decimal | None,
    characteristic: Characteristic,
    *,
    more: int = 1,
    signed: bool = False,
) -> str:
    """A computed figure to one place more than a result of its size, or to as many as asked."""
    if value is None:
        return ""
    exponent = step_at(value, characteristic.step).as_tuple().exponent
    places = max(0, -exponent) if isinstance(exponent, int) else 0
    last = Decimal(1).scaleb(-(places + more))
    return shown(value.quantize(last, ROUND_HALF_EVEN), signed=signed)


def result(text: str, characteristic: Characteristic) -> str:
    """A canonical result as people read it: with its sign where it is a change."""
    return shown(text, signed=characteristic.is_signed)


def listed(words: Sequence[str]) -> str:
    """``a, b and c``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def must(lower: str, upper: str, wanted: str, characteristic: Characteristic) -> str:
    """What a revision asks, such as ``265 to 295 × 0.1 mm``."""
    if wanted:
        return wanted
    if characteristic.kind == Characteristic.Kind.RATING:
        return f"{upper} or better"
    return limits(
        lower or None,
        upper or None,
        characteristic.unit,
        signed=characteristic.is_signed,
    )
