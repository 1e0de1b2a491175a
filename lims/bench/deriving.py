"""What a test comes to that is computed from others: by its procedure, held against the repeatability that the method states for the prolonged working. Nothing is written here."""

from collections.abc import Mapping
from dataclasses import dataclass

from lims.bench.evaluation import procedure_of
from lims.bench.models import ReportedValue, Test
from lims.bench.results import exact_of, limit_at
from lims.methods.asked import Asked
from lims.methods.figures import Figure, What
from lims.methods.queries import asked_by
from specs.methods.change import PROLONGED
from specs.methods.outcome import REPEATABILITY, Outcome
from specs.numbers import Number

Stated = tuple[
    Asked, Figure, str
]  # an edition, its repeatability, and that at the level


@dataclass(frozen=True)
class Derived:
    """The outcome, and the figure of a method that decided it, where one did."""

    outcome: Outcome
    asked: Asked | None = None
    figures: tuple[Figure, ...] = ()

    @property
    def is_value(self) -> bool:
        return (
            self.outcome.can_count
            and self.outcome.value is not None
            and self.outcome.reported is not None
        )

    @property
    def why_not(self) -> str:
        """Why it cannot count and what to do, in words."""
        bars = [f"{bar.sentence} {bar.advice}" for bar in self.outcome.bars]
        return next(iter([*bars, *self.outcome.asks]), "")


def derived(
    test: Test, sources: Mapping[str, Test], values: Mapping[str, ReportedValue]
) -> Derived | None:
    """What the unrounded values of the roles come to; None for a procedure that computes nothing."""
    characteristic = test.characteristic
    procedure = procedure_of(characteristic)
    if procedure.derive is None:
        return None
    numbers = {role: Number.stored(row.value) for role, row in values.items()}
    parameters, stated = characteristic.parameters, None
    if REPEATABILITY in {it.key for it in procedure.parameters}:
        stated = _stated(sources[PROLONGED], values[PROLONGED])
    if stated is None:
        return Derived(procedure.derive(numbers, parameters))
    asked, figure, r = stated
    outcome = procedure.derive(numbers, {**parameters, REPEATABILITY: r})
    return Derived(outcome, asked, (figure,))


def _stated(source: Test, value: ReportedValue) -> Stated | None:
    """The repeatability of the edition that the source was measured by, at its level; without one the characteristic's own setting stands."""
    level = exact_of(value.value)
    if level is None:
        return None
    asked = asked_by(source.edition, source.characteristic)
    found = limit_at(asked, What.REPEATABILITY, level)
    return None if found is None else (asked, found[0], f"{found[1]:f}")
