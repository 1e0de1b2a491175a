"""The columns of every table of a file: what each is taken for, and in which unit its numbers are."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.forms.boundfield import BoundField

from lims.screens.imports.meanings import (
    LEFT_OUT,
    RESULT,
    Meanings,
    key_of,
    units,
    use_of,
)
from lims.sheets.looking import BlockLook
from specs.tables.known import Role

SMALL = {"class": "in"}


@dataclass(frozen=True)
class ColumnRow:
    """One column as the page shows it."""

    letter: str
    heading: str
    stated: str  # the unit that its head states
    samples: Sequence[str]
    meaning: BoundField
    unit: BoundField
    is_left_out: bool


@dataclass(frozen=True)
class TableRows:
    """The columns of one table, and the tick that leaves it out."""

    place: int
    look: BlockLook
    leave: BoundField
    rows: list[ColumnRow]


class ColumnsForm(forms.Form):
    """A list and a unit for each column of each table; cleaned to what `map_columns` takes."""

    version = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(
        self,
        blocks: Sequence[BlockLook],
        meanings: Meanings,
        *args: Any,
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.blocks, self.meanings = blocks, meanings
        choices = units()
        for place, look in enumerate(blocks, start=1):
            self.fields[_out(place)] = _leave(look)
            for letter in look.block.letters:
                self._add(place, look, letter, choices)

    def _add(
        self, place: int, look: BlockLook, letter: str, choices: list[tuple[str, Any]]
    ) -> None:
        use = look.uses.get(letter, {})
        head = look.block.headings.get(letter, "")
        label = f"Column {letter}, {head}" if head else f"Column {letter}"
        self.fields[_name(place, letter)] = forms.ChoiceField(
            label=label,
            choices=self.meanings.choices,
            initial=key_of(use),
            widget=forms.Select(attrs=SMALL),
        )
        self.fields[_unit(place, letter)] = forms.ChoiceField(
            label=f"Unit of column {letter}",
            choices=choices,
            initial=use.get("unit", ""),
            required=False,
            widget=forms.Select(attrs=SMALL),
        )

    def clean(self) -> dict[str, Any]:
        """Refuse a meaning given twice, and a table without what it needs."""
        for place, look in enumerate(self.blocks, start=1):
            if not self.cleaned_data.get(_out(place)):
                self._check_twice(place, look)
                self._check_needed(place, look)
        return self.cleaned_data

    def _check_twice(self, place: int, look: BlockLook) -> None:
        first: dict[str, str] = {}
        for letter, key in self._meant(place, look):
            if key == LEFT_OUT or key in self.meanings.many:
                continue
            if key in first:
                words = self.meanings.words(key)
                self.add_error(
                    _name(place, letter),
                    f"Column {first[key]} is taken for {words} already: choose one of the "
                    "two, and leave the other out.",
                )
            first.setdefault(key, letter)

    def _check_needed(self, place: int, look: BlockLook) -> None:
        meant = {key for _, key in self._meant(place, look)}
        missing = [
            word for key, word in self.meanings.needed.items() if key not in meant
        ]
        if missing:
            self.add_error(
                _out(place),
                f"No column of this table is taken for: {', '.join(missing)}. Choose one "
                "for each, or leave the whole table out.",
            )
        elif Role.FOUND in meant and Role.TESTED not in meant:
            self.add_error(
                _out(place),
                "A column holds results of several tests, and none says what was tested. "
                "Choose the one that does, or leave the whole table out.",
            )
        elif self._has_no_result(meant):
            self.add_error(
                _out(place),
                "No column of this table is taken for a result: choose one, or leave the "
                "whole table out.",
            )

    def _has_no_result(self, meant: set[str]) -> bool:
        takes_results = any(
            key.startswith(RESULT)
            for _, some in self.meanings.choices
            if not isinstance(some, str)
            for key, _ in some
        )
        has_some = Role.FOUND in meant or any(it.startswith(RESULT) for it in meant)
        return takes_results and not has_some

    def _meant(self, place: int, look: BlockLook) -> Iterator[tuple[str, str]]:
        for letter in look.block.letters:
            if _name(place, letter) in self.cleaned_data:
                yield letter, self.cleaned_data[_name(place, letter)]

    @property
    def mapping(self) -> dict[str, dict[str, dict[str, str]]]:
        """By table and column, as the action takes it; a table that is left out has every column left out."""
        return {
            look.block.key: {
                letter: self._use(place, letter) for letter in look.block.letters
            }
            for place, look in enumerate(self.blocks, start=1)
        }

    def _use(self, place: int, letter: str) -> dict[str, str]:
        if self.cleaned_data[_out(place)]:
            return use_of(LEFT_OUT, "")
        key = self.cleaned_data[_name(place, letter)]
        return use_of(key, self.cleaned_data[_unit(place, letter)])

    @property
    def tables(self) -> list[TableRows]:
        """The tables as the page shows them."""
        return [
            TableRows(place, look, self[_out(place)], self._rows(place, look))
            for place, look in enumerate(self.blocks, start=1)
        ]

    def _rows(self, place: int, look: BlockLook) -> list[ColumnRow]:
        return [
            ColumnRow(
                letter=letter,
                heading=look.block.headings.get(letter, ""),
                stated=look.block.units.get(letter, ""),
                samples=look.samples.get(letter, ()),
                meaning=self[_name(place, letter)],
                unit=self[_unit(place, letter)],
                is_left_out=self[_name(place, letter)].value() == LEFT_OUT,
            )
            for letter in look.block.letters
        ]


def _leave(look: BlockLook) -> forms.BooleanField:
    return forms.BooleanField(
        label="Leave this table out",
        required=False,
        initial=look.is_mapped and _all_left_out(look.uses),
    )


def _all_left_out(uses: Mapping[str, Mapping[str, Any]]) -> bool:
    return all(it.get("role") == LEFT_OUT for it in uses.values())


def _name(place: int, letter: str) -> str:
    return f"t{place}-{letter}"


def _unit(place: int, letter: str) -> str:
    return f"t{place}-{letter}-unit"


def _out(place: int) -> str:
    return f"t{place}-out"
