"""The name of a procedure and the code that carries it out."""

from specs.methods.change import PENETRATION_CHANGE
from specs.methods.dropping_point import DROPPING_POINT_BATH, DROPPING_POINT_BLOCK
from specs.methods.outcome import Procedure
from specs.methods.oxidation import OXIDATION
from specs.methods.penetration import CONE_PENETRATION
from specs.methods.ratings import APPEARANCE, COPPER_STRIP
from specs.methods.separation import OIL_SEPARATION
from specs.numbers import Refused


class ProcedureRefused(Refused):
    """A procedure that the catalogue does not hold."""


PROCEDURES = {
    each.name: each
    for each in (
        CONE_PENETRATION,
        PENETRATION_CHANGE,
        DROPPING_POINT_BLOCK,
        DROPPING_POINT_BATH,
        OXIDATION,
        OIL_SEPARATION,
        COPPER_STRIP,
        APPEARANCE,
    )
}


def procedure(name: str) -> Procedure:
    """The procedure of that name. Raises ProcedureRefused when there is none."""
    try:
        return PROCEDURES[name]
    except KeyError:
        raise ProcedureRefused(
            f"“{name}” is no procedure: name one of {', '.join(PROCEDURES)}."
        ) from None
