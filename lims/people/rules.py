"""Rules and their twins: `check_…` raises the sentence, `can_…` answers yes or no, `why_not_…` gives the sentence."""

from collections.abc import Callable
from functools import wraps
from typing import ParamSpec

from lims.record.refusals import Refusal

Given = ParamSpec("Given")


def twin(check: Callable[Given, object]) -> Callable[Given, bool]:
    """A rule as a yes or no: the twin `can_release` of `check_release`."""

    @wraps(check)
    def can(*args: Given.args, **kwargs: Given.kwargs) -> bool:
        try:
            check(*args, **kwargs)
        except Refusal:
            return False
        return True

    return can


def refusal_of(check: Callable[Given, object]) -> Callable[Given, str]:
    """The rule's own sentence, for the tooltip of a button; empty when it allows."""

    @wraps(check)
    def why_not(*args: Given.args, **kwargs: Given.kwargs) -> str:
        try:
            check(*args, **kwargs)
        except Refusal as refusal:
            return refusal.sentence
        return ""

    return why_not
