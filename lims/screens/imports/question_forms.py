"""The questions of every table of a file: a choice for each, and a box for each cell that may be written anew."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from zlib import crc32

from django import forms
from django.forms.boundfield import BoundField

from lims.imports.models import Import
from lims.sheets.asked import AskedCell
from lims.sheets.looking import BlockLook
from specs.tables.saying import Question

LONGEST = 200
MOST_SHOWN = 5  # cells of a question that no box asks about
MOST_BUTTONS = 9  # more choices than that are a list
ALL = "The whole table"
NO_NAME = re.compile(r"[^A-Za-z0-9]+")


@dataclass(frozen=True)
class CellRow:
    """One cell of a question: what stands in it, what is said of it, the box to write it anew."""

    address: str
    raw: str
    says: str
    box: BoundField | None


@dataclass(frozen=True)
class Asked:
    """One question as the page shows it."""

    question: Question
    heading: str
    choice: BoundField
    cells: list[CellRow]
    is_open: bool

    @property
    def more(self) -> int:
        """How many cells are not shown."""
        return self.question.count - len(self.cells)

    @property
    def makes(self) -> bool:
        return any(it.makes for it in self.question.choices)


@dataclass(frozen=True)
class TableQuestions:
    """The questions of one table: those that wait, and those that were answered."""

    place: int
    look: BlockLook
    waiting: list[Asked]
    answered: list[Asked]


class QuestionsForm(forms.Form):
    """Radio buttons and boxes by table; cleaned to what `answer` takes."""

    version = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(
        self,
        import_of: Import,
        blocks: Sequence[BlockLook],
        *args: Any,
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.import_of, self.blocks = import_of, blocks
        for place, look in enumerate(blocks, start=1):
            said = import_of.answers.get(look.block.key, {})
            for question in all_of(look):
                self._add_choice(place, question, said.get("choices", {}))
                if question.takes_text:
                    self._add_boxes(place, look, question, said.get("instead", {}))

    def _add_choice(self, place: int, it: Question, said: Mapping[str, str]) -> None:
        field: Any = forms.ChoiceField(
            label=it.sentence,
            choices=[
                *_nothing(it),
                *((choice.key, choice.words) for choice in it.choices),
            ],
            initial=said.get(it.key, it.proposed),
            required=False,
            widget=forms.Select if _nothing(it) else forms.RadioSelect,
            error_messages={"invalid_choice": "Choose one of the answers below."},
        )
        field.notes = {choice.key: choice.makes for choice in it.choices}
        self.fields[choice_name(place, it)] = field

    def _add_boxes(
        self, place: int, look: BlockLook, it: Question, said: Mapping[str, str]
    ) -> None:
        for address in it.cells:
            self.fields[box_name(place, address)] = forms.CharField(
                label=f"Write instead in {address}",
                initial=said.get(address) or _suggested(look, it, address),
                max_length=LONGEST,
                required=False,
                error_messages={
                    "max_length": f"Write at most {LONGEST} characters in one cell."
                },
            )

    @property
    def choices(self) -> dict[str, dict[str, str]]:
        """What was chosen, by table and question."""
        return {
            look.block.key: {
                it.key: chosen
                for it in all_of(look)
                if (chosen := self.cleaned_data.get(choice_name(place, it), ""))
            }
            for place, look in enumerate(self.blocks, start=1)
        }

    @property
    def instead(self) -> dict[str, dict[str, str]]:
        """What was written instead, by table and cell; an emptied box takes its text back."""
        return {
            look.block.key: {
                address: self._written(place, look, it, address)
                for it in all_of(look)
                for address in (it.cells if it.takes_text else ())
                if _first_asked(look)[address] == it.key
            }
            for place, look in enumerate(self.blocks, start=1)
        }

    def _written(self, place: int, look: BlockLook, it: Question, address: str) -> str:
        """The text of a box; a suggestion that nobody touched gives way to a choice."""
        text = str(self.cleaned_data.get(box_name(place, address), ""))
        kept = self.import_of.answers.get(look.block.key, {}).get("instead", {})
        is_chosen = bool(self.cleaned_data.get(choice_name(place, it)))
        is_untouched = address not in kept and text == _suggested(look, it, address)
        return "" if is_chosen and is_untouched else text

    @property
    def says_anything(self) -> bool:
        """Whether something was chosen or written."""
        said = (*self.choices.values(), *self.instead.values())
        return any(text for answers in said for text in answers.values())

    @property
    def tables(self) -> list[TableQuestions]:
        """The tables that ask, or asked, anything."""
        return [
            TableQuestions(
                place,
                look,
                [self._asked(place, look, it, is_open=True) for it in look.questions],
                [self._asked(place, look, it, is_open=False) for it in look.answered],
            )
            for place, look in enumerate(self.blocks, start=1)
            if look.questions or look.answered
        ]

    def _asked(
        self, place: int, look: BlockLook, it: Question, *, is_open: bool
    ) -> Asked:
        heading = look.block.headings.get(it.column, "Column" if it.column else ALL)
        cells = list(self._cells(place, look, it))
        return Asked(it, heading, self[choice_name(place, it)], cells, is_open)

    def _cells(self, place: int, look: BlockLook, it: Question) -> Iterator[CellRow]:
        first = _first_asked(look)
        shown = it.cells if it.takes_text else it.cells[:MOST_SHOWN]
        for address in shown:
            cell = look.cells.get(address, AskedCell())
            has_box = first.get(address) == it.key
            box = self[box_name(place, address)] if has_box else None
            yield CellRow(address, cell.raw, cell.says, box)


def all_of(look: BlockLook) -> tuple[Question, ...]:
    """Every question of a table, those that wait first."""
    return (*look.questions, *look.answered)


def _nothing(it: Question) -> list[tuple[str, str]]:
    """The line of a list that stands for no answer; nothing where the choices are buttons."""
    return [("", "choose one")] if len(it.choices) > MOST_BUTTONS else []


def _suggested(look: BlockLook, it: Question, address: str) -> str:
    """What is proposed for a cell, where no answer of its question would take it."""
    return "" if it.proposed else look.cells.get(address, AskedCell()).proposed


def _first_asked(look: BlockLook) -> dict[str, str]:
    """The question at which each cell has its box: one box a cell, wherever it is named again."""
    found: dict[str, str] = {}
    for it in all_of(look):
        for address in it.cells if it.takes_text else ():
            found.setdefault(address, it.key)
    return found


def choice_name(place: int, it: Question) -> str:
    """The name of a question's choice; a key holds signs that no id may have, and what they stand for is told by their figures."""
    name = NO_NAME.sub("-", it.key)
    apart = "" if it.key.isascii() else f"-{crc32(it.key.encode()):x}"
    return f"t{place}-{name}{apart}"


def box_name(place: int, address: str) -> str:
    """The name of the box of a cell."""
    return f"t{place}-at-{address}"
