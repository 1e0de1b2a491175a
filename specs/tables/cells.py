"""The cells of one column that are read, with what the file or its writer left for the eye to fill in; and what came of reading them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from specs.tables.saying import Answers, Choice, Fate, Question, Said
from specs.tables.sheet import EMPTY, Sheet, place_of

DITTO = frozenset(
    {'"', "''", "″", "〃", "“", "”", '-"-', "do.", "dto.", "dto", "ditto"}
)
MOST_SHOWN = 200
LEAVE = Choice("leave", "Leave them out")


@dataclass(frozen=True)
class Cells:
    """The cells of one column in the rows that are read; all sequences have one place a row.

    `filled` leads from a row whose own cell is empty, or holds a ditto mark, to the row that
    its text was taken from: `texts` has the text already, and the reader's rule says so.
    """

    letter: str
    rows: Sequence[int]
    texts: Sequence[str]
    kinds: Sequence[str]
    filled: Mapping[int, int] = field(default_factory=dict)

    def address(self, place: int) -> str:
        """The address of the cell at one place of the sequences."""
        return f"{self.letter}{self.rows[place]}"


@dataclass(frozen=True)
class Found:
    """What came of one column: one Said a row of the Cells, and what is asked or was answered."""

    said: Sequence[Said]
    questions: tuple[Question, ...] = ()  # without an answer
    answered: tuple[Question, ...] = ()


@dataclass(frozen=True)
class Judged:
    """What one text comes to by itself, and the matter that it raises, if any.

    `settled` leads from a choice to what it makes of the cell; "leave" leaves it out.
    """

    said: Said
    matter: str = ""
    settled: Mapping[str, Said] = field(default_factory=dict)


@dataclass(frozen=True)
class Matter:
    """How a matter is asked."""

    level: str
    sentence: str
    choices: tuple[Choice, ...] = (LEAVE,)
    proposed: str = ""
    is_refusal: bool = True
    takes_text: bool = True


Key = tuple[str, str]  # kind and text


def cells_of(sheet: Sheet, letter: str, rows: Sequence[int]) -> Cells:
    """The cells of a column in these rows (counted from 1).

    Where the file shows several cells as one, its text stands in each of them; a ditto mark
    stands for the text above it. Raises nothing.
    """
    column = sheet.by_letter.get(letter)
    height = len(column.texts) if column else 0
    texts = [
        column.texts[row - 1] if column and 0 < row <= height else "" for row in rows
    ]
    kinds = [
        column.kinds[row - 1] if column and 0 < row <= height else EMPTY for row in rows
    ]
    filled = _filled(sheet, letter, rows, texts)
    for place, row in enumerate(rows):
        if row in filled:
            texts[place] = sheet.text(letter, filled[row])
            kinds[place] = sheet.kind(letter, filled[row])
    return Cells(letter, rows, texts, kinds, filled)


def written_instead(cells: Cells, answers: Answers) -> dict[int, str]:
    """The texts written instead of cells of this column, by place; an empty one is none."""
    wanted = {
        address: text.strip()
        for address, text in answers.instead.items()
        if address.rstrip("0123456789") == cells.letter and text.strip()
    }
    if not wanted:
        return {}
    places = enumerate(cells.rows)
    texts = {place: wanted.get(f"{cells.letter}{row}", "") for place, row in places}
    return {place: text for place, text in texts.items() if text}


def settled(
    cells: Cells,
    judged: Mapping[Key, Judged],
    instead: Mapping[int, Judged],
    matters: Mapping[str, Matter],
    answers: Answers,
) -> Found:
    """What becomes of the cells once the answers are heeded, and what is still asked.

    `judged` has every kind and text of the cells, `instead` what was written instead, by
    place; equal cells share one Said.
    """
    keys = list(zip(cells.kinds, cells.texts, strict=True))
    final = {key: _answered(cells, it, answers) for key, it in judged.items()}
    said = [final[key] for key in keys]
    for place, it in instead.items():
        said[place] = _instead(_answered(cells, it, answers), cells.texts[place])
    for place, row in enumerate(cells.rows):
        if row in cells.filled and place not in instead:
            said[place] = _from_above(said[place], cells, row)
    raised = _raised(keys, judged, instead)
    asked = [
        (_question(cells, word, matters[word], places), places)
        for word, places in sorted(raised.items())
    ]
    is_open = {it.key: any(said[at].question for at in places) for it, places in asked}
    return Found(
        said,
        tuple(it for it, _ in asked if is_open[it.key]),
        tuple(it for it, _ in asked if not is_open[it.key]),
    )


def tops(sheet: Sheet, letter: str) -> dict[int, int]:
    """From each row in a cell that the file shows as one down this column, to its top row."""
    place, reached = place_of(letter), 0
    found: dict[int, int] = {}
    for it in sorted(sheet.merged, key=lambda it: it.top):
        if it.left == place and it.bottom > reached:
            start, end = max(it.top, reached) + 1, min(it.bottom, sheet.height)
            found.update(dict.fromkeys(range(start, end + 1), it.top))
            reached = it.bottom
    return found


def shown(text: str, most: int = 40) -> str:
    """A text as it can stand in a sentence: short, in quotation marks, without marks that nobody sees."""
    clean = "".join(it if it.isprintable() else "?" for it in text.strip()[: most + 1])
    return f"“{clean[:most]}…”" if len(clean) > most else f"“{clean}”"


def _filled(
    sheet: Sheet, letter: str, rows: Sequence[int], texts: Sequence[str]
) -> dict[int, int]:
    """From each row that is to be filled to the row whose text it takes."""
    merged = tops(sheet, letter)
    filled: dict[int, int] = {}
    above = 0
    for row, text in zip(rows, texts, strict=True):
        if row in merged and not text.strip():
            filled[row] = merged[row]
        elif text.strip() in DITTO and above:
            filled[row] = above
        elif text:
            above = row
    return filled


def _answered(cells: Cells, it: Judged, answers: Answers) -> Said:
    """The cell as its question was answered, else as it waits for the answer."""
    if not it.matter:
        return it.said
    key = f"{cells.letter}/{it.matter}"
    choice = answers.choices.get(key, "")
    if choice in it.settled:
        return it.settled[choice]
    if choice == LEAVE.key:
        return Said(Fate.LEFT_OUT, rule="left out as answered", why=it.said.why)
    return replace(it.said, question=key)


def _instead(said: Said, text: str) -> Said:
    """What was written instead, with what stood there."""
    was = f"written instead of {shown(text)}" if text else "written where nothing stood"
    rule = f"{was}; {said.rule}" if said.rule else was
    is_taken = said.fate in (Fate.TAKEN, Fate.CONVERTED)
    return replace(said, fate=Fate.CONVERTED if is_taken else said.fate, rule=rule)


def _from_above(said: Said, cells: Cells, row: int) -> Said:
    """A cell that has its text from another row says so."""
    if said.fate not in (Fate.TAKEN, Fate.CONVERTED):
        return said
    rule = f"as in {cells.letter}{cells.filled[row]}"
    rule = f"{rule}; {said.rule}" if said.rule else rule
    return replace(said, fate=Fate.CONVERTED, rule=rule)


def _raised(
    keys: Sequence[Key], judged: Mapping[Key, Judged], instead: Mapping[int, Judged]
) -> dict[str, list[int]]:
    """The places that raise each matter: as they stood, or as they were written anew."""
    raised: dict[str, list[int]] = {}
    if any(it.matter for it in judged.values()):
        for place, key in enumerate(keys):
            if judged[key].matter:
                raised.setdefault(judged[key].matter, []).append(place)
    for place, it in instead.items():
        if it.matter and place not in raised.get(it.matter, ()):
            raised.setdefault(it.matter, []).append(place)
    return {matter: sorted(places) for matter, places in raised.items()}


def _question(
    cells: Cells, word: str, matter: Matter, places: Sequence[int]
) -> Question:
    return Question(
        key=f"{cells.letter}/{word}",
        column=cells.letter,
        matter=word,
        level=matter.level,
        sentence=matter.sentence,
        choices=matter.choices,
        cells=tuple(cells.address(place) for place in places[:MOST_SHOWN]),
        count=len(places),
        proposed=matter.proposed,
        is_refusal=matter.is_refusal,
        takes_text=matter.takes_text,
    )
