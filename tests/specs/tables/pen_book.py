"""The pen book of the grease works: twelve rows of a sheet as people keep them, and what the laboratory knows."""

import csv
import datetime as dt
import io
from decimal import Decimal

from specs.methods.ratings import COPPER_SCALE
from specs.tables.known import Known, Limits, Measured, Role, Use
from specs.tables.layout import Block
from specs.tables.sheet import EMPTY, TEXT, Column, Sheet, letter_of

TEXT_OF_IT = """\
Quern Mill lab - pen book 2025/26;;;;;;;;
Batch;Date;Product;Pen W60;Pen 100k;Drop pt;Ox. 100h;Cu strip;Remark
Q1-25-0377;03/12/2025;LX2;280,5;301;201;5.5 psi;1b;ok
;;;281;;;;;2nd cup
;;;279;;;;;
Q1-25-O378;46009;LX2;27,9;;198;38;1a;pen in mm
Q1-25-0379;12.12.2025;PU2;>300;;>288;<2;1b;too soft?
Q1-25-0380;2025-12-15;LC2;283 (retest);;262;0,40;pass;
Q1-25-0381;15/12/25;LX2;2 81;298;388F;n/a;1b;
Q1-25-0381;15/12/25;LX2;281;298;388F;n/a;1b;dup?
Q1-25-0382;03/01/2026;LX2;265-295;;;;;limits row pasted
Q1-25-0383;31/02/2026;LX2;279;;200;35;1B;
Q1-25-0384;;LX2;28l;;199;36;2a;
;;Average;280,1;299;;;;
"""

USES = {
    "A": Use(Role.BATCH),
    "B": Use(Role.DAY),
    "C": Use(Role.PRODUCT),
    "D": Use(Role.RESULT, "worked-penetration"),
    "E": Use(Role.RESULT, "prolonged-penetration-100000"),
    "F": Use(Role.RESULT, "dropping-point-block"),
    "G": Use(Role.RESULT, "oxidation-drop"),
    "H": Use(Role.RESULT, "copper-strip"),
    "I": Use(Role.REMARK),
}
MEASURED = (
    Measured(
        "worked-penetration",
        "Worked penetration",
        "60 double strokes, 25 °C",
        "0.1 mm",
        plausible_from=Decimal(85),
        plausible_to=Decimal(500),
    ),
    Measured(
        "prolonged-penetration-100000",
        "Prolonged worked penetration",
        "100 000 double strokes, 25 °C",
        "0.1 mm",
    ),
    Measured("dropping-point-block", "Dropping point", "aluminium block", "°C"),
    Measured("oxidation-drop", "Oxidation, pressure drop", "100 h, 99 °C", "kPa"),
    Measured(
        "copper-strip",
        "Copper strip",
        "24 h, 100 °C",
        kind="rating",
        scale=COPPER_SCALE,
    ),
)
KNOWN = Known(
    today=dt.date(2026, 2, 10),
    characteristics={it.code: it for it in MEASURED},
    products=frozenset({"LX2", "PU2", "LC2"}),
    limits={
        (product, code): Limits(*ends)
        for product in ("LX2", "PU2", "LC2")
        for code, ends in {
            "worked-penetration": ("265", "295"),
            "dropping-point-block": ("190" if product == "LX2" else "250", ""),
            "oxidation-drop": ("", "70"),
            "copper-strip": ("", "1b"),
        }.items()
    },
)


def sheet_of(text: str, name: str = "Sheet1") -> Sheet:
    """A sheet out of columns divided by semicolons."""
    rows = list(csv.reader(io.StringIO(text), delimiter=";"))
    width = max(len(row) for row in rows)
    rows = [row + [""] * (width - len(row)) for row in rows]
    columns = []
    for place, texts in enumerate(zip(*rows, strict=True), 1):
        kinds = "".join(TEXT if text else EMPTY for text in texts)
        columns.append(Column(letter_of(place), texts, kinds))
    return Sheet(name, tuple(columns))


def block_of(sheet: Sheet, *, head: int = 1, titles: tuple[int, ...] = ()) -> Block:
    """The block of a sheet with one table: its head in one row, data from there to the end."""
    letters = tuple(it.letter for it in sheet.columns)
    return Block(
        key=f"{sheet.name}!{letters[0]}{head}:{letters[-1]}{sheet.height}",
        sheet=sheet.name,
        titles=titles,
        heads=(head,),
        units_row=None,
        first=head + 1,
        last=sheet.height,
        letters=letters,
        headings={it: sheet.text(it, head) for it in letters},
        units={},
        fingerprint="",
    )
