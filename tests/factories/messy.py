"""A workbook as laboratories keep it, with two thousand invented results, and what they truly are."""

import datetime as dt
import io
import random
from dataclasses import dataclass, field
from decimal import ROUND_HALF_EVEN, Decimal

import openpyxl

GREASES = {  # as the sheet names them, the product, worked penetration, dropping point
    "LX2": ("LX2", 280, 198),
    "Lithium complex red": ("LC2", 276, 262),
    "polyurea 2": ("PU2", 283, 266),
    "CS-2": ("CS2", 279, 301),
}
HEADS = (
    *("Batch No.", "Date", "Grease", "Kettle", "Pen W60", "Pen 100k", "Drop pt"),
    *("Oil sep", "Cu strip", "Ox. 100h", "Remarks"),
)
UNITS = ("", "", "", "", "0.1 mm", "0.1 mm", "°C", "%", "", "kPa", "")
CODES = (
    *("worked-penetration", "prolonged-penetration-100000", "dropping-point-block"),
    *("oil-separation", "copper-strip", "oxidation-drop"),
)
FIRST = dt.date(2024, 1, 8)
ROWS = 340  # of six results


@dataclass
class Messy:
    """The sheet's rows as typed, and what each result is: by batch and characteristic."""

    rows: list[tuple[object, ...]] = field(default_factory=list)
    truth: dict[tuple[str, str], str] = field(default_factory=dict)
    products: dict[str, str] = field(default_factory=dict)  # by batch

    def workbook(self) -> bytes:
        """The sheet, with a title, a row of units, the heads once more, and means at its foot."""
        book = openpyxl.Workbook()
        sheet = book.active
        sheet.title = "Batch book"
        sheet.append(["Quernstone laboratory, batch book 2024 to 2025"])
        sheet.append(HEADS)
        sheet.append(UNITS)
        for place, row in enumerate(self.rows):
            if place == ROWS // 2:
                sheet.append([])
                sheet.append(HEADS)
            sheet.append(row)
        sheet.append(["Average", None, None, None, 279.6, 300.2, 240, 2.6, None, 36])
        sheet.row_dimensions[40].hidden = True
        stream = io.BytesIO()
        book.save(stream)
        return stream.getvalue()


def messy(seed: int = 7) -> Messy:
    """Rows that no two people would have typed alike; the same ones for the same seed."""
    chance, found = random.Random(seed), Messy()  # noqa: S311 - invented data
    for place in range(ROWS):
        batch = f"Q1-{24 + place // 180}-{1 + place % 180:04}"
        day = FIRST + dt.timedelta(days=2 * place)
        grease = chance.choice(list(GREASES))
        product, pen, drop = GREASES[grease]
        found.products[batch] = product
        told = [
            _penetration(chance, pen),
            _penetration(chance, pen + 20),
            _dropping(chance, drop),
            _separation(chance),
            _copper(chance),
            _oxidation(chance),
        ]
        for code, (_, value) in zip(CODES, told, strict=True):
            if value:
                found.truth[batch, code] = value
        kettle = f"K{1 + place % 3}"
        remark = chance.choice([None, None, "ok", "repeat of worker", "as agreed"])
        cells = (it for it, _ in told)
        found.rows.append((batch, _day(chance, day), grease, kettle, *cells, remark))
    return found


Told = tuple[object, str]  # what the cell holds, and the value that it means


def _day(chance: random.Random, day: dt.date) -> object:
    form = chance.choice(["typed", "typed", "%d.%m.%Y", "%d/%m/%y", "%Y-%m-%d"])
    return day if form == "typed" else day.strftime(form)


def _penetration(chance: random.Random, around: int) -> Told:
    value = around + chance.randint(-9, 9)
    match chance.randint(0, 9):
        case 0:
            return f"{value},5", f"{value}.5"
        case 1:
            return f" {value} ", str(value)
        case 2:
            return None, ""
        case _:
            return value, str(value)


def _dropping(chance: random.Random, around: int) -> Told:
    value = around + chance.randint(-5, 5)
    match chance.randint(0, 11):
        case 0:
            fahrenheit = value * 9 // 5 + 32
            exact = (Decimal(fahrenheit) - 32) * 5 / 9
            return f"{fahrenheit} °F", str(exact.quantize(Decimal("0.1"), ROUND_HALF_EVEN))  # fmt: skip
        case 1:
            return f">{value}", f">{value}"
        case 2:
            return f"{value} °C", str(value)
        case _:
            return value, str(value)


def _separation(chance: random.Random) -> Told:
    tenths = chance.randint(11, 42)
    value = f"{tenths // 10}.{tenths % 10}"
    match chance.randint(0, 4):
        case 0:
            return value.replace(".", ","), value
        case 1:
            return "n/a", ""
        case _:
            return float(value), value.removesuffix(".0")  # as a workbook keeps it


def _copper(chance: random.Random) -> Told:
    mark = chance.choice(["1a", "1b", "1b", "1A"])
    return mark, mark.lower()


def _oxidation(chance: random.Random) -> Told:
    value = chance.randint(25, 60)
    return ("-", "") if chance.randint(0, 7) == 0 else (value, str(value))
