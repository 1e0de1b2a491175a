"""What the value of a figure may be: a count, a number, one of its words, or an expression in the level."""

import re
from collections.abc import Callable, Mapping

from lims.methods.figures import WORDS, Figure, What
from lims.methods.rules import read_number
from lims.record.refusals import BadInput
from specs.judging.precision import read_expression
from specs.judging.steps import check_step
from specs.numbers import Refused

WHOLE = re.compile(r"[1-9][0-9]?")
NUMBERS = (What.PLAUSIBLE_FROM, What.PLAUSIBLE_TO)


def check_value(figure: Figure) -> None:
    """Refuse a value that its kind of figure cannot say."""
    if figure.is_precision:
        _check_expression(figure)
    elif figure.what in WORDS:
        if figure.value not in WORDS[figure.what]:
            raise BadInput(
                f"“{figure.value}” is no {figure.what}: choose one of "
                f"{listed(figure.what)}.",
                field="value",
            )
    else:
        _VALUES[figure.what](figure)


def listed(what: str) -> str:
    """The words that such a figure may say."""
    return "; ".join(WORDS[what])


def _check_count(figure: Figure) -> None:
    if not WHOLE.fullmatch(figure.value):
        raise BadInput(
            f"“{figure.value}” is no number of determinations: write a whole number "
            "from 1 to 99.",
            field="value",
        )


def _check_step(figure: Figure) -> None:
    _refused_by(check_step, figure)


def _check_number(figure: Figure) -> None:
    read_number(figure.value, "value")


_VALUES: Mapping[str, Callable[[Figure], None]] = {
    What.DETERMINATIONS: _check_count,
    What.STEP: _check_step,
    What.PLAUSIBLE_FROM: _check_number,
    What.PLAUSIBLE_TO: _check_number,
}


def _check_expression(figure: Figure) -> None:
    _refused_by(read_expression, figure)


def _refused_by(read: Callable[[str], object], figure: Figure) -> None:
    """Let the arithmetic read the value; its refusal stands beside the box."""
    try:
        read(figure.value)
    except Refused as refused:
        raise BadInput(refused.sentence, field="value") from refused
