"""The check of a logger's file: its times in order, each sensor's readings, what each log is of."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from specs.tables.cells import Cells, cells_of
from specs.tables.checked import Checked, Row
from specs.tables.forms.asking import about_columns
from specs.tables.forms.cells import BLANK
from specs.tables.forms.log_order import Ordered, in_order
from specs.tables.forms.log_subjects import Around, Subject, roles_of, subject_of
from specs.tables.forms.log_times import MINUTE, Times, read_times
from specs.tables.forms.log_values import Sensor, read_sensor
from specs.tables.forms.logs import DAY, LOG, TIME, VALUE, unit_of_time
from specs.tables.forms.table import written
from specs.tables.layout import Block
from specs.tables.saying import Answers, Choice, Fate, Question, RowRole, Said
from specs.tables.sheet import Sheet, place_of

NO_TIME = "no time"
OUT = Said(Fate.LEFT_OUT)
LEAVE = Choice("leave", "Leave these readings out")
FINEST = Decimal("0.00001")  # of a minute, so that a hundredth of a second still counts
Mapped = Mapping[str, Mapping[str, str]]


def check_log(
    sheet: Sheet, block: Block, mapping: Mapped, answers: Answers, around: Around
) -> Checked:
    """What becomes of each cell of a log, what is asked, and one row for each sensor that would be taken.

    The values of the time column are minutes since the first reading. Raises nothing.
    """
    keys = {letter: use.get("role", "") for letter, use in mapping.items()}
    blocking = about_columns(LOG, block, keys)
    look = _Look.begun(sheet, block, keys, answers)
    if blocking:
        return look.told(blocking, [], [])
    times, ordered = look.read_times(mapping, around)
    sensors = look.read_sensors(mapping, ordered)
    questions = [*times.questions, *ordered.questions]
    answered = [*times.answered, *ordered.answered]
    rows = []
    for it in sensors:
        questions += it.questions
        answered += it.answered
        if it.is_left_out:
            continue
        subject = subject_of(sheet, block, it.letter, around=around, answers=answers)
        (questions if subject.is_open else answered).append(subject.question)
        rows.append(look.row_of(it, subject, times, ordered))
    return look.told(questions, answered, rows)


@dataclass
class _Look:
    """One log while it is read."""

    sheet: Sheet
    block: Block
    keys: Mapping[str, str]
    answers: Answers
    rows: range
    cells: Mapping[str, Cells]
    roles: list[RowRole]
    said: dict[str, list[Said]]
    joined: dict[int, int]
    held: dict[int, str]

    @classmethod
    def begun(
        cls, sheet: Sheet, block: Block, keys: Mapping[str, str], answers: Answers
    ) -> "_Look":
        rows = range(block.first, block.last + 1)
        cells = {
            it: written(cells_of(sheet, it, rows), answers) for it in block.letters
        }
        said = {
            letter: [OUT if text.strip() else BLANK for text in column.texts]
            for letter, column in cells.items()
        }
        roles = roles_of(sheet, block, keys, cells)
        return cls(sheet, block, keys, answers, rows, cells, roles, said, {}, {})

    def letters(self, key: str) -> list[str]:
        return [it for it, role in self.keys.items() if role == key]

    def _data(self, cells: Cells) -> Cells:
        """The column with nothing in the rows that are no readings."""
        is_data = [role == RowRole.DATA for role in self.roles]
        texts = [
            text if is_it else ""
            for text, is_it in zip(cells.texts, is_data, strict=True)
        ]
        kinds = [
            kind if is_it else " "
            for kind, is_it in zip(cells.kinds, is_data, strict=True)
        ]
        return replace(cells, texts=texts, kinds=kinds)

    def read_times(self, mapping: Mapped, around: Around) -> tuple[Times, Ordered]:
        letter = self.letters(TIME)[0]
        days = self.letters(DAY)
        told = (
            str(mapping[letter].get("unit", "")),
            self.block.units.get(letter, ""),
            self.block.headings.get(letter, ""),
        )
        times = read_times(
            self._data(self.cells[letter]),
            self._data(self.cells[days[0]]) if days else None,
            unit=next((unit for it in told if (unit := unit_of_time(it))), ""),
            today=around.today,
            is_1904=self.sheet.is_1904,
            answers=self.answers,
        )
        self._ask_no_times(letter, times)
        columns = [self.cells[it] for it in self.letters(VALUE)]
        texts = list(zip(*(it.texts for it in columns), strict=True))
        ordered = in_order(
            times.at, texts, letter=letter, rows=self.rows, answers=self.answers
        )
        self._say_times(letter, times, ordered)
        return times, ordered

    def _ask_no_times(self, letter: str, times: Times) -> None:
        wrong = [
            place
            for place, it in enumerate(times.said)
            if it.fate == Fate.REFUSED and not it.question
        ]
        if not wrong:
            return
        question = Question(
            f"{letter}/{NO_TIME}",
            letter,
            NO_TIME,
            "cell",
            f"{_rows_have(len(wrong))} no time that can be read. {times.said[wrong[0]].why}",
            (LEAVE,),
            tuple(f"{letter}{self.rows[place]}" for place in wrong[:200]),
            len(wrong),
            is_refusal=True,
            takes_text=True,
        )
        if self.answers.choices.get(question.key) != LEAVE.key:
            times.questions.append(question)
            for place in wrong:
                times.said[place] = replace(times.said[place], question=question.key)
            return
        times.answered.append(question)
        for place in wrong:
            self._hold(place, f"left out: {times.said[place].why}")
            times.said[place] = Said(Fate.LEFT_OUT, why=times.said[place].why)

    def _hold(self, place: int, why: str) -> None:
        self.roles[place] = RowRole.HELD
        self.held[self.rows[place]] = why

    def _say_times(self, letter: str, times: Times, ordered: Ordered) -> None:
        first = next((it for it in ordered.at if it is not None), 0)
        column = self.said[letter]
        for place, moment in enumerate(ordered.at):
            if self.roles[place] != RowRole.DATA:
                if times.said[place].fate == Fate.LEFT_OUT:
                    column[place] = times.said[place]
                continue
            if moment is not None:
                minutes = minutes_of(moment - first)
                note = ordered.notes.get(place, "")
                rule = f"{minutes} min after the first, {times.rule}"
                column[place] = Said(
                    Fate.CONVERTED, minutes, f"{rule}; {note}" if note else rule
                )
            elif place in ordered.twice:
                self.roles[place] = RowRole.DUPLICATE
                self.joined[self.rows[place]] = self.rows[ordered.twice[place]]
                column[place] = Said(Fate.LEFT_OUT, why="the same reading once more")
            elif place in ordered.out:
                self._hold(place, ordered.out[place])
                column[place] = Said(Fate.LEFT_OUT, why=ordered.out[place])
            else:
                column[place] = times.said[place]

    def read_sensors(self, mapping: Mapped, ordered: Ordered) -> list[Sensor]:
        places = [place for place, it in enumerate(ordered.at) if it is not None]
        sensors = []
        for letter in self.letters(VALUE):
            it = read_sensor(
                self.cells[letter],
                places,
                told=str(mapping[letter].get("unit", ""))
                or self.block.units.get(letter, ""),
                heading=self.block.headings.get(letter, ""),
                answers=self.answers,
            )
            read = set(places)
            self.said[letter] = [
                told if place in read else old
                for place, (told, old) in enumerate(
                    zip(it.said, self.said[letter], strict=True)
                )
            ]
            sensors.append(it)
        return sensors

    def row_of(
        self, it: Sensor, subject: Subject, times: Times, ordered: Ordered
    ) -> Row:
        time = self.letters(TIME)[0]
        taken = sum(
            1
            for said in self.said[it.letter]
            if said.fate in (Fate.TAKEN, Fate.CONVERTED)
        )
        values = {
            "letter": it.letter,
            "time": time,
            "heading": self.block.headings.get(it.letter, "").strip() or it.letter,
            "measures": it.measures,
            "unit": it.unit,
            "subject": subject.text,
            "choice": subject.choice,
            "started_at": _started_at(times, ordered),
            "count": str(taken),
        }
        return Row(self.block.first, values)

    def told(
        self,
        questions: Sequence[Question],
        answered: Sequence[Question],
        rows: Sequence[Row],
    ) -> Checked:
        def order(it: Question) -> tuple[bool, int]:
            return it.level != "column", place_of(it.column)

        return Checked(
            block=self.block,
            said=self.said,
            roles=self.roles,
            joined=self.joined,
            held=self.held,
            questions=tuple(sorted(questions, key=order)),
            answered=tuple(sorted(answered, key=order)),
            rows=tuple(rows),
        )


def _rows_have(count: int) -> str:
    return "1 row has" if count == 1 else f"{count} rows have"


def minutes_of(span: int) -> str:
    """Microseconds as minutes in plain decimals, to a hundred-thousandth."""
    exact = Decimal(span) / MINUTE
    return f"{exact.quantize(FINEST).normalize():f}"


def _started_at(times: Times, ordered: Ordered) -> str:
    """Day and time of the first reading by the logger's clock, where the file tells them."""
    first = next((it for it in ordered.at if it is not None), None)
    if first is None or times.first_day is None:
        return ""
    midnight = dt.datetime.combine(times.first_day, dt.time())
    return str(midnight + dt.timedelta(microseconds=first))
