"""What the help page says: what each place answers, the keys at the bench, the marks, the words."""

from typing import Any

from lims.screens.context import PLACES
from lims.screens.front.parts import STATES

QUESTIONS = {
    "bench": "What must I test next, and what are the numbers?",
    "batches": "What became of this batch? Where are its samples and retains?",
    "decisions": "What can be released, what is stuck, and why?",
    "certificates": "Which papers went out, and are they still true? What can leave?",
    "trends": "Is something moving? What was it before? Which kettle, since when?",
    "specifications": "What must be met, since when, by which rule? For which customer?",
    "methods": "How is it measured, how well, and who checked the figures?",
    "instruments": "May I use this today?",
    "record": "Who did what, when and why? Does the record hold?",
    "setup": "Who works here, for which site, with which settings?",
}
KEYS = (
    ("digits", "Write the reading. A full stop and a comma are both decimal marks."),
    ("< and >", "Before a number: less than, more than. >288 is a result of its own."),
    ("Enter or Tab", "Leaves the box: the reading is saved and the next box opens."),
    ("Shift and Tab", "Back to the box before."),
    ("a scanner", "Opens the sample whose label it reads, from the box on the bench."),
)
WORDS = (
    ("fill lot", "One batch filled into one pack size in one run: what is sampled, released and shipped."),
    ("retain", "The sealed sample that is kept for later, and the place where it stands."),
    ("reading", "One number or word as it was typed. It never changes; a correction stands beside it, with a reason."),
    ("determination", "One complete run of a method and the value it gives, such as a set of three cone readings."),
    ("reported value", "What is reported for a characteristic of a sample, rounded once."),
    ("requirement", "One line of a specification: what, by which method, between which limits, compared how."),
    ("verdict", "One result against one requirement: met, not met, not tested or not evaluated."),
    ("not evaluated", "Something was read, but it cannot count. The screen says why, and what to do. It stops a release."),
    ("evidence", "Where a result comes from: tested on this lot, tested on this batch, or periodic."),
    ("set aside", "A determination that does not count, with its reason. It is never deleted."),
    ("release", "A fill lot may leave: signed by somebody who did not test it."),
    ("hold", "Nothing of the fill lot may leave until a new decision."),
    ("record head", "A short sum over everything recorded up to now: it changes when anything is altered afterwards."),
)  # fmt: skip


def context(*, with_places: bool) -> dict[str, Any]:
    """The help; who is not signed in learns nothing of the laboratory's own pages."""
    places = [(word, space, QUESTIONS[space]) for word, space, _ in PLACES]
    return {
        "answers": places if with_places else [],
        "keys": KEYS,
        "states": STATES,
        "glossary": WORDS,
    }
