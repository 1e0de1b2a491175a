"""What a log is of, as its head, its sheet or a person says; and which of its rows are readings."""

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from specs.tables.cells import Cells
from specs.tables.forms.proposing import LEFT_OUT
from specs.tables.layout import Block
from specs.tables.saying import Answers, Choice, Question, RowRole
from specs.tables.sheet import Sheet

SUBJECT = "subject"
HEADING, SHEET = "heading", "sheet"
LONGEST = 60
_UNIT_BEHIND = re.compile(r"\s*[\[(][^\])]*[\])]\s*$")


@dataclass(frozen=True)
class Around:
    """What is known beside the file: the day, and what a log can be of."""

    today: dt.date
    subjects: tuple[Choice, ...] = ()


@dataclass(frozen=True)
class Subject:
    """What one log is of: as answered, or the question."""

    question: Question
    text: str = ""
    choice: str = ""

    @property
    def is_open(self) -> bool:
        """Whether it is asked still."""
        return not self.text


def subject_of(
    sheet: Sheet, block: Block, letter: str, *, around: Around, answers: Answers
) -> Subject:
    """What the log of a column is of: its head, the sheet, a test over hours, or a text written for its head."""
    cell = f"{letter}{block.heads[-1] if block.heads else 0}"
    own = {
        HEADING: _UNIT_BEHIND.sub("", block.headings.get(letter, "")).strip(),
        SHEET: sheet.name.strip(),
    }
    own = {key: text for key, text in own.items() if 0 < len(text) <= LONGEST}
    question = Question(
        f"{letter}/{SUBJECT}",
        letter,
        SUBJECT,
        "column",
        f"What was logged in “{own.get(HEADING, letter)}”: which batch, vessel or kettle? "
        "Choose, or write it.",
        (
            *(Choice(key, f"As the {key} says: {text}") for key, text in own.items()),
            *around.subjects,
        ),
        (cell,),
        1,
        takes_text=True,
    )
    if text := " ".join(answers.instead.get(cell, "").split()):
        return _written(question, text)
    choice = answers.choices.get(question.key, "")
    words = {it.key: it.words for it in around.subjects} | own
    return Subject(question, words.get(choice, ""), choice)


def _written(question: Question, text: str) -> Subject:
    if len(text) <= LONGEST and text.isprintable():
        return Subject(question, text)
    sentence = f"Write in at most {LONGEST} characters what was logged."
    return Subject(replace(question, sentence=sentence))


def roles_of(
    sheet: Sheet, block: Block, keys: Mapping[str, str], cells: Mapping[str, Cells]
) -> list[RowRole]:
    """What each row of a log is: a head and its units come again after a power cut."""
    mapped = [
        letter for letter in block.letters if keys.get(letter, LEFT_OUT) != LEFT_OUT
    ]
    heads = tuple(block.headings.get(it, "").strip() for it in mapped)
    units = tuple(sheet.text(it, block.units_row or 0).strip() for it in mapped)
    roles = []
    for texts in zip(*(cells[it].texts for it in mapped), strict=True):
        tidy = tuple(it.strip() for it in texts)
        if not any(tidy):
            roles.append(RowRole.BLANK)
        elif tidy == heads:
            roles.append(RowRole.HEAD)
        elif any(units) and tidy == units:
            roles.append(RowRole.UNITS)
        else:
            roles.append(RowRole.DATA)
    return roles or [RowRole.BLANK] * (block.last - block.first + 1)
