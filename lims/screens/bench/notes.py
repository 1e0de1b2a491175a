"""What is added to a reported value: what to tell the kettle operator, and the NLGI number."""

from decimal import Decimal

from lims.bench.models import ReportedValue, Test
from lims.methods.queries import WORKED_PENETRATION
from lims.products.models import Requirement
from lims.wording.numbers import with_unit
from specs.judging.grades import nlgi
from specs.judging.verdicts import Verdict
from specs.numbers import Number, shortened


def of(
    test: Test, line: Requirement | None, value: ReportedValue, verdict: str
) -> tuple[str, ...]:
    """The notes beside a value, the most urgent first."""
    if test.characteristic.code != WORKED_PENETRATION:
        return ()
    told = _to_the_kettle(line, value) if verdict == Verdict.NOT_MET else ""
    is_kettle = test.sample.is_in_process
    return (*([told] if told and is_kettle else []), _grade(value))


def _to_the_kettle(line: Requirement | None, value: ReportedValue) -> str:
    """How far the grease is beyond the kettle's limits: as reported, or exactly where rounding hides it."""
    if line is None:
        return ""
    for text in (value.reported, value.value):
        figure = Number.stored(text).value
        for side, bound, over in (
            ("too soft", line.upper, 1),
            ("too firm", line.lower, -1),
        ):
            by = (figure - Decimal(bound)) * over if bound else Decimal(0)
            if by > 0:
                beyond = with_unit(shortened(by), line.characteristic.unit)
                return f"Tell the kettle operator: {side} by {beyond}."
    return ""


def _grade(value: ReportedValue) -> str:
    grade = nlgi(Decimal(value.reported))
    if grade.grade is not None:
        return f"NLGI number {grade.grade}."
    if grade.between is not None:
        softer, firmer = grade.between
        return f"Belongs to no NLGI number: between {softer} and {firmer}."
    return "Belongs to no NLGI number."
