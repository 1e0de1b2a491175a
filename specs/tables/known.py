"""What is known when a sheet is read: today, the products, what can be measured, and what each column is taken for."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum


class Role(StrEnum):
    """What a column of results holds."""

    BATCH = "batch"
    DAY = "date"
    PRODUCT = "product"
    KETTLE = "kettle"
    PACK = "fill lot"
    PLACE = "where sampled"  # kettle, pack, ...
    INSTRUMENT = "instrument"
    PERSON = "person"
    REMARK = "remark"
    RESULT = "result"
    TESTED = "what was tested"  # with FOUND: one result a row, and not one a column
    FOUND = "result of it"
    UNIT = "unit of it"
    LEFT_OUT = "left out"


@dataclass(frozen=True)
class Use:
    """What one column is taken for. A result names its characteristic, and its unit where the head says one."""

    role: Role
    characteristic: str = ""  # its code
    unit: str = ""  # of numbers without one of their own; empty while nobody has said


Uses = Mapping[str, Use]  # by the column's letter


@dataclass(frozen=True)
class Measured:
    """A characteristic as the sheet's numbers are held against it."""

    code: str
    name: str
    conditions: str = ""
    unit: str = ""
    kind: str = "number"  # number, ladder, rating, pass or fail, words
    step: str = "1"
    is_signed: bool = False
    scale: tuple[str, ...] = ()  # the marks of a rating, best first
    plausible_from: Decimal | None = None
    plausible_to: Decimal | None = None


@dataclass(frozen=True)
class Limits:
    """Limits in force for one characteristic of a product; empty where there is none. For a rating `upper` is the worst mark allowed."""

    lower: str = ""
    upper: str = ""


@dataclass(frozen=True)
class Known:
    """What the laboratory knows on the day of the import."""

    today: dt.date
    characteristics: Mapping[str, Measured] = field(default_factory=dict)
    products: frozenset[str] = frozenset()  # codes
    names: Mapping[str, str] = field(default_factory=dict)  # of products, by code
    limits: Mapping[tuple[str, str], Limits] = field(default_factory=dict)
