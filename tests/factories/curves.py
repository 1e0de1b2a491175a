"""Curves of pressure DSC runs in closed form, and a lot whose sample is asked for one."""

from lims.bench.actions.samples import add_test
from lims.bench.actions.traces import import_trace, judge_curve
from lims.bench.evaluation import held, picture_of
from lims.management.plant.runs import TAU, TIMES, logistic, run_of
from lims.methods import queries as methods
from lims.people.queries import person
from tests.factories import instruments, plant

__all__ = [
    "INDUCTION",
    "TAU",
    "TIMES",
    "ask_for_induction",
    "carry_out",
    "judge",
    "logistic",
    "run_of",
]

INDUCTION = "oxidation-induction-180"


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
