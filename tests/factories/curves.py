"""Curves of pressure DSC runs in closed form, and a lot whose sample is asked for one.

b0 + h / (1 + exp(-(t - tm) / tau)) has its extrapolated onset exactly at tm - 2 tau.
"""

import math

from lims.bench.actions.samples import add_test
from lims.bench.actions.traces import import_trace, judge_curve
from lims.bench.evaluation import held, picture_of
from lims.methods import queries as methods
from lims.people.queries import person
from tests.factories import instruments, plant

INDUCTION = "oxidation-induction-180"
TAU = 0.5
TIMES = {"admitted": "5", "baseline_from": "7", "baseline_to": "15"}


def logistic(middle, *, tau=TAU, end=60, step=0.05, slope=0.0, height=5.0):
    """The text of a curve whose onset lies at `middle` - 2 tau minutes."""
    lines = ["min,mW"]
    for place in range(round(end / step) + 1):
        at = place * step
        signal = 0.1 + slope * at + height / (1 + math.exp(-(at - middle) / tau))
        lines.append(f"{at:.2f},{signal:.8f}")
    return "\n".join(lines).encode()


def run_of(minutes, **more):
    """The curve of a run that gives so many minutes after oxygen was admitted at 5 min."""
    return logistic(5 + minutes + 2 * TAU, **more)


def ask_for_induction(number="0417"):
    """DSC-1 in service, and the test on the sample of a lot."""
    instruments.in_service(by=person("mgr-1"), number="DSC-1", kind="pressure DSC")
    return add_test(
        sample=plant.sample(number),
        characteristic=methods.characteristic(INDUCTION),
        edition=methods.edition("ASTM D5483", "02"),
        by=person("tech-a"),
    )


def judge(determination, answer="accepted", *, by, reason=""):
    """Say of the curve as it is drawn now whether it stands."""
    seen = picture_of(determination.test.characteristic, held(determination))
    return judge_curve(
        determination=determination, answer=answer, seen=seen, reason=reason, by=by
    )


def carry_out(test, content, *, by, name="run.csv", answer="accepted"):
    """A whole run: its curve, instrument, temperature and times, and what is said of it."""
    from lims.bench.actions.entering import record_condition

    it = import_trace(test=test, name=name, content=content, by=by)
    texts = {"calorimeter": "DSC-1", "temperature": "180", **TIMES}
    for key, text in texts.items():
        it = record_condition(test=it.test, key=key, text=text, determination=it, by=by)
    return judge(it, answer, by=by)
