"""The calculations that known-answer cases may name, each with its keys and source."""

from collections.abc import Mapping

from specs.calculations.basics import BASICS
from specs.calculations.given import Calculation
from specs.calculations.judging import JUDGING
from specs.calculations.methods import METHODS
from specs.calculations.precision import PRECISION
from specs.calculations.statistics import STATISTICS

__all__ = ["CALCULATIONS", "Calculation"]

CALCULATIONS: Mapping[str, Calculation] = {
    **JUDGING,
    **BASICS,
    **PRECISION,
    **STATISTICS,
    **METHODS,
}
