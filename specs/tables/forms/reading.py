"""The cells of a form's columns, read: names, numbers, choices, days and moments."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from specs.numbers import Refused
from specs.tables.cells import Cells
from specs.tables.days.reading import read_days
from specs.tables.forms.cells import BLANK, read_cell, refused
from specs.tables.forms.form import FormColumn, Reads
from specs.tables.forms.kept import Kept
from specs.tables.forms.moments import parted, read_time
from specs.tables.forms.table import Table
from specs.tables.saying import Answers, Fate, Said
from specs.tables.sheet import DAY, EMPTY, FAULT, FORMULA, MOMENT, NUMBER, Sheet

A_DAY = 86400  # seconds
FAR_OFF = "2100-12-31"


def read_all(table: Table, sheet: Sheet, kept: Kept, answers: Answers) -> None:
    """Read every mapped column of the table."""
    for key, letter in table.letters.items():
        column = table.form.column(key)
        if column.reads in (Reads.DAY, Reads.MOMENT):
            _read_by_the_day(table, column, sheet, kept, answers)
        else:
            _read_one_by_one(table, column, kept)
        _tell_where_from(table, sheet, letter)


def _read_one_by_one(table: Table, column: FormColumn, kept: Kept) -> None:
    letter = table.letters[column.key]
    cells = table.cells[letter]
    known: dict[tuple[str, str], Said] = {}
    for row in table.data:
        place = row - table.block.first
        cell = (cells.texts[place], cells.kinds[place])
        if cell not in known:
            known[cell] = read_cell(column, *cell, kept)
        table.said[letter][place] = known[cell]


def _tell_where_from(table: Table, sheet: Sheet, letter: str) -> None:
    """Add to the rule of a cell that its text was written instead, or comes from above."""
    cells = table.cells[letter]
    for row in table.data:
        place = row - table.block.first
        said = table.said[letter][place]
        raw = sheet.text(letter, row)
        if row in cells.filled:
            told = f"as in row {cells.filled[row]}"
        elif said.fate != Fate.EMPTY and raw != cells.texts[place]:
            told = (
                f"written instead of “{raw}”" if raw else "written into an empty cell"
            )
        else:
            continue
        rule = f"{told}; {said.rule}" if said.rule else told
        table.said[letter][place] = replace(said, rule=rule)


def _read_by_the_day(
    table: Table, column: FormColumn, sheet: Sheet, kept: Kept, answers: Answers
) -> None:
    letter = table.letters[column.key]
    rows = table.data
    times: list[Said] = []
    cells = _in_rows(table, letter, rows)
    if column.reads == Reads.MOMENT:
        cells, times = _days_and_times(cells)
    today = kept.today.replace(year=2100) if column.is_ahead else kept.today
    found = read_days(
        cells,
        today=today,
        is_1904=sheet.is_1904,
        answers=Answers(answers.choices, {} if times else answers.instead),
    )
    said = (
        [_joined(day, time) for day, time in zip(found.said, times, strict=True)]
        if times
        else found.said
    )
    for row, it in zip(rows, said, strict=True):
        table.said[letter][row - table.block.first] = it
    table.questions.update((it.key, it) for it in found.questions)
    table.answered.update((it.key, it) for it in found.answered)


def _in_rows(table: Table, letter: str, rows: Sequence[int]) -> Cells:
    cells = table.cells[letter]
    places = [row - table.block.first for row in rows]
    return replace(
        cells,
        rows=rows,
        texts=[cells.texts[it] for it in places],
        kinds=[cells.kinds[it] for it in places],
        filled={},
    )


def _days_and_times(cells: Cells) -> tuple[Cells, list[Said]]:
    """The days of a column of moments as cells of their own, and the times beside them."""
    texts, kinds, times = [], [], []
    for text, kind in zip(cells.texts, cells.kinds, strict=True):
        day, of_day, time = _parts(text, kind)
        texts.append(day)
        kinds.append(of_day)
        times.append(time)
    return replace(cells, texts=texts, kinds=kinds), times


def _parts(text: str, kind: str) -> tuple[str, str, Said]:
    if kind in (EMPTY, FORMULA, FAULT):
        return text, kind, BLANK
    if kind == NUMBER:
        return _of_serial(text)
    day, time = parted(text)
    of_day = DAY if kind == MOMENT else kind
    if not time:
        return (
            day,
            of_day,
            refused(f"“{text}” has no time of day: write it like 2026-03-05 07:40."),
        )
    try:
        return day, of_day, Said(Fate.TAKEN, read_time(time))
    except Refused as refusal:
        return day, of_day, refused(refusal.sentence)


def _of_serial(text: str) -> tuple[str, str, Said]:
    """A count of days with its part of a day: whole days, and the time to the second."""
    count = Decimal(text)
    seconds = int((count % 1 * A_DAY).to_integral_value())
    days = int(count) + seconds // A_DAY
    minutes, second = divmod(seconds % A_DAY, 60)
    time = f"{minutes // 60:02d}:{minutes % 60:02d}:{second:02d}"
    return str(days), NUMBER, Said(Fate.CONVERTED, time)


def _joined(day: Said, time: Said) -> Said:
    """A day and its time as one cell; what is wrong with either is wrong with it."""
    if day.fate not in (Fate.TAKEN, Fate.CONVERTED):
        return day
    if time.fate == Fate.REFUSED:
        return time
    return replace(day, value=f"{day.value} {time.value}")
