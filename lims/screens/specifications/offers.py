"""What a decision rule may rest on, as it stands here: the laboratory's own uncertainty and the methods' reproducibility, each with its source. Offered, never taken unsaid."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from lims.methods.figures import Figure, What
from lims.methods.models import Characteristic, MethodEdition, OwnUncertainty
from lims.methods.queries import (
    FROM_MEMORY,
    asked_by_all,
    from_memory_unchecked,
    newest_at,
    own_uncertainties,
)
from lims.products.models import Requirement
from lims.screens.zone import zone
from lims.wording import dates
from lims.wording.numbers import shown
from specs.judging.precision import read_expression
from specs.judging.steps import rounded
from specs.numbers import Number, Refused, read

DIGITS = "4 digits"  # of an R that is reckoned from the level
OWN, METHOD = Requirement.Basis.OWN, Requirement.Basis.METHOD


@dataclass(frozen=True)
class Offer:
    """One value that a rule may rest on, and where it comes from."""

    basis: str
    value: str
    source: str

    @property
    def words(self) -> str:
        sign = "u" if self.basis == OWN else "R"
        return f"{sign} = {shown(self.value)}, {self.source}"


def offers(
    characteristic: Characteristic,
    editions: Sequence[MethodEdition],
    limits: Iterable[str] = (),
) -> list[Offer]:
    """What is offered at the limits of a line; without limits, whatever is stated at all."""
    if characteristic.kind != Characteristic.Kind.NUMBER:
        return []
    levels = [read(text).value for text in limits if text]
    stated = own_uncertainties([characteristic])[characteristic.pk]
    found = [_own(it) for it in _at_levels(stated, levels)]
    asked = asked_by_all([(it, characteristic) for it in editions])
    for edition in editions:
        figures = asked[edition.pk, characteristic.pk].figures
        found += _methods_own(edition, figures, levels)
    return list(dict.fromkeys(found))


def _at_levels(
    stated: Sequence[OwnUncertainty], levels: list[Decimal]
) -> Iterator[OwnUncertainty]:
    at: list[Decimal | None] = [*levels] or [None]
    held = {newest_at(stated, level) for level in at}
    return (it for it in stated if it in held)


def _own(row: OwnUncertainty) -> Offer:
    on = dates.day(row.stated_at, zone())
    reach = _between(row.level_from, row.level_to)
    return Offer(
        OWN,
        row.uncertainty,
        f"the laboratory's own{reach}, stated {on} by {row.stated_by.name}: {row.basis}",
    )


def _methods_own(
    edition: MethodEdition, figures: Iterable[Figure], levels: list[Decimal]
) -> Iterator[Offer]:
    stated = [it for it in figures if it.what == What.REPRODUCIBILITY]
    unchecked = from_memory_unchecked([it.told for it in stated], edition)
    for figure in stated:
        sure = figure.standing
        if sure == FROM_MEMORY:
            sure += ", not checked" if figure in unchecked else ", checked"
        reach = _between(figure.level_from, figure.level_to)
        for value in _values(figure, levels):
            yield Offer(METHOD, value, f"the R of {edition}{reach}, {sure}")


def _values(figure: Figure, levels: list[Decimal]) -> Iterator[str]:
    """The figure at each limit that it reaches; as it is written, where there is no limit yet."""
    if not levels:
        yield figure.value
    for level in levels:
        low = read(figure.level_from).value if figure.level_from else level
        high = read(figure.level_to).value if figure.level_to else level
        if low <= level <= high:
            try:
                value = read_expression(figure.value).at(level)
            except Refused:
                continue
            brief = rounded(value, DIGITS)
            yield Number.of(value if value == brief else brief).canonical


def _between(level_from: str, level_to: str) -> str:
    if not level_from and not level_to:
        return ""
    if level_from and level_to:
        return f" from {shown(level_from)} to {shown(level_to)}"
    return f" from {shown(level_from)}" if level_from else f" up to {shown(level_to)}"
