"""What is asked of one column: each matter once, with the cells that raise it, and whether it was answered."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from specs.tables import cells
from specs.tables.saying import Choice, Fate, Question, Said

COLUMN, CELL = "column", "cell"
LEAVE_THEM = cells.LEAVE
LEAVE = LEAVE_THEM.key
OF = " of "  # between a matter and the characteristic, in the key of a question


def is_answered(question: Question, choices: Mapping[str, str]) -> bool:
    """Whether one of the choices that the question offers was taken."""
    taken = choices.get(question.key)
    return taken is not None and any(it.key == taken for it in question.choices)


@dataclass
class Column:
    """A column while it is read: its questions gather here in the order in which they arise."""

    letter: str
    heading: str
    rows: Sequence[int]  # of its places
    choices: Mapping[str, str]
    out: frozenset[int] = frozenset()  # places of rows that are left out
    of: str = ""  # of which characteristic its cells are, where it holds several
    questions: list[Question] = field(default_factory=list)

    @property
    def name(self) -> str:
        """The column as a sentence names it."""
        name = f"“{self.heading}”" if self.heading else f"column {self.letter}"
        return f"{name} of {self.of}" if self.of else name

    def key(self, matter: str) -> str:
        """The key of a question."""
        return (
            f"{self.letter}/{matter}{OF}{self.of}"
            if self.of
            else f"{self.letter}/{matter}"
        )

    def standing(self, places: Iterable[int]) -> list[int]:
        """The places that are not left out with their row, from the top."""
        return sorted(it for it in places if it not in self.out)

    def ask(
        self,
        matter: str,
        places: Sequence[int],
        sentence: str,
        choices: Sequence[Choice],
        *,
        level: str = COLUMN,
        proposed: str = "",
        is_refusal: bool = False,
        takes_text: bool = False,
    ) -> str:
        """Ask; the key of the choice that was taken, empty while none was.

        What only rows raise that are left out is not asked: their cells are left out.
        """
        where = self.standing(places)
        if not where:
            return LEAVE
        question = Question(
            key=self.key(matter),
            column=self.letter,
            matter=matter,
            level=level,
            sentence=sentence,
            choices=tuple(choices),
            cells=tuple(
                f"{self.letter}{self.rows[it]}" for it in where[: cells.MOST_SHOWN]
            ),
            count=len(where),
            proposed=proposed,
            is_refusal=is_refusal,
            takes_text=takes_text,
        )
        self.questions.append(question)
        is_taken = is_answered(question, self.choices)
        return self.choices[question.key] if is_taken else ""

    def refuse(
        self, matter: str, places: Sequence[int], sentence: str, *, level: str = CELL
    ) -> bool:
        """Ask to leave refused cells out or to write something else instead; whether they are left out."""
        taken = self.ask(
            matter,
            places,
            sentence,
            [LEAVE_THEM],
            level=level,
            is_refusal=True,
            takes_text=True,
        )
        return taken == LEAVE


def left_out(why: str = "") -> Said:
    """A cell that is not taken, because somebody said so."""
    return Said(Fate.LEFT_OUT, rule="left out as answered", why=why)


def count_of(places: Sequence[int], what: str = "cell") -> str:
    """How many: 1 cell, 3 cells."""
    return f"{len(places)} {what}" + ("" if len(places) == 1 else "s")


def listed(texts: Iterable[str], joint: str = "and") -> str:
    """Words in a sentence: a, b and c."""
    some = list(texts)
    if len(some) < 2:
        return "".join(some)
    return f"{', '.join(some[:-1])} {joint} {some[-1]}"
