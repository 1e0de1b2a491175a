"""One sensor's column of a logger's file: its unit, numbers that stand for no reading, a sensor that stood still."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal

from specs.numbers import Refused
from specs.tables.cells import Cells
from specs.tables.forms.cells import BLANK, number_of, refused, taken
from specs.tables.forms.logs import MEASURES
from specs.tables.saying import Answers, Choice, Fate, Question, Said
from specs.tables.sheet import EMPTY, FAULT, FORMULA
from specs.units import UNITS, unit_typed

UNIT, SENTINEL, STUCK, NO_NUMBER = "unit", "no reading", "stood still", "no number"
LEAVE, TAKE, LEFT_OUT = "leave", "take", "left out"
SENTINELS = frozenset(
    Decimal(it)
    for it in (
        "9999",
        "-9999",
        "999.9",
        "-999.9",
        "9999.9",
        "-999",
        "-200",
        "32767",
        "-32768",
        "65535",
        "850",
        "-270",
    )
)  # fmt: skip; what loggers write for a broken sensor; common practice, no source
SHORTEST_STILL = 30  # readings
SHARE_STILL = 20  # of all readings one in so many
MOST_WRITTEN = 200  # cells of a question that can each be written anew
MOST_SHOWN = 12  # where one answer holds for all of them
Places = Sequence[int]


@dataclass
class Sensor:
    """What is known of one column: its unit once it is known, one Said a row, what is asked."""

    letter: str
    unit: str
    said: list[Said]
    questions: list[Question] = field(default_factory=list)
    answered: list[Question] = field(default_factory=list)
    is_left_out: bool = False

    @property
    def measures(self) -> str:
        """Pressure or temperature; empty while the unit is asked."""
        return UNITS[self.unit].measures if self.unit else ""


def read_sensor(
    cells: Cells, places: Places, *, told: str, heading: str, answers: Answers
) -> Sensor:
    """The readings of a column in the given places. `told` is the unit that its head or the person states."""
    it = Sensor(cells.letter, _named(told), [BLANK] * len(cells.texts))
    if not it.unit:
        _ask_unit(it, cells, places, words=(heading, told), answers=answers)
    if it.is_left_out:
        out = Said(Fate.LEFT_OUT, why="this column is left out")
        it.said = [out if text.strip() else BLANK for text in cells.texts]
        return it
    known: dict[tuple[str, str], Said] = {}
    for place in places:
        cell = (cells.kinds[place], cells.texts[place])
        if cell not in known:
            known[cell] = _read(*cell)
        it.said[place] = known[cell]
    _ask_no_numbers(it, cells, places, answers)
    _ask_sentinels(it, cells, places, answers)
    _ask_still(it, cells, places, answers)
    return it


def _named(told: str) -> str:
    """The unit of pressure or temperature that a text names, else empty."""
    typed = unit_typed(f"1 {told}") if told.strip() else None
    name = typed[2] if typed else told.strip()
    return name if name in UNITS and UNITS[name].measures in MEASURES else ""


def _read(kind: str, text: str) -> Said:
    if kind == EMPTY or not text.strip():
        return BLANK
    if kind == FORMULA:
        return refused("The cell holds a formula: paste its value in the sheet.")
    if kind == FAULT:
        return refused(f"The cell shows the fault “{text}”.")
    try:
        number, rule = number_of(kind, text)
    except Refused as refusal:
        return refused(refusal.sentence)
    return taken(number.canonical, text, rule)


def _ask_unit(
    it: Sensor,
    cells: Cells,
    places: Places,
    *,
    words: tuple[str, str],
    answers: Answers,
) -> None:
    heading, told = words
    named = f" Its head says “{told}”, which is neither." if told.strip() else ""
    filled = places or [it for it, text in enumerate(cells.texts) if text.strip()]
    choices = [
        Choice(name, f"{name}, {unit.measures}")
        for name, unit in UNITS.items()
        if unit.measures in MEASURES
    ]
    question = Question(
        f"{it.letter}/{UNIT}",
        it.letter,
        UNIT,
        "column",
        f"In which unit of pressure or temperature is “{heading or it.letter}”?{named}",
        (*choices, Choice(LEFT_OUT, "Neither: leave this column out")),
        tuple(cells.address(place) for place in filled[:3]),
        len(filled),
    )
    choice = _settled(it, question, answers)
    it.is_left_out = choice == LEFT_OUT
    it.unit = choice if choice in UNITS else ""


def _settled(it: Sensor, question: Question, answers: Answers) -> str:
    """The answer to a question; without one it is asked."""
    choice = answers.choices.get(question.key, "")
    if choice in {one.key for one in question.choices}:
        it.answered.append(question)
        return choice
    it.questions.append(question)
    return ""


def _ask_no_numbers(it: Sensor, cells: Cells, places: Places, answers: Answers) -> None:
    wrong = [place for place in places if it.said[place].fate == Fate.REFUSED]
    if wrong:
        first = it.said[wrong[0]].why
        choices = (Choice(LEAVE, "Leave these readings out"),)
        question = _question(
            it,
            NO_NUMBER,
            cells,
            wrong,
            sentence=f"{_cells_hold(len(wrong))} no number. {first}",
            choices=choices,
            shown=MOST_WRITTEN,
        )
        question = replace(
            question, level="cell", is_refusal=True, takes_text=True, proposed=""
        )
        _put(it, wrong, question, _settled(it, question, answers))


def _cells_hold(count: int) -> str:
    return "1 cell holds" if count == 1 else f"{count} cells hold"


def _ask_sentinels(it: Sensor, cells: Cells, places: Places, answers: Answers) -> None:
    values = {it.said[place].value for place in places}
    none = {value for value in values if value and Decimal(value) in SENTINELS}
    if not none:
        return
    shown = [place for place in places if it.said[place].value in none]
    taken = [place for place in places if it.said[place].value]
    if len(shown) == len(taken):
        return
    numbers = ", ".join(sorted(none))
    choices = (
        Choice(LEAVE, "No readings: leave them out"),
        Choice(TAKE, "True readings: take them"),
    )
    question = _question(
        it,
        SENTINEL,
        cells,
        shown,
        sentence=f"{numbers}: loggers write this where a sensor gives nothing. Are these readings?",
        choices=choices,
    )
    _put(it, shown, question, _settled(it, question, answers))


def _ask_still(it: Sensor, cells: Cells, places: Places, answers: Answers) -> None:
    taken = [place for place in places if it.said[place].value]
    still = _longest_still(it, taken)
    if len(still) < max(SHORTEST_STILL, len(taken) // SHARE_STILL) or len(still) == len(
        taken
    ):
        return
    choices = (
        Choice(TAKE, "Take them"),
        Choice(LEAVE, "The sensor was stuck: leave them out but for the first"),
    )
    question = _question(
        it,
        STUCK,
        cells,
        still[1:],
        sentence=f"The signal stands still for {len(still)} readings at {it.said[still[0]].value}, from "
        f"{cells.address(still[0])} on.",
        choices=choices,
    )
    question = replace(question, proposed=TAKE)
    _put(it, still[1:], question, _settled(it, question, answers))


def _longest_still(it: Sensor, taken: Places) -> list[int]:
    longest: list[int] = []
    run: list[int] = []
    for place in taken:
        if run and it.said[place].value != it.said[run[0]].value:
            run = []
        run.append(place)
        if len(run) > len(longest):
            longest = run
    return longest


def _question(
    it: Sensor,
    matter: str,
    cells: Cells,
    places: Places,
    *,
    sentence: str,
    choices: tuple[Choice, ...],
    shown: int = MOST_SHOWN,
) -> Question:
    return Question(
        f"{it.letter}/{matter}",
        it.letter,
        matter,
        "column",
        sentence,
        choices,
        tuple(cells.address(place) for place in places[:shown]),
        len(places),
        choices[0].key,
    )


def _put(it: Sensor, places: Places, question: Question, choice: str) -> None:
    """Say of each cell of a question that it waits, or that it is left out."""
    if choice == TAKE:
        return
    for place in places:
        old = it.said[place]
        if choice == LEAVE:
            it.said[place] = Said(Fate.LEFT_OUT, why=f"left out: {question.matter}")
        else:
            fate = Fate.REFUSED if question.is_refusal else Fate.ASKS
            it.said[place] = replace(old, fate=fate, question=question.key)
