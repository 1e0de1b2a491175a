"""Typed text to exact number: "279", "27,9", ">288", "<2"; what is refused, in words."""

import re
from dataclasses import dataclass
from decimal import Context, Decimal, localcontext
from fractions import Fraction
from typing import Literal, Self

Sign = Literal["", "<", ">"]

LONGEST_TEXT = 40
MOST_DIGITS = 15
EXACT = Context(prec=28)
MOST_PARTS = 1_000_000  # of a simple fraction: thirds of readings, masses of a balance

_NUMBER = re.compile(
    r"(?P<sign>[<>]?) *(?P<number>[+-]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+))"
)
_STORED = re.compile(r"(?P<sign>[<>]?)(?P<number>-?[0-9]+(?:\.[0-9]+)?)")
_MINUS_SIGNS = str.maketrans({"−": "-", "–": "-"})
_SPACES = "\t\r\n\u00a0\u2009\u202f"
_GROUPING = str.maketrans("", "", f" '’_{_SPACES}")
_LOOKALIKES = str.maketrans({"l": "1", "I": "1", "|": "1", "O": "0", "o": "0"})


class Refused(ValueError):  # noqa: N818 - a refusal is the answer, not a fault
    """A refusal by `specs`; its text is a sentence that says what to do."""

    @property
    def sentence(self) -> str:
        """The sentence to show to the person who typed."""
        return str(self)


class NumberRefused(Refused):
    """The typed text is no number; the text itself is kept by whoever asked."""


@dataclass(frozen=True)
class Number:
    """An exact decimal number beside the text it was read from.

    `sign` is empty for a number that was read, ">" or "<" for one that is only
    known to lie above or below `value` (a censored value).
    """

    text: str
    value: Decimal
    sign: Sign = ""

    @classmethod
    def of(cls, value: Decimal | int, sign: Sign = "") -> Self:
        """The number of a computed decimal, its text being its canonical form.

        Raises NumberRefused for NaN and the infinities.
        """
        value = Decimal(value)
        if not value.is_finite():
            raise NumberRefused("The calculation gives no finite number.")
        value = value.copy_abs() if value.is_zero() else value
        return cls(text=f"{sign}{value:f}", value=value, sign=sign)

    @classmethod
    def stored(cls, canonical: str) -> Self:
        """The number of a canonical text; unlike `read` it bounds no digits.

        Raises NumberRefused when the text is not in canonical form.
        """
        found = _STORED.fullmatch(canonical)
        if found is None:
            raise NumberRefused(f"{_quoted(canonical)} is not a stored number.")
        return cls(canonical, Decimal(found["number"]), _sign(found["sign"]))

    @property
    def canonical(self) -> str:
        """Sign and plain decimal digits, without exponent: ">288", "-0.50"."""
        value = self.value.copy_abs() if self.value.is_zero() else self.value
        return f"{self.sign}{value:f}"

    @property
    def is_censored(self) -> bool:
        """Whether only a bound is known."""
        return self.sign != ""

    @property
    def exact(self) -> Fraction:
        """The value as a fraction, for arithmetic without rounding.

        A computed value of 28 digits stands for the fraction that it was cut from,
        96.66…67 for 290/3: so two means that differ by just r do differ by just r.
        """
        return _uncut(self.value)

    def __str__(self) -> str:
        return self.canonical


def read(text: str, unit: str = "") -> Number:
    """The number that a person typed into a box, which takes it in `unit`.

    Point and comma are both decimal marks and nothing is ever taken as grouping;
    "<" and ">" make a censored number; "−" and "–" are minus; "-0" is 0. A number with
    another unit behind it is never converted: the refusal offers what it would be.
    Raises NumberRefused with a sentence that says what to write instead.
    """
    _check_size_and_signs(text)
    typed = text.strip().translate(_MINUS_SIGNS)
    plain = typed.replace(",", ".")
    found = _NUMBER.fullmatch(plain)
    if found is None:
        raise NumberRefused(_why_not(typed, unit))
    digits = found["number"].lstrip("+-0.").replace(".", "")
    if len(digits) > MOST_DIGITS:
        raise NumberRefused(
            f"{_quoted(text)} has {len(digits)} digits: no instrument reads that finely. "
            f"Write at most {MOST_DIGITS}."
        )
    value = Decimal(found["number"])
    return Number(
        text=text,
        value=value.copy_abs() if value.is_zero() else value,
        sign=_sign(found["sign"]),
    )


def to_decimal(value: Fraction | Decimal | int) -> Decimal:
    """The decimal of a fraction: exact where it ends, else 28 digits."""
    if isinstance(value, Decimal):
        return value
    whole = Fraction(value)
    with localcontext(EXACT):
        return Decimal(whole.numerator) / Decimal(whole.denominator)


def shortened(value: Fraction | Decimal, places: int = 2) -> str:
    """A number for a sentence: at most `places` decimals, no idle zeros."""
    whole = round(Fraction(value) * 10**places)
    short = f"{Decimal(whole).scaleb(-places, EXACT):f}"
    return short.rstrip("0").rstrip(".") if "." in short else short


def padded(text: str, places: int) -> str:
    """A plain decimal with at least `places` decimals, for a number whose last place carries meaning: 5 as 5.0."""
    whole, _, decimals = text.partition(".")
    return f"{whole}.{decimals:0<{places}}" if places else text


def _uncut(value: Decimal) -> Fraction:
    """The simple fraction whose 28 digits these are; any other value as it stands."""
    kept = Fraction(value)
    if len(value.as_tuple().digits) < EXACT.prec:
        return kept
    simple = kept.limit_denominator(MOST_PARTS)
    return simple if to_decimal(simple) == value else kept


def _sign(text: str) -> Sign:
    if text == "<":
        return "<"
    return ">" if text == ">" else ""


def _quoted(text: str) -> str:
    """The text as it can stand in a sentence: short, without control characters."""
    clean = "".join(mark if mark.isprintable() else "?" for mark in text.strip())
    return f"“{clean[:LONGEST_TEXT]}…”" if len(clean) > LONGEST_TEXT else f"“{clean}”"


def _check_size_and_signs(text: str) -> None:
    """Refuse what no keyboard reading can be, before looking at its form."""
    if not text.strip():
        raise NumberRefused("Nothing was typed: write the number that was read.")
    if any(not mark.isprintable() and mark not in _SPACES for mark in text):
        raise NumberRefused(
            f"{_quoted(text)} holds a sign that cannot be printed: type the number again."
        )
    if len(text) > LONGEST_TEXT:
        raise NumberRefused(
            f"{_quoted(text)} is longer than {LONGEST_TEXT} characters: "
            "write the number alone."
        )
    if any(mark.isnumeric() and not "0" <= mark <= "9" for mark in text):
        raise NumberRefused(
            f"{_quoted(text)} holds other signs than the digits 0 to 9: "
            "write it with those."
        )


# The first form that fits says why; what fits none gets the general sentence.
WITHOUT_UNIT = "without its unit"
_FORMS = (
    (r"[A-Za-z][A-Za-z0-9]*(-[A-Za-z0-9]+)+|[A-Za-z]+://.*",
     "looks like a label, not a reading: put the cursor in the search box and scan it there."),
    (r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}|[0-9]{1,2}[./][0-9]{1,2}[./][0-9]{2,4}",
     "looks like a date, not a reading: write the number that was read."),
    (r"[0-9.,]+ *(-|\.\.+|to) *[0-9.,]+",
     "looks like limits, not a reading: write the one number that was read."),
    (r"(≥|≤|>=|<=|=>|=<|[<>]{2,}).*",
     "uses a sign that is not kept here: write > or < before a bound, else the number alone."),
    (r"[+-]?(nan|inf|infinity|s?nan[0-9]*)",
     "is not a number that can be read: write the digits, or leave the box empty."),
    (r"[+-]?[0-9.,]+ *[eE] *[+-]?[0-9]+|[0-9.,]+ *[x×*] *10.*",
     "is written with an exponent: write the number out, such as 1500 or 0.015."),
    (r"[<>]? *[+-]?[0-9]+[.,]",
     "ends with a decimal mark: write the digit that follows it, or leave the mark out."),
    (r"[<>]? *[+-]?[0-9]*(?=.*[.,].*[.,])[0-9.,]+",
     "has more than one decimal mark: write it without grouping, such as 1234.5."),
    (r"[<>]? *[+-]?[0-9.,]+ *[a-zA-Z%°µ/²³]+.*",
     f"has letters or signs after the number: write the number alone, {WITHOUT_UNIT}."),
)  # fmt: skip


def _for_the_box(sentence: str, unit: str) -> str:
    """Where a unit was typed, which one the box takes: the number alone might be in another."""
    if not unit or WITHOUT_UNIT not in sentence:
        return sentence
    return f"{sentence.removesuffix('.')}; this box takes {unit}."


def _why_not(typed: str, unit: str) -> str:
    """Why the text is no number and what to write instead."""
    from specs.units import offer  # late: units are built on numbers

    offered = offer(typed, unit)
    if offered:
        return f"{_quoted(typed)} {offered}"
    suggestion = typed.translate(_LOOKALIKES)
    looks = suggestion != typed and any("0" <= mark <= "9" for mark in typed)
    if looks and _NUMBER.fullmatch(suggestion.replace(",", ".")):
        return (
            f"{_quoted(typed)} has a letter among its digits: "
            f"if you mean {suggestion}, type it so."
        )
    joined = typed.translate(_GROUPING)
    if joined != typed and _NUMBER.fullmatch(joined.replace(",", ".")):
        return (
            f"{_quoted(typed)} has a space or a grouping mark inside: "
            f"if you mean {joined}, type it so."
        )
    for form, sentence in _FORMS:
        if re.fullmatch(form, typed, re.IGNORECASE):
            return f"{_quoted(typed)} {_for_the_box(sentence, unit)}"
    return (
        f"{_quoted(typed)} is no number: write digits alone, such as 280, 27.9 or 27,9."
    )
