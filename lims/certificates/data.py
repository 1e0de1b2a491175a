"""What a certificate says, frozen at issue: the JSON in the record, in the PDF and behind the check page."""

import dataclasses
import json
import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Literal, Self, get_args

from lims.certificates.plain import ADDED, UnfitDataError, made, told
from lims.wording.languages import Language

SCHEMA = "kettlemark-certificate/1"

Verdict = Literal["met", "not met", "not tested", "not evaluated", ""]
Evidence = Literal["tested on this lot", "tested on this batch", "periodic"]

ON_LOT: Evidence = "tested on this lot"
ON_BATCH: Evidence = "tested on this batch"
PERIODIC: Evidence = "periodic"
PRINT_ORDER = (ON_LOT, ON_BATCH, PERIODIC)

CODE = re.compile(r"[0-9A-HJKMNP-TV-Z]{26}")  # Crockford's base 32: no I, L, O, U


@dataclass(frozen=True, slots=True, kw_only=True)
class Issuer:
    name: str
    laboratory: str
    address: str
    mail: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductNamed:
    code: str
    name: str
    designation: str = ""


@dataclass(frozen=True, slots=True)
class Fact:
    """A label and what stands beside it; known English labels are translated on the page."""

    label: str
    value: str


@dataclass(frozen=True, slots=True)
class Dated:
    """A label with a day, or with a first and a last day (ISO)."""

    label: str
    first_day: str
    last_day: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TestedOn:
    """Where a result comes from when it is not from this fill lot (days in ISO)."""

    __test__ = False  # not a test, whatever its name begins with

    batch: str
    lot: str = ""
    first_day: str = ""
    last_day: str = ""
    valid_until: str = ""
    valid_batches: int | None = None
    by: str = ""  # in the certificate's language: the laboratory, its report


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruled:
    """A decision rule with a zone of its own: what it accepts, and the figures that it comes from. Numbers are text."""

    rule: str  # "guarded acceptance"
    lower: str = ""  # the values that are accepted, from and to
    upper: str = ""
    factor: str = ""  # so many times the uncertainty between limit and zone
    uncertainty: str = ""
    basis: str = ""  # "own uncertainty" or "reproducibility"
    confidence: str = ""  # "0.95", one-sided


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One requirement with its result. No verdict: report only. Numbers are text, as reported."""

    line: int
    characteristic: str
    conditions: str = ""
    method: str  # with its edition
    unit: str = ""
    lower: str | None = None
    upper: str | None = None
    must: str | None = None  # a demand in words, in place of limits
    result: str
    verdict: Verdict
    evidence: Evidence
    tested_on: TestedOn | None = None
    procedure: str = ""  # empty: the statement's
    note: str = ""
    standing_note: str = (
        ""  # no longer written, nor printed; papers issued with it stay readable
    )
    ruled: Ruled | None = field(default=None, metadata=ADDED)  # None: the statement's


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """How the rows that carry a verdict came out: counts, and the lines that are not plain."""

    total: int
    met: int
    on_lot: int
    not_met: tuple[int, ...] = ()
    not_tested: tuple[int, ...] = ()
    not_evaluated: tuple[int, ...] = ()
    on_batch: tuple[int, ...] = ()
    periodic: tuple[int, ...] = ()

    @classmethod
    def of(cls, rows: Iterable[Row]) -> Self:
        """The finding that these rows give."""
        judged = [row for row in rows if row.verdict]
        tested = [row for row in judged if row.verdict != "not tested"]

        def lines(among: list[Row], name: str, value: str) -> tuple[int, ...]:
            return tuple(row.line for row in among if getattr(row, name) == value)

        return cls(
            total=len(judged),
            met=len(lines(judged, "verdict", "met")),
            on_lot=len(lines(tested, "evidence", ON_LOT)),
            not_met=lines(judged, "verdict", "not met"),
            not_tested=lines(judged, "verdict", "not tested"),
            not_evaluated=lines(judged, "verdict", "not evaluated"),
            on_batch=lines(tested, "evidence", ON_BATCH),
            periodic=lines(tested, "evidence", PERIODIC),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """By which rule the rows were judged and how the sample was taken."""

    rule: str  # "simple acceptance"
    procedure: str  # "rounding" or "absolute"
    sampling_plan: str = ""  # "plan SP-02"
    product_from: str = ""  # "the pack"
    remarks: tuple[str, ...] = ()  # whole sentences, in the certificate's language


@dataclass(frozen=True, slots=True, kw_only=True)
class Signed:
    """The four parts of a signature: name, function, meaning, time (with its zone's name)."""

    name: str
    function: str
    meaning: str
    at: str
    zone: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordHead:
    """The length of the record and the hash of its last entry when the data were frozen."""

    entries: int
    head: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CertificateData:
    """One certificate, or a preview of one (no number, revision, code nor record head)."""

    schema: str = SCHEMA
    number: str | None
    revision: int | None
    state: str = "current"
    language: Language = "en"
    paper: Literal["A4", "letter"] = "A4"
    issuer: Issuer
    issued_at: str  # ISO with offset; of a preview: when it was printed
    code: str | None
    check_address: str  # the site's address, https://lab.example
    product: ProductNamed
    batch: str
    lot: str
    lot_words: str = ""
    quantity: str = ""  # "4 drums, 720 kg net"
    item: tuple[Fact, ...] = ()
    dates: tuple[Dated, ...] = ()
    customer: tuple[Fact, ...] = ()
    specification: str  # "specification LX2, revision 5"
    in_force_on: str
    rows: tuple[Row, ...]
    typical: tuple[Fact, ...] = ()
    statement: Statement
    signatures: tuple[Signed, ...] = ()
    record: RecordHead | None
    finding: Finding = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "finding", Finding.of(self.rows))
        if self.schema != SCHEMA:
            raise UnfitDataError(f"The data are of {self.schema}, not of {SCHEMA}.")
        _check_lines(self.rows)
        _check_moments(self)
        marks = (self.number, self.revision, self.code, self.record)
        if self.is_preview:
            if any(mark is not None for mark in marks):
                raise UnfitDataError(
                    "A preview has no number, revision, code or record."
                )
        elif any(mark is None for mark in marks) or not self.signatures:
            raise UnfitDataError(
                "A certificate needs number, revision, code, record and a signature."
            )
        if self.code is not None and not CODE.fullmatch(self.code):
            raise UnfitDataError("The code must be 26 characters of base 32.")

    @property
    def is_preview(self) -> bool:
        return self.number is None

    @property
    def check_root(self) -> str:
        """The address as far as the code, ending in /check/."""
        return self.check_address.rstrip("/").removesuffix("/check") + "/check/"

    def to_json(self) -> str:
        """The data as text; the same data always give the same text."""
        return json.dumps(told(self), ensure_ascii=False, indent=1)

    @classmethod
    def from_json(cls, text: str) -> Self:
        """The data that `to_json` wrote; refuses unknown, missing and contradicting parts."""
        found = json.loads(text)
        if not isinstance(found, dict):
            raise UnfitDataError("The data are not an object.")
        finding = found.pop("finding", None)
        read = made(cls, found)
        if not isinstance(read, cls) or made(Finding, finding) != read.finding:
            raise UnfitDataError("The finding does not follow from the rows.")
        return read


def numbered(rows: Iterable[Row]) -> tuple[Row, ...]:
    """The rows in the order of print (this lot, this batch, periodic), with lines from 1."""
    ordered = sorted(rows, key=lambda row: PRINT_ORDER.index(row.evidence))
    return tuple(dataclasses.replace(row, line=n) for n, row in enumerate(ordered, 1))


def _check_lines(rows: tuple[Row, ...]) -> None:
    if not rows:
        raise UnfitDataError("A certificate needs at least one requirement.")
    if len({row.line for row in rows}) != len(rows):
        raise UnfitDataError("Two rows carry the same line number.")
    for row in rows:
        if row.evidence not in PRINT_ORDER or row.verdict not in get_args(Verdict):
            raise UnfitDataError(f"Line {row.line}: unknown verdict or evidence.")
        if row.evidence != ON_LOT and row.tested_on is None:
            raise UnfitDataError(f"Line {row.line}: say where it was tested.")


def _check_moments(of: CertificateData) -> None:
    moments = [of.issued_at, *(signed.at for signed in of.signatures)]
    if any(datetime.fromisoformat(moment).tzinfo is None for moment in moments):
        raise UnfitDataError("Every time needs its offset from UTC.")
    date.fromisoformat(of.in_force_on)
