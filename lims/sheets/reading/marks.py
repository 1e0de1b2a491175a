"""What a sheet's own part tells and its values do not: formulas, faults, hidden rows and columns, number forms, how far the cells reach."""

import re
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from xml.parsers import expat

from lims.sheets.reading.guard import CHUNK
from lims.sheets.reading.parts import TRUE
from lims.sheets.reading.refusing import (
    CELLS,
    COLUMNS,
    ROWS,
    damaged,
    too_many_cells,
    too_many_columns,
    too_many_rows,
)
from specs.tables.sheet import letter_of, place_of

Cell = tuple[int, int]  # row and column, counted from 1
# Some programs write a plain yes, no or fault as a formula.
PLAIN = re.compile(r"(?:TRUE|FALSE)\(\)|#[A-Z0-9/!?_]+", re.I)
_ADDRESS = re.compile(r"\$?([A-Z]{1,3})\$?([1-9][0-9]{0,6})")
SPILLING = ("array", "dataTable")


@dataclass
class Marks:
    """What was seen in one sheet's part."""

    formulas: set[Cell] = field(default_factory=set)
    faults: dict[Cell, str] = field(default_factory=dict)
    signs: dict[Cell, str] = field(default_factory=dict)  # added by a number form
    hidden_rows: set[int] = field(default_factory=set)
    hidden_columns: set[int] = field(default_factory=set)
    bottom: int = 0  # the last row and column with a value
    right: int = 0


def marks_of(
    archive: zipfile.ZipFile, part: str, name: str, signs: Mapping[str, str]
) -> Marks:
    """Look through the part once, keeping only what is marked; raises FileRefused."""
    looker = _Looker(name, signs)
    parser = expat.ParserCreate()
    parser.ordered_attributes = True
    parser.buffer_text = True
    parser.StartDoctypeDeclHandler = parser.EntityDeclHandler = _declared
    parser.StartElementHandler = looker.root
    looker.parser = parser
    try:
        with archive.open(part) as stream:
            while chunk := stream.read(CHUNK):
                parser.Parse(chunk, False)  # noqa: FBT003 - it takes no names
        parser.Parse(b"", True)  # noqa: FBT003
        looker.end_row()
        looker.leave_out_what_hides_nothing()
    except (expat.ExpatError, ValueError, LookupError) as why:
        raise damaged(f"sheet “{name}” cannot be read") from why
    looker.check()
    return looker.marks


def _declared(*_told: object) -> None:
    raise ValueError("a document type")


def cell_of(address: str) -> Cell:
    """Row and column of an address; raises ValueError for what is none."""
    match = _ADDRESS.fullmatch(address)
    if match is None:
        raise ValueError(address)
    return int(match[2]), place_of(match[1])


class _Looker:
    """Follows the elements of one sheet. Attributes come as a flat list, which is by far the quicker."""

    parser: expat.XMLParserType

    def __init__(self, name: str, signs: Mapping[str, str]) -> None:
        self.name, self.style_signs = name, signs
        self.marks = Marks()
        self.row = 0
        self.address = ""  # of the cell that is open
        self.last = ""  # the last cell of the row that has a value
        self.attributes: list[str] = []  # of the cell that is open
        self.form: list[str] = []  # and of its formula
        self.words: list[str] = []

    def root(self, element: str, _attributes: list[str]) -> None:
        """The first element tells the prefix that all others carry."""
        prefix = element[: element.find(":") + 1]
        acts: dict[str, Callable[[list[str]], None]] = {
            "row": self.start_row,
            "c": self.start_cell,
            "v": self.start_value,
            "is": self.start_value,
            "f": self.start_formula,
            "col": self.start_column,
        }
        get = {prefix + name: act for name, act in acts.items()}.get

        def start(element: str, attributes: list[str]) -> None:
            act = get(element)
            if act is not None:
                act(attributes)

        self.parser.StartElementHandler = start

    def start_column(self, attributes: list[str]) -> None:
        told = _named(attributes)
        if told.get("hidden") in TRUE:
            first, last = int(told.get("min", "")), int(told.get("max", ""))
            self.marks.hidden_columns.update(
                range(max(first, 1), min(last, COLUMNS) + 1)
            )

    def start_row(self, attributes: list[str]) -> None:
        self.end_row()
        told = _named(attributes)
        self.row = int(told.get("r", self.row + 1))
        self.address = ""
        if told.get("hidden") in TRUE:
            self.marks.hidden_rows.add(self.row)

    def end_row(self) -> None:
        """Keep how far the row reached."""
        if self.last:
            self.reach()
        self.last = ""

    def reach(self) -> Cell:
        """The cell that has the last value lies within what is read."""
        row, column = cell_of(self.last)
        marks = self.marks
        marks.bottom, marks.right = max(marks.bottom, row), max(marks.right, column)
        return row, column

    def start_cell(self, attributes: list[str]) -> None:
        self.attributes = attributes
        if attributes and attributes[0] == "r":
            self.address = attributes[1]
        else:
            self.address = _named(attributes).get("r") or self._next()

    def _next(self) -> str:
        """Where a cell without an address stands: beside the one before it."""
        place = cell_of(self.address)[1] if self.address else 0
        return f"{letter_of(place + 1)}{self.row}"

    def start_value(self, _attributes: list[str]) -> None:
        self.last = self.address
        told = self.attributes
        if "e" in told and _named(told).get("t") == "e":
            self._listen(self.end_fault)
        elif self.style_signs and "s" in told:
            sign = self.style_signs.get(_named(told).get("s", ""))
            if sign:
                self.marks.signs[self.reach()] = sign

    def start_formula(self, attributes: list[str]) -> None:
        self.last, self.form = self.address, attributes
        self._listen(self.end_formula)

    def _listen(self, then: Callable[[], None]) -> None:
        def end(_element: str) -> None:
            parser.CharacterDataHandler = parser.EndElementHandler = None
            then()

        parser, self.words = self.parser, []
        parser.CharacterDataHandler, parser.EndElementHandler = self.words.append, end

    def end_fault(self) -> None:
        self.marks.faults[self.reach()] = "".join(self.words)

    def end_formula(self) -> None:
        if PLAIN.fullmatch("".join(self.words).strip()):
            return
        told = _named(self.form)
        self.marks.formulas.add(self.reach())
        if told.get("t") in SPILLING and "ref" in told:
            self.marks.formulas.update(_cells_of(told["ref"]))

    def leave_out_what_hides_nothing(self) -> None:
        """Hidden rows below the table and hidden columns beside it."""
        marks = self.marks
        marks.hidden_rows = {it for it in marks.hidden_rows if it <= marks.bottom}
        marks.hidden_columns = {it for it in marks.hidden_columns if it <= marks.right}

    def check(self) -> None:
        """Whether what lies between the first cell and the last value can be held."""
        sheet = f"Sheet “{self.name}”"
        if self.marks.bottom > ROWS:
            raise too_many_rows(sheet, self.marks.bottom)
        if self.marks.right > COLUMNS:
            raise too_many_columns(sheet, self.marks.right)
        span = self.marks.bottom * self.marks.right
        if span > CELLS:
            raise too_many_cells(sheet, span)


def _named(attributes: list[str]) -> dict[str, str]:
    return dict(zip(attributes[::2], attributes[1::2], strict=True))


def _cells_of(range_of: str) -> set[Cell]:
    """The cells that one formula fills; the bounds of a sheet hold for it too."""
    first, _, last = range_of.partition(":")
    (top, left), (bottom, right) = cell_of(first), cell_of(last or first)
    if (bottom - top + 1) * (right - left + 1) > CELLS:
        raise ValueError(range_of)
    return {
        (row, column)
        for row in range(top, bottom + 1)
        for column in range(left, right + 1)
    }
