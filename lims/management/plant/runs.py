"""Curves of pressure DSC runs in closed form, as the instrument of the invented plant would write them.

b0 + slope t + h / (1 + exp(-(t - tm) / tau)) has its extrapolated onset at tm - 2 tau.
"""

import math

TAU = 0.5  # minutes
TIMES = {"admitted": "5", "baseline_from": "7", "baseline_to": "15"}


def logistic(
    middle: float,
    *,
    tau: float = TAU,
    end: float = 60,
    step: float = 0.05,
    slope: float = 0.0,
    height: float = 5.0,
) -> bytes:
    """The text of a curve whose onset lies at `middle` - 2 tau minutes."""
    lines = ["min,mW"]
    for place in range(round(end / step) + 1):
        at = place * step
        signal = 0.1 + slope * at + height / (1 + math.exp(-(at - middle) / tau))
        lines.append(f"{at:.2f},{signal:.8f}")
    return "\n".join(lines).encode()


def run_of(minutes: float, **more: float) -> bytes:
    """The curve of a run that gives so many minutes after oxygen was admitted."""
    onset = float(TIMES["admitted"]) + minutes
    return logistic(onset + 2 * TAU, **more)
