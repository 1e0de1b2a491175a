"""Decision rules by name: how a result and its limits become a verdict."""

from collections.abc import Mapping
from typing import Protocol

from specs.judging.conformity import judge
from specs.judging.verdicts import Judgement
from specs.numbers import Number, Refused

SIMPLE_ACCEPTANCE = "simple acceptance"


class DecisionRule(Protocol):
    """A rule decides on an unrounded value; uncertainty enters by its own settings."""

    def __call__(
        self,
        value: Number,
        lower: str | None,
        upper: str | None,
        procedure: str | None,
        *,
        tie: str = "even",
        step: str | None = None,
    ) -> Judgement: ...


class RuleRefused(Refused):
    """A decision rule that is not kept."""


RULES: Mapping[str, DecisionRule] = {SIMPLE_ACCEPTANCE: judge}


def rule(name: str) -> DecisionRule:
    """The decision rule of that name. Raises RuleRefused when there is none."""
    try:
        return RULES[name]
    except KeyError:
        raise RuleRefused(
            f"“{name}” is no decision rule: name one of {', '.join(RULES)}."
        ) from None
