"""Whatever stands in the cells: each gets its fate, what waits is asked, and answers lead to an end."""

import datetime as dt
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from specs.numbers import Number
from specs.tables.checked import Checked
from specs.tables.checking import checked
from specs.tables.reading import SETTLED
from specs.tables.saying import Answers, Fate, RowRole
from specs.tables.sheet import Column, Merged, Sheet, letter_of
from tests.specs.tables.pen_book import KNOWN, USES, block_of

MOST_ROUNDS = 8
WAITING = (Fate.ASKS, Fate.REFUSED)

ODD = st.sampled_from(
    ["280", "281", "279", "280,5", "27,9", "27.9", ">300", "<2", "0,40", "38", "5.5¤psi", "388F", "198¤°C", "2¤81", "28l", "O", "265-295", "283¤(retest)", "281*", "n/a", "-", "1b", "1B", "pass", "fail", "2a", "9z", "0/1", "=A1+1", "#N/A", "TRUE", "-5", "−5", "1e3", "1.234,5", "280/281/279", "~280", "280¤(2nd¤cup)", "40¤kg", "12¤%", "Average", "Mean", "n", "Summe", "LX2", "lx-2", "XX9", "Q1-25-0377", "Q1-25-O378", "15/12/25", "31/02/2026", "03/01/2026", "2025-12-15", "46009", "12.12.2025", "3.¤Dez¤2025", "1904", "1/2/2099", "Batch", "Date", '"', "do.", "kPa", "mm", "٣٥", "1¦234", "280\u200b", "\u202e280", "999999999999999999", ".5", "5."]
).map(lambda it: it.replace("¤", " ").replace("¦", "\u00a0"))  # fmt: skip
TEXTS = st.one_of(st.just(""), ODD, ODD, ODD, st.text(max_size=6))
KINDS = st.sampled_from("tttttnndmbfe")
BATCHES = st.sampled_from(["Q1-25-0377", "Q1-25-0378", "Q1-25-0379", "Q1-25-O380", ""])
DAYS = st.sampled_from(["2025-12-03", "03/12/2025", "15/12/25", "2025-12-18", ""])
CODES = st.sampled_from(["LX2", "LX2", "PU2", "lc-2", ""])
GOOD = {
    "A": BATCHES,
    "B": DAYS,
    "C": CODES,
    "D": st.sampled_from(["280", "281", "280,5", "279", "", "281*", "27,9"]),
    "G": st.sampled_from(["38", "35", "0,40", "5.5 psi", "", "41"]),
    "H": st.sampled_from(["1b", "1a", "2a", "", "pass"]),
    "I": st.sampled_from(["", "", "pen in mm", "ok"]),
}


@st.composite
def cells(draw, letter):
    """A text and what the file says of it: nine times of ten what belongs there."""
    if draw(st.integers(0, 9)):
        text = draw(GOOD.get(letter, GOOD["D"]))
        return text, "t" if text else " "
    text = draw(TEXTS)
    return text, draw(KINDS) if text else " "


LETTERS = [letter_of(place) for place in range(1, 10)]


@st.composite
def rows(draw):
    """Rows as people keep them: some belong to the one above, some repeat it."""
    found = [[draw(cells(it)) for it in LETTERS]]
    for _ in range(draw(st.integers(0, 6))):
        row = [draw(cells(it)) for it in LETTERS]
        match draw(st.integers(0, 5)):
            case 0:
                row[:3] = [("", " ")] * 3
            case 1:
                row = [*found[-1]]
        found.append(row)
    return found


@st.composite
def sheets(draw):
    columns = [
        Column(
            it,
            ["Head", *(at[0] for at in column)],
            "t" + "".join(at[1] for at in column),
        )
        for it, column in zip(LETTERS, zip(*draw(rows()), strict=True), strict=True)
    ]
    merged = (Merged(2, 1, 3, 1),) if draw(st.booleans()) else ()
    notes = {"D2": "really 282"} if draw(st.booleans()) else {}
    return Sheet(
        "Sheet1", tuple(columns), merged, notes=notes, is_1904=draw(st.booleans())
    )


def look(sheet: Sheet, answers: Answers) -> Checked:
    return checked(sheet, block_of(sheet), USES, answers, KNOWN)


def answered(found: Checked, choices: dict[str, str], pick: int) -> dict[str, str]:
    more = {it.key: it.choices[pick % len(it.choices)].key for it in found.questions}
    return {**choices, **more}


@given(sheets())
@settings(max_examples=150)
def test_what_waits_is_asked_and_what_is_asked_waits(sheet):
    found = look(sheet, Answers())

    keys = {it.key for it in found.questions}
    waiting = {
        it.question for column in found.said.values() for it in column if it.fate in WAITING
    }  # fmt: skip
    assert waiting == keys
    assert found.is_ready == (not waiting)
    for column in found.said.values():
        assert len(column) == len(found.roles)
        for it in column:
            assert it.why or it.fate is not Fate.REFUSED


@given(sheets(), st.integers(0, 3))
@settings(max_examples=150)
def test_any_answers_lead_to_an_end(sheet, pick):
    choices: dict[str, str] = {}
    for _ in range(MOST_ROUNDS):
        found = look(sheet, Answers(choices))
        if found.is_ready:
            break
        choices = answered(found, choices, pick)

    assert found.is_ready
    for row, why in found.held.items():
        assert found.role(row) is RowRole.HELD
        assert why


@given(sheets(), st.integers(0, 3))
@settings(max_examples=150)
def test_every_value_stands_on_cells_that_were_taken(sheet, pick):
    choices: dict[str, str] = {}
    for _ in range(MOST_ROUNDS):
        found = look(sheet, Answers(choices))
        _check_lines(sheet, found)
        if found.is_ready:
            break
        choices = answered(found, choices, pick)


def _check_lines(sheet: Sheet, found: Checked) -> None:
    for line in found.lines:
        assert line.batch
        assert line.product in KNOWN.products
        assert dt.date.fromisoformat(line.day) <= KNOWN.today
        for value in line.values:
            for at, raw in zip(value.cells, value.raw, strict=True):
                said = found.at(at[0], int(at[1:]))
                assert said.fate in SETTLED
                assert sheet.text(at[0], int(at[1:])) == raw
                assert int(at[1:]) in line.rows
            if KNOWN.characteristics[value.characteristic].kind == "number":
                assert Number.stored(value.value).value >= Decimal(-80)


@given(sheets(), TEXTS, st.sampled_from(["A2", "B2", "D2", "G3", "H4", "C2"]))
@settings(max_examples=100)
def test_what_is_written_instead_is_read_as_if_it_stood_there(sheet, text, address):
    letter, row = address[0], int(address[1:])
    answers = Answers(instead={address: text})

    found = look(sheet, answers)

    if text.strip() and row <= sheet.height and found.role(row) is RowRole.DATA:
        said = found.at(letter, row)
        assert said.fate in WAITING or "written" in said.rule or said.fate in {Fate.LEFT_OUT, Fate.EMPTY}  # fmt: skip
