"""The decision rule of a requirement line: on what it rests, and whether it leaves anything to accept."""

from lims.methods.rules import read_number
from lims.products.models import Requirement
from lims.record.refusals import BadInput
from specs.judging.rules import (
    BY_THE_LIMITS,
    RULES,
    SIMPLE_ACCEPTANCE,
    RuleRefused,
    in_words,
    zone_of,
)
from specs.judging.zones import Zone

CONFIDENCES = ("0.90", "0.95", "0.99")
USUAL = "0.95"  # offered on the form, never taken unsaid
DECIDING = ("basis", "uncertainty", "confidence")


def check_rule(row: Requirement) -> None:
    """Refuse a rule that is none, that does not fit what is measured, or that accepts nothing."""
    if row.rule not in RULES:
        raise BadInput(
            f"Name the decision rule, one of {'; '.join(RULES)}: there is no default.",
            field="rule",
        )
    if row.rule != SIMPLE_ACCEPTANCE:
        _check_can_be_guarded(row)
    if not RULES[row.rule].needs_uncertainty:
        _check_rests_on_nothing(row)
        return
    _check_basis(row)
    _check_uncertainty(row)
    if row.confidence not in CONFIDENCES:
        raise BadInput(
            f"Name the confidence of {row.rule}, one of {', '.join(CONFIDENCES)}: "
            "there is no default.",
            field="confidence",
        )
    try:
        zone_by(row)
    except RuleRefused as refused:
        raise BadInput(refused.sentence, field="rule") from refused


def zone_by(row: Requirement) -> Zone:
    """Where the line's rule accepts values. Raises RuleRefused where it accepts none."""
    return zone_of(
        row.rule,
        row.lower or None,
        row.upper or None,
        uncertainty=row.uncertainty or None,
        basis=row.basis or None,
        confidence=row.confidence or None,
    )


def rule_in_words(row: Requirement) -> str:
    """The line's rule as one sentence, with its figures where it has any."""
    if row.kind != Requirement.Kind.LIMIT:
        return ""
    if row.rule == SIMPLE_ACCEPTANCE:
        return BY_THE_LIMITS
    return in_words(
        row.rule,
        row.lower or None,
        row.upper or None,
        uncertainty=row.uncertainty or None,
        basis=row.basis or None,
        confidence=row.confidence or None,
    )


def _check_can_be_guarded(row: Requirement) -> None:
    it = row.characteristic
    if it.kind != it.Kind.NUMBER:
        raise BadInput(
            f"“{it.in_full}” is a {WHAT[it.kind]}, which has no uncertainty to take "
            f"into account: choose {SIMPLE_ACCEPTANCE}.",
            field="rule",
        )


WHAT = {
    "ladder": "load of a ladder",
    "rating": "rating",
    "pass or fail": "finding, pass or fail",
    "words": "finding in words",
}


def _check_rests_on_nothing(row: Requirement) -> None:
    for field in DECIDING:
        if getattr(row, field):
            raise BadInput(
                f"By {row.rule} the uncertainty takes no part: leave this out, or "
                "choose another rule.",
                field=field,
            )


def _check_basis(row: Requirement) -> None:
    bases = RULES[row.rule].bases
    if row.basis not in bases:
        known = dict(Requirement.Basis.choices)
        raise BadInput(
            f"Say what {row.rule} rests on: {' or '.join(known[it] for it in bases)}.",
            field="basis",
        )


def _check_uncertainty(row: Requirement) -> None:
    sign = "u" if row.basis == Requirement.Basis.OWN else "R"
    if not row.uncertainty:
        raise BadInput(
            f"Enter {sign}, in the unit of the limits: {row.rule} rests on it.",
            field="uncertainty",
        )
    row.uncertainty = read_number(row.uncertainty, "uncertainty").canonical
    if read_number(row.uncertainty, "uncertainty").value <= 0:
        raise BadInput(
            f"{sign} = {row.uncertainty} is none: enter a number above nought.",
            field="uncertainty",
        )
