"""What a file holds, where it stands and what came of it, in sentences."""

from lims.imports.models import Import, Staging
from lims.sheets.looking import Looked
from lims.wording.numbers import counts
from specs.tables.saying import Fate, RowRole

Kind, State, Stage = Import.Kind, Import.State, Staging.Stage

BECOMES = {
    Kind.HISTORY: "Unverified history: it is charted, and stands on no certificate.",
    Kind.SPECIFICATIONS: "Products, and drafts of their next revisions to be approved by hand.",
    Kind.CUSTOMERS: "Customers, and drafts of what was agreed with them.",
    Kind.FIGURES: "Drafts of the next figures of editions, to be approved by hand: nothing is in force before.",
    Kind.INSTRUMENTS: "Instruments with their checks.",
    Kind.SAMPLES: "Samples of batches and fill lots that are registered here, on the bench.",
    Kind.LOG: "A curve beside the batch or the run that it belongs to.",
}
LINES = {
    Kind.LOG: "signal",
    Kind.FIGURES: "figure",
}  # what a line of a table becomes, where it is none
AT_WORK = {Stage.WAITING, Stage.READING, Stage.CHECKING, Stage.TAKING}
STAGES = {
    Stage.WAITING: "The file waits for its turn.",
    Stage.READING: "The file is being read.",
    Stage.CHECKING: "Every cell is being checked.",
    Stage.TAKING: "The file is being taken in.",
}
FATES = {
    Fate.TAKEN: "as they stand",
    Fate.CONVERTED: "read by a rule that is shown",
    Fate.ASKS: "wait for an answer",
    Fate.REFUSED: "with the reason, and what to write instead",
    Fate.LEFT_OUT: "heads, titles, summaries, what somebody left out",
}
ROWS = {
    RowRole.DATA: ("row of data", "rows of data"),
    RowRole.CONTINUATION: (
        "row that continues the one above",
        "rows that continue the one above",
    ),
    RowRole.DUPLICATE: ("row that repeats another", "rows that repeat another"),
    RowRole.HELD: ("row that is held back", "rows that are held back"),
    RowRole.SUMMARY: ("summary row, left out", "summary rows, left out"),
    RowRole.UNITS: ("row of units", "rows of units"),
    RowRole.HEAD: ("row of heads", "rows of heads"),
    RowRole.TITLE: ("title", "titles"),
}


def number_of(count: int, one: str, many: str = "") -> str:
    """``1 question``, ``2 questions``."""
    return f"{counts(count)} {one if count == 1 else many or one + 's'}"


def is_at_work(look: Looked | None) -> bool:
    """Whether the program is busy with the file."""
    return look is not None and look.stage in AT_WORK


def open_questions(look: Looked) -> int:
    return sum(len(it.questions) for it in look.blocks)


def unmapped(look: Looked) -> int:
    return sum(not it.is_mapped for it in look.blocks)


def stands(import_of: Import, look: Looked | None) -> str:
    """Where an import stands, and what comes next."""
    if import_of.state != State.RECEIVED or look is None:
        return _over(import_of)
    if look.stage == Stage.FAILED:
        return look.words
    if is_at_work(look):
        return f"{STAGES[Stage(look.stage)]} You may leave this page and come back."
    if not look.blocks:
        return "No table was found in this file: nothing of it can be taken in."
    if unmapped(look):
        tables = number_of(unmapped(look), "table")
        verb = "was" if unmapped(look) == 1 else "were"
        return f"{tables} {verb} found. Say next what the columns hold."
    return _answered(look, import_of.kind)


def _answered(look: Looked, kind: str) -> str:
    asked = open_questions(look)
    if asked:
        verb = "waits" if asked == 1 else "wait"
        return (
            f"{number_of(asked, 'question')} {verb} for an answer. Nothing is taken in "
            "before all are answered."
        )
    if not look.is_ready:
        return (
            "Nothing of this file would be taken in: look at its columns and its cells."
        )
    return f"Nothing is asked any more. {brings(total(look), kind)} would be taken in."


def brings(found: dict[str, int], kind: str) -> str:
    """What the tables of a file hold: ``8 batches with 38 values``."""
    if kind != Kind.HISTORY:
        return number_of(found.get("lines", 0), LINES.get(Kind(kind), "line"))
    batches = number_of(found.get("batches with values", 0), "batch", "batches")
    return f"{batches} with {number_of(found.get('values', 0), 'value')}"


def total(look: Looked) -> dict[str, int]:
    """What was counted, over all tables."""
    found: dict[str, int] = {}
    for block in look.blocks:
        for name, count in block.counts.items():
            found[name] = found.get(name, 0) + count
    return found


def _over(import_of: Import) -> str:
    who = import_of.taken_by.name if import_of.taken_by else "somebody"
    told = {
        State.TAKEN_IN: f"Taken in by {who}. {added(import_of)}",
        State.REFUSED: f"It cannot be read. {import_of.reason}",
        State.LEFT: f"It was not taken in: {import_of.reason}",
        State.WITHDRAWN: (
            f"Withdrawn: {import_of.reason} What it brought stays readable and is charted no more."
        ),
    }
    return told.get(State(import_of.state), "It waits.")


def added(import_of: Import) -> str:
    """What a file added, and what of it was here before."""
    found = import_of.counts
    if import_of.kind != Kind.HISTORY:
        one = LINES.get(Kind(import_of.kind), "line")
        return f"{number_of(found.get('added', 0), one)} added."
    here = found.get("values here already", 0)
    already = f" {number_of(here, 'value')} of it stood here already." if here else ""
    if not import_of.line_count:
        return f"Nothing was added.{already}"
    lines = number_of(import_of.line_count, "line")
    return f"{lines} of unverified history added.{already}"


def size_of(count: int) -> str:
    """The size of a file: ``12 kB``."""
    if count < 1000:
        return number_of(count, "byte")
    if count < 1_000_000:
        return f"{count / 1000:.0f} kB"
    return f"{count / 1_000_000:.1f} MB"
