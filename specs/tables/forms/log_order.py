"""What is odd about the times of a log: it goes back, stands still or leaves a gap; asked, and mended as answered."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from statistics import median_low

from specs.tables.forms.log_times import HOUR, MINUTE, in_words
from specs.tables.saying import Answers, Choice, Question

BACK, GAP = "clock goes back", "gap"
LATER, AN_HOUR, TAKE = "later", "an hour", "take"
FOUR_MINUTES = 4 * MINUTE
GAP_FACTOR = 10  # times the usual interval; common practice, no source


@dataclass
class Ordered:
    """Times in order: one place a row; `out` says why a row is left out."""

    at: list[int | None]
    out: dict[int, str] = field(default_factory=dict)
    twice: dict[int, int] = field(default_factory=dict)  # place -> the one it repeats
    notes: dict[int, str] = field(default_factory=dict)
    questions: list[Question] = field(default_factory=list)
    answered: list[Question] = field(default_factory=list)


def in_order(
    at: Sequence[int | None],
    texts: Sequence[tuple[str, ...]],
    *,
    letter: str,
    rows: Sequence[int],
    answers: Answers,
) -> Ordered:
    """The times with what is odd about them settled as answered, or asked.

    `texts` are the texts of each row: the same reading twice is taken once without a
    question. Times that still do not come after the one before are left out.
    """
    it = Ordered(list(at))
    _drop_repeated(it, texts)
    usual = _usual(it)
    back = [place for place, step in _steps(it) if step <= 0]
    if back and not _settle(it, _back_question(letter, rows, it, back, usual), answers):
        return it
    _shift(it, back, answers.choices.get(f"{letter}/{BACK}", ""), HOUR)
    _leave_what_does_not_follow(it)
    gaps = [place for place, step in _steps(it) if usual and step > usual * GAP_FACTOR]
    if gaps and _settle(it, _gap_question(letter, rows, it, gaps, usual), answers):
        choice = answers.choices.get(f"{letter}/{GAP}", "")
        _shift(it, gaps, choice, -HOUR)
        for place in gaps:
            it.notes[place] = "after a gap"
    return it


def _settle(it: Ordered, question: Question, answers: Answers) -> bool:
    if answers.choices.get(question.key) in {choice.key for choice in question.choices}:
        it.answered.append(question)
        return True
    it.questions.append(question)
    return False


def _drop_repeated(it: Ordered, texts: Sequence[tuple[str, ...]]) -> None:
    """A reading that was written before, word for word and at the same time, says nothing new."""
    seen: dict[tuple[int, tuple[str, ...]], int] = {}
    for place, moment in enumerate(it.at):
        if moment is None:
            continue
        first = seen.setdefault((moment, texts[place]), place)
        if first != place:
            it.twice[place] = first
            it.at[place] = None


def _steps(it: Ordered) -> list[tuple[int, int]]:
    """For each reading but the first: its place, and how long after the one before it was."""
    known = [
        (place, moment) for place, moment in enumerate(it.at) if moment is not None
    ]
    return [
        (place, moment - before) for (_, before), (place, moment) in pairwise(known)
    ]


def _usual(it: Ordered) -> int:
    steps = [step for _, step in _steps(it) if step > 0]
    return median_low(steps) if steps else 0


def _back_question(
    letter: str, rows: Sequence[int], it: Ordered, back: Sequence[int], usual: int
) -> Question:
    first = back[0]
    steps = dict(_steps(it))
    choices = [Choice(LATER, "Leave out what does not come after the reading before")]
    proposed = LATER
    if all(abs(HOUR + steps[place] - usual) <= FOUR_MINUTES for place in back):
        choices.insert(
            0,
            Choice(
                AN_HOUR,
                "The clock was set back an hour: count on from there",
                f"{in_words(usual)} after the reading before",
            ),
        )
        proposed = AN_HOUR
    times = "once" if len(back) == 1 else f"{len(back)} times"
    return Question(
        f"{letter}/{BACK}",
        letter,
        BACK,
        "column",
        f"The time goes back or stands still {times}, first in row {rows[first]} by "
        f"{in_words(-steps[first])}.",
        tuple(choices),
        tuple(f"{letter}{rows[place]}" for place in back[:200]),
        len(back),
        proposed,
    )


def _gap_question(
    letter: str, rows: Sequence[int], it: Ordered, gaps: Sequence[int], usual: int
) -> Question:
    steps = dict(_steps(it))
    longest = max(steps[place] for place in gaps)
    choices = [Choice(TAKE, "Take the readings as they are, with the gap")]
    if all(abs(steps[place] - HOUR - usual) <= FOUR_MINUTES for place in gaps):
        choices.append(
            Choice(AN_HOUR, "The clock was set forward an hour: nothing is missing")
        )
    many = "There is one gap" if len(gaps) == 1 else f"There are {len(gaps)} gaps"
    return Question(
        f"{letter}/{GAP}",
        letter,
        GAP,
        "column",
        f"{many} in the readings, the longest {in_words(longest)}; usually they are "
        f"{in_words(usual)} apart.",
        tuple(choices),
        tuple(f"{letter}{rows[place]}" for place in gaps[:200]),
        len(gaps),
        TAKE,
    )


def _shift(it: Ordered, places: Sequence[int], choice: str, by: int) -> None:
    """Count on past each place where the clock was set by an hour."""
    if choice != AN_HOUR:
        return
    from_here = set(places)
    added = 0
    for place, moment in enumerate(it.at):
        if place in from_here:
            added += by
        if moment is not None:
            it.at[place] = moment + added


def _leave_what_does_not_follow(it: Ordered) -> None:
    last: int | None = None
    for place, moment in enumerate(it.at):
        if moment is None:
            continue
        if last is not None and moment <= last:
            it.at[place] = None
            it.out[place] = "left out: its time does not come after the reading before"
        else:
            last = moment
