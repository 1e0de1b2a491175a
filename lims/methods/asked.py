"""What an edition asks of a characteristic and how well it measures it: the figures in force, by their names."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from lims.methods.figures import MEAN, SECOND_FILL, Figure, What
from lims.methods.models import Characteristic, MethodEdition
from specs.judging.constants import EXACT, PRINTED
from specs.judging.repeats import ISO_5725_6


@dataclass(frozen=True)
class Asked:
    """The figures of one edition for one characteristic; what they leave out is not stated.

    Without an edition, or without a revision in force, there is no figure at all.
    """

    edition: MethodEdition | None
    characteristic: Characteristic
    figures: tuple[Figure, ...]

    def figure(self, what: What) -> Figure | None:
        """The figure that says this, whatever the level."""
        return next((it for it in self.figures if it.what == what), None)

    def _said(self, what: What) -> str:
        found = self.figure(what)
        return found.value if found else ""

    @property
    def determinations(self) -> int:
        """How many determinations make a result: one, where nothing else is stated."""
        return int(self._said(What.DETERMINATIONS) or 1)

    @property
    def combining(self) -> str:
        """How they combine. Numbers are averaged where nothing else is stated; for a mark, a finding or a load nothing is taken for granted."""
        is_number = self.characteristic.kind == Characteristic.Kind.NUMBER
        return self._said(What.COMBINING) or (MEAN if is_number else "")

    @property
    def step(self) -> str:
        return self._said(What.STEP)

    @property
    def better(self) -> str:
        return self._said(What.BETTER)

    @property
    def plausible(self) -> tuple[str, str] | None:
        bounds = self._said(What.PLAUSIBLE_FROM), self._said(What.PLAUSIBLE_TO)
        return bounds if all(bounds) else None

    @property
    def school(self) -> str:
        return self._said(What.SCHOOL)

    @property
    def route(self) -> str:
        return self._said(What.ROUTE)

    @property
    def constants(self) -> str:
        """Which constants the repeat rule works with; ISO 5725-6 prints its own."""
        own = PRINTED if self.school == ISO_5725_6 else EXACT
        return self._said(What.CONSTANTS) or own

    @property
    def confirms(self) -> bool:
        """Whether a rejected set asks for a second fill."""
        return self._said(What.CONFIRM) == SECOND_FILL

    def precision(self, what: What, level: Decimal | Fraction) -> Figure | None:
        """The figure stated at a level, or None where none is: it is never taken to be nought."""
        return next(self._reaching(what, Fraction(level)), None)

    def _reaching(self, what: What, level: Fraction) -> Iterator[Figure]:
        for it in self.figures:
            if it.what == what and reaches(it.level_from, it.level_to, level):
                yield it


def reaches(level_from: str, level_to: str, level: Decimal | Fraction) -> bool:
    """Whether a range holds a level; its ends belong to it, and an end that is left out lies nowhere."""
    above = not level_from or Fraction(level_from) <= Fraction(level)
    return above and (not level_to or Fraction(level) <= Fraction(level_to))
