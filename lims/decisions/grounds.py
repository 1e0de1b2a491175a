"""What stands behind the verdict of a line: how likely the true value lies inside the limits, and the figures from memory that decided something. At most four queries, however many lines."""

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from lims.decisions.memory import from_memory
from lims.decisions.verdicts import Line
from lims.methods.models import Characteristic, OwnUncertainty
from lims.methods.queries import newest_at, own_uncertainties
from lims.products.models import Requirement
from specs.judging.zones import probability_of_conformity
from specs.numbers import Number, Refused

SURE, UNSURE = Decimal("0.9999"), Decimal("0.0001")


@dataclass(frozen=True)
class Chance:
    """The probability that the true value lies inside the limits, by the laboratory's own uncertainty."""

    probability: str  # 0.918, >0.9999
    uncertainty: str

    def __str__(self) -> str:
        return (
            f"probability {self.probability} that the true value is inside the limits, "
            f"by this laboratory's own uncertainty (u {self.uncertainty})"
        )


@dataclass(frozen=True)
class Ground:
    """What stands behind one line."""

    chance: Chance | None = None
    from_memory: tuple[str, ...] = ()  # a sentence for each figure nobody has checked


NOTHING = Ground()
Grounds = Mapping[int, Ground]  # by requirement


def grounds_of(
    lines: Iterable[Line], *, stated_until: dt.datetime | None = None
) -> Grounds:
    """The ground of each line. For what was signed only what the laboratory had stated until then counts."""
    lines = list(lines)
    own = own_uncertainties(
        line.requirement.characteristic for line in lines if _has_chance(line)
    )
    recalled = from_memory(lines)
    return {
        line.requirement.pk: Ground(
            _chance(line, own, stated_until), recalled[line.requirement.pk]
        )
        for line in lines
    }


def _has_chance(line: Line) -> bool:
    return (
        line.result is not None
        and line.requirement.kind == Requirement.Kind.LIMIT
        and line.requirement.characteristic.kind == Characteristic.Kind.NUMBER
    )


def _chance(
    line: Line,
    own: Mapping[int, Sequence[OwnUncertainty]],
    stated_until: dt.datetime | None,
) -> Chance | None:
    if line.result is None or not _has_chance(line):
        return None
    stated = [
        it
        for it in own[line.requirement.characteristic_id]
        if stated_until is None or it.stated_at <= stated_until
    ]
    value = Number.stored(line.result.value)
    holds = newest_at(stated, value.value)
    if holds is None or value.is_censored:
        return None
    requirement = line.requirement
    try:
        probability = probability_of_conformity(
            value,
            holds.uncertainty,
            requirement.lower or None,
            requirement.upper or None,
        )
    except Refused:
        return None
    return Chance(probability_shown(probability), holds.uncertainty)


def probability_shown(probability: Decimal) -> str:
    """Three decimals; a fourth where they would read as certainty, and no certainty."""
    if probability > SURE:
        return f">{SURE}"
    if probability < UNSURE:
        return f"<{UNSURE}"
    short = f"{probability:.3f}"
    return f"{probability:.4f}" if short in ("1.000", "0.000") else short
