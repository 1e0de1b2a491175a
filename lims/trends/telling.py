"""What a chart says beside its points: how values are written, and what has to be known to read it."""

from collections.abc import Sequence
from dataclasses import dataclass

from lims.methods.models import Characteristic
from lims.trends.limits import Held
from lims.trends.own import Found

MINUS = "\u2212"
CENSORED = (
    "{} known only as a bound: drawn there with an arrow, counted, never averaged."
)
WORDS = "{} words without a mark: in the table, not on the chart."
BEFORE = (
    "{} older than revision {}, the first that is kept here: compared with its limits."
)
LATER = "{} of later samples of the same batches: not on this chart, which shows what was found first."


@dataclass(frozen=True)
class Counted:
    """How many values of a chart need a word of explanation."""

    censored: int = 0
    words: int = 0
    before: int = 0

    @classmethod
    def of(cls, found: Sequence[Found], limits: Held, *, is_numeric: bool) -> "Counted":
        """Count the values of a chart."""
        return cls(
            censored=sum(is_numeric and it.value[:1] in {"<", ">"} for it in found),
            words=sum(it.is_words for it in found),
            before=sum(
                it.revision is None and limits.is_before(it.day) for it in found
            ),
        )


def notes(counted: Counted, limits: Held, passed_over: int) -> tuple[str, ...]:
    """The sentences beneath a chart."""
    told = []
    if counted.censored:
        told.append(CENSORED.format(_values(counted.censored)))
    if counted.words:
        told.append(WORDS.format(_values(counted.words)))
    if counted.before:
        first = limits.spans[0].revision
        told.append(BEFORE.format(_values(counted.before), first))
    if passed_over:
        told.append(LATER.format(_counted(passed_over)))
    return tuple(told)


def said(value: str, of: Characteristic) -> str:
    """A value as it is shown: a change with its sign, minus as a minus."""
    if value.startswith("-"):
        return MINUS + value[1:]
    has_sign = of.is_signed and value[:1].isdigit() and value.strip("0.")
    return f"+{value}" if has_sign else value


def _counted(count: int) -> str:
    return "1 value" if count == 1 else f"{count} values"


def _values(count: int) -> str:
    return f"{_counted(count)} {'is' if count == 1 else 'are'}"
