"""The four verdicts and which of several stands."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Verdict(StrEnum):
    """One result against one requirement."""

    MET = "met"
    NOT_MET = "not met"
    NOT_TESTED = "not tested"
    NOT_EVALUATED = "not evaluated"


WORST_FIRST = (
    Verdict.NOT_MET,
    Verdict.NOT_EVALUATED,
    Verdict.NOT_TESTED,
    Verdict.MET,
)


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The verdict that stands for all; of none at all, *not evaluated*."""
    return min(verdicts, key=WORST_FIRST.index, default=Verdict.NOT_EVALUATED)


@dataclass(frozen=True)
class Judgement:
    """A verdict with what was compared and with which limit, each as text.

    `compared` is None when nothing could be compared; `why` then says so.
    """

    verdict: Verdict
    compared: str | None = None
    limit: str | None = None
    why: str = ""
