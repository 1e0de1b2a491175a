"""The name of a procedure and the code that carries it out."""

from specs.methods.change import PENETRATION_CHANGE
from specs.methods.dropping_point import DROPPING_POINT_BATH, DROPPING_POINT_BLOCK
from specs.methods.emcor import EMCOR
from specs.methods.findings import FINDING, MAJORITY
from specs.methods.induction import INDUCTION_TIME
from specs.methods.ladder import LADDER_LOAD
from specs.methods.outcome import Procedure
from specs.methods.oxidation import OXIDATION
from specs.methods.penetration import CONE_PENETRATION
from specs.methods.ratings import APPEARANCE, COPPER_STRIP
from specs.methods.readings import MEAN_OF_READINGS, NUMBER_AS_READ
from specs.methods.rolling import ROLL_STABILITY
from specs.methods.separation import OIL_SEPARATION
from specs.methods.structure import (
    PERMANENT_SOFTENING,
    RETAINED_RECOVERY,
    STRUCTURE_RECOVERY,
)
from specs.methods.torque import LOW_TEMPERATURE_TORQUE
from specs.methods.viscosity import KINEMATIC_VISCOSITY, VISCOSITY_INDEX
from specs.methods.water_resistance import WATER_RESISTANCE
from specs.methods.weighing import LOSS_BY_WEIGHING, SHARE_BY_WEIGHING
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
        NUMBER_AS_READ,
        MEAN_OF_READINGS,
        LOSS_BY_WEIGHING,
        SHARE_BY_WEIGHING,
        LOW_TEMPERATURE_TORQUE,
        LADDER_LOAD,
        FINDING,
        MAJORITY,
        EMCOR,
        WATER_RESISTANCE,
        STRUCTURE_RECOVERY,
        PERMANENT_SOFTENING,
        RETAINED_RECOVERY,
        ROLL_STABILITY,
        INDUCTION_TIME,
        KINEMATIC_VISCOSITY,
        VISCOSITY_INDEX,
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
