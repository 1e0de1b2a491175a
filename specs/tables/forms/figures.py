"""The table of a plant's own figures of methods: what it asks, and what can be said of its rows by themselves."""

from collections.abc import Iterable, Iterator

from specs.judging.constants import EXACT, PRINTED
from specs.judging.repeats import ROUTES, SCHOOLS
from specs.tables.checked import Row
from specs.tables.forms.form import Form, FormColumn, Reads
from specs.tables.forms.objections import LEAVE_ROWS, ROWS, Objection
from specs.tables.saying import Choice

COUNT, COMBINING = "determinations a result", "how they combine"
STEP, DIRECTION = "reporting step", "direction"
PLAUSIBLE_FROM, PLAUSIBLE_TO = "plausible from", "plausible to"
SCHOOL, ROUTE, CONSTANTS = "repeat rule", "route", "constants"
CONFIRM, DETERMINABILITY = "after a rejected set", "determinability"
REPEATABILITY, REPRODUCIBILITY = "repeatability", "reproducibility"
SAYS = (
    COUNT, COMBINING, STEP, DIRECTION, PLAUSIBLE_FROM, PLAUSIBLE_TO, SCHOOL, ROUTE,
    CONSTANTS, CONFIRM, DETERMINABILITY, REPEATABILITY, REPRODUCIBILITY,
)  # fmt: skip
PRECISIONS = frozenset({DETERMINABILITY, REPEATABILITY, REPRODUCIBILITY})
IN_THE_UNIT = PRECISIONS | {STEP, PLAUSIBLE_FROM, PLAUSIBLE_TO}
OWN_UNCERTAINTY = "own uncertainty"  # known, and never brought in

PUBLISHED, FROM_MEMORY = "published", "from memory"
DERIVED, COMMON_PRACTICE = "derived", "common practice"
STANDINGS = (PUBLISHED, FROM_MEMORY, DERIVED, COMMON_PRACTICE)
WORDS = (
    "mean", "median", "the worse", "two of three", "each stated", "lower", "higher",
    "nearer nought", "inside the limits", *SCHOOLS, *ROUTES, EXACT, PRINTED,
    "second fill", "nothing",
)  # fmt: skip

FIGURES = Form(
    "figures",
    "Figures of methods",
    "edition",
    (
        FormColumn(
            "edition",
            "Method and edition",
            note="As in ASTM D217-21a. Empty in the rows below that belong to it.",
            required=True,
            reads=Reads.NAME,
            of="edition",
            also=("Method", "Test method", "Edition", "Standard", "Methode", "Norm", "Prüfverfahren", "Verfahren"),
            fills_down=True,
        ),
        FormColumn(
            "characteristic",
            "Characteristic",
            note="What is measured: its code, or its name with the conditions. Empty where it is that of the row above.",
            required=True,
            reads=Reads.NAME,
            of="characteristic",
            also=("Property", "Test", "Parameter", "Merkmal", "Prüfung", "Eigenschaft"),
            fills_down=True,
        ),
        FormColumn(
            "figure",
            "Figure",
            note="What is stated: one row a figure.",
            required=True,
            choices=SAYS,
            reads=Reads.CHOICE,
            also=("What it says", "Kind of figure", "Statement", "Kenngröße", "Kennwert", "Angabe"),
            means={
                "number of determinations": COUNT, "determinations": COUNT, "determinations per result": COUNT,
                "bestimmungen": COUNT, "anzahl bestimmungen": COUNT, "bestimmungen je ergebnis": COUNT,
                "combining": COMBINING, "result from": COMBINING, "auswertung": COMBINING, "zusammenfassung": COMBINING,
                "step": STEP, "rounded to": STEP, "reported to": STEP, "rounding": STEP, "rundung": STEP,
                "rundungsschritt": STEP, "schrittweite": STEP, "better": DIRECTION, "richtung": DIRECTION,
                "lowest plausible": PLAUSIBLE_FROM, "plausible minimum": PLAUSIBLE_FROM, "plausibel von": PLAUSIBLE_FROM,
                "plausibel ab": PLAUSIBLE_FROM, "highest plausible": PLAUSIBLE_TO, "plausible maximum": PLAUSIBLE_TO,
                "plausibel bis": PLAUSIBLE_TO, "wiederholregel": SCHOOL, "repeats by": SCHOOL, "weg": ROUTE,
                "konstanten": CONSTANTS, "after rejection": CONFIRM, "nach verwerfen": CONFIRM,
                "bestimmbarkeit": DETERMINABILITY, "r": REPEATABILITY, "repeatability r": REPEATABILITY,
                "repeatability limit": REPEATABILITY, "wiederholbarkeit": REPEATABILITY,
                "wiederholgrenze": REPEATABILITY, "R": REPRODUCIBILITY, "reproducibility r": REPRODUCIBILITY,
                "reproducibility limit": REPRODUCIBILITY, "vergleichbarkeit": REPRODUCIBILITY,
                "vergleichgrenze": REPRODUCIBILITY, "own uncertainty": OWN_UNCERTAINTY,
                "own standard uncertainty": OWN_UNCERTAINTY, "standard uncertainty": OWN_UNCERTAINTY,
                "uncertainty": OWN_UNCERTAINTY, "u": OWN_UNCERTAINTY, "messunsicherheit": OWN_UNCERTAINTY,
                "standardunsicherheit": OWN_UNCERTAINTY, "unsicherheit": OWN_UNCERTAINTY,
            },
        ),
        FormColumn(
            "value",
            "Value",
            note="A number; a word such as mean; of a precision also 0.42 √m, 23 % or 2 + 5 %, m being the level.",
            required=True,
            reads=Reads.FIGURE,
            also=("Number", "Figure value", "Wert", "Zahlenwert"),
            means={
                **{it.casefold(): it for it in WORDS},
                "average": "mean", "mittelwert": "mean", "mittel": "mean", "zentralwert": "median",
                "worse": "the worse", "der schlechtere": "the worse", "der schlechtere wert": "the worse",
                "2 of 3": "two of three", "zwei von drei": "two of three", "einzeln": "each stated",
                "niedriger": "lower", "höher": "higher", "näher null": "nearer nought",
                "innerhalb der grenzen": "inside the limits", "exakt": EXACT, "gedruckt": PRINTED,
                "zweite füllung": "second fill", "nichts": "nothing",
            },
        ),
        FormColumn(
            "unit",
            "Unit",
            note="Of the value, to compare with that of the characteristic.",
            also=("Units", "Unit of the characteristic", "Einheit", "UoM"),
        ),
        FormColumn(
            "level_from",
            "Level from",
            note="Of a precision: where the range begins in which it holds. Empty: it has no beginning.",
            reads=Reads.NUMBER,
            also=("From level", "Range from", "Valid from", "Lower level", "Bereich von", "Gültig von", "Niveau von"),
        ),
        FormColumn(
            "level_to",
            "Level to",
            note="Where that range ends. Empty: it has no end.",
            reads=Reads.NUMBER,
            also=("To level", "Range to", "Valid to", "Upper level", "Bereich bis", "Gültig bis", "Niveau bis"),
        ),
        FormColumn(
            "source",
            "Source",
            note="Where the figure is from: the edition and its clause, a report, the plant's own trial.",
            required=True,
            also=("Where from", "Reference", "Quelle", "Herkunft", "Beleg", "Fundstelle"),
        ),
        FormColumn(
            "standing",
            "Standing",
            note="How it is known.",
            choices=STANDINGS,
            reads=Reads.CHOICE,
            also=("How known", "Known how", "Status"),
            means={
                "veröffentlicht": PUBLISHED, "aus dem gedächtnis": FROM_MEMORY, "memory": FROM_MEMORY,
                "abgeleitet": DERIVED, "practice": COMMON_PRACTICE, "übliche praxis": COMMON_PRACTICE,
            },
        ),
    ),
)  # fmt: skip

_HOW_KNOWN = (
    Choice(PUBLISHED, "Published: it stands so in the source that is named"),
    Choice(FROM_MEMORY, "From memory: nobody has held it against the source yet"),
    Choice(DERIVED, "Derived: worked out from what the source states"),
    Choice(COMMON_PRACTICE, "Common practice: it is done so, no source states it"),
    LEAVE_ROWS,
)
_OWN = (
    "The laboratory's own uncertainty is stated with a signature and is no figure of an "
    "edition: state it under Methods, at the characteristic, and leave these rows out."
)


def whole(rows: Iterable[Row]) -> list[Row]:
    """The rows in which nothing is missing that every figure needs."""
    needed = {it.key for it in FIGURES.columns if it.required}
    return [
        it for it in rows if needed <= {key for key, text in it.values.items() if text}
    ]


def is_own_uncertainty(row: Row) -> bool:
    """Whether a row states what is never brought in."""
    return row.values["figure"] == OWN_UNCERTAINTY


def place_of(row: Row) -> tuple[str, ...]:
    """What no two rows of a table share: edition, characteristic, figure, and the levels."""
    keys = ("edition", "characteristic", "figure", "level_from", "level_to")
    return tuple(row.values.get(key, "") for key in keys)


def against(rows: Iterable[Row]) -> Iterator[Objection]:
    """What stands against whole rows by themselves: an uncertainty, a figure stated twice, no standing."""
    seen: dict[tuple[str, ...], Row] = {}
    for row in rows:
        first = seen.setdefault(place_of(row), row)
        if is_own_uncertainty(row):
            yield Objection(
                row.row,
                "figure",
                _OWN,
                "stated with a signature",
                proposed=ROWS,
                takes_text=False,
            )
        elif first is not row:
            yield _twice(row, first)
        elif not row.values.get("standing"):
            yield _asks_standing(row)


def _twice(row: Row, first: Row) -> Objection:
    same = dict(first.values) == dict(row.values)
    return Objection(
        row.row,
        "value",
        f"Row {first.row} states this figure already, "
        f"{'in the same words' if same else 'otherwise: keep one of them'}.",
        matter="stands twice",
        proposed=ROWS if same else "",
        takes_text=False,
    )


def _asks_standing(row: Row) -> Objection:
    return Objection(
        row.row,
        "standing",
        "How are these figures known?",
        matter="standing",
        choices=_HOW_KNOWN,
        is_refusal=False,
        takes_text=False,
    )
