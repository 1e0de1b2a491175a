"""Runs within one determination, held against what they may differ by."""

from collections.abc import Mapping, Sequence

from specs.methods.outcome import number_in
from specs.numbers import Number, shortened


def too_far_apart(
    runs: Sequence[Number], unit: str, limits: Mapping[str, str]
) -> tuple[str, ...]:
    """What to do when runs differ by more than a limit: one sentence, or none.

    `limits` holds each limit by its name, such as "the house limit of"; an empty one
    does not exist. Bounds are never compared.
    """
    if any(run.is_censored for run in runs):
        return ()
    values = [run.exact for run in runs]
    spread = max(values) - min(values)
    return tuple(
        f"Make two fresh runs: these differ by {shortened(spread)} {unit}, more than "
        f"{name} {shortened(limit, 4)}."
        for name, text in limits.items()
        if text and spread > (limit := number_in(text).value)
    )[:1]
