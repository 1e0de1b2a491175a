"""What may stand as a figure of the method book; each refusal says what to do."""

from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from decimal import Decimal

from lims.methods.figure_values import NUMBERS, check_value, listed
from lims.methods.figures import MEAN, MEDIAN, WORDS, Figure, What
from lims.methods.models import Characteristic, MethodEdition
from lims.methods.rules import read_number
from lims.record.refusals import BadInput, WrongMove
from specs.judging.repeats import ISO_5725_6
from specs.numbers import NumberRefused, read

Kind = Characteristic.Kind
Known = Mapping[str, Characteristic]  # by code

LONGEST = {"value": 60, "level_from": 20, "level_to": 20, "source": 300}
STANDINGS = tuple(str(value) for value in MethodEdition.Standing.values)
COUNTED = (Kind.NUMBER, Kind.LADDER)  # kinds whose values can be compared as numbers


def settled(figure: Figure) -> Figure:
    """The figure without idle spaces, its numbers as they are stored."""
    told = {name: text.strip() for name, text in figure.told.items()}
    for name in ("level_from", "level_to"):
        if told[name]:
            told[name] = read_number(told[name], name).canonical
    if told["what"] in NUMBERS and told["value"]:
        told["value"] = read_number(told["value"], "value").canonical
    if told["what"] == What.STEP:
        with suppress(NumberRefused):  # “3 digits” is a step and no number
            told["value"] = read(told["value"]).canonical
    return replace(figure, **told)


def check_figure(
    figure: Figure,
    edition: MethodEdition,
    known: Known,
    others: Iterable[Figure] = (),
) -> None:
    """Refuse a figure that says nothing, says what cannot be, or does not fit beside the others."""
    _check_what(figure)
    _check_measured(figure, edition, known)
    for field in ("value", "source", *LONGEST):
        _check_text(figure, field)
    if figure.standing not in STANDINGS:
        raise BadInput(
            f"“{figure.standing}” is no standing: choose one of {', '.join(STANDINGS)}.",
            field="standing",
        )
    _check_fits_kind(figure, known[figure.characteristic])
    check_value(figure)
    _check_levels(figure)
    mine = [it for it in others if it.characteristic == figure.characteristic]
    _check_beside(figure, mine)


def check_whole(
    edition: MethodEdition, figures: Sequence[Figure], known: Known
) -> None:
    """Refuse a list of figures of which one cannot stand, naming it."""
    for at, figure in enumerate(figures):
        others = [*figures[:at], *figures[at + 1 :]]
        try:
            check_figure(figure, edition, known, others)
        except BadInput as refused:
            name = known.get(figure.characteristic)
            raise WrongMove(
                f"{name.in_full if name else figure.characteristic}, {figure.what}: "
                f"{refused.sentence}"
            ) from refused
    for code in dict.fromkeys(it.characteristic for it in figures):
        _check_complete(
            known[code],
            {it.what for it in figures if it.characteristic == code},
            {it.value for it in figures if it.characteristic == code},
        )


def _check_complete(row: Characteristic, whats: set[str], values: set[str]) -> None:
    """Refuse half a statement: a range with one end, a school without its route."""
    if ISO_5725_6 in values and What.ROUTE not in whats:
        raise WrongMove(
            f"{row.in_full}: {ISO_5725_6} knows several routes: state the route, one of "
            f"{listed(What.ROUTE)}."
        )
    ends = {What.PLAUSIBLE_FROM, What.PLAUSIBLE_TO} & whats
    if len(ends) == 1:
        raise WrongMove(
            f"{row.in_full}: the plausible range has one end only: state "
            f"“{What.PLAUSIBLE_FROM}” and “{What.PLAUSIBLE_TO}”, or neither."
        )


def _check_what(figure: Figure) -> None:
    if figure.what not in set(What):
        raise BadInput(
            f"A figure does not say “{figure.what}”: choose one of {', '.join(What)}.",
            field="what",
        )


def _check_measured(figure: Figure, edition: MethodEdition, known: Known) -> None:
    row = known.get(figure.characteristic)
    if row is None:
        raise BadInput(
            f"There is no characteristic “{figure.characteristic}”: add it first.",
            field="characteristic",
        )
    if row.code not in edition.characteristics:
        raise BadInput(
            f"{edition} does not measure “{row.in_full}”: "
            "choose one of its characteristics.",
            field="characteristic",
        )


def _check_text(figure: Figure, field: str) -> None:
    text = figure.told[field]
    if not text and field in {"value", "source"}:
        raise BadInput(
            f"The {field} is missing: enter it. What is not stated is left out.",
            field=field,
        )
    if any(not sign.isprintable() for sign in text):
        raise BadInput(
            f"The {_words(field)} holds a sign that cannot be printed: type it again.",
            field=field,
        )
    if len(text) > LONGEST[field]:
        raise BadInput(
            f"The {_words(field)} is {len(text)} characters long: "
            f"shorten it to {LONGEST[field]}.",
            field=field,
        )


def _words(field: str) -> str:
    return field.replace("_", " ")


def _check_fits_kind(figure: Figure, row: Characteristic) -> None:
    """Refuse what this kind of characteristic cannot have."""
    averages = figure.what == What.COMBINING and figure.value in {MEAN, MEDIAN}
    if averages and row.kind != Kind.NUMBER:
        raise BadInput(
            f"“{row.in_full}” is of the kind {row.kind} and is never averaged: "
            f"choose one of {', '.join(_not_averaging())}.",
            field="value",
        )
    if figure.what in {What.STEP, *NUMBERS} and row.kind not in COUNTED:
        raise _has_no(figure.what, row)
    if figure.is_precision and row.kind in {Kind.FINDING, Kind.WORDS}:
        raise _has_no(f"{figure.what} in figures", row)


def _has_no(what: str, row: Characteristic) -> BadInput:
    return BadInput(
        f"“{row.in_full}” is of the kind {row.kind} and has no {what}: leave it out.",
        field="what",
    )


def _not_averaging() -> list[str]:
    return [it for it in WORDS[What.COMBINING] if it not in {MEAN, MEDIAN}]


def _check_levels(figure: Figure) -> None:
    """Refuse a range upside down, and a range where the figure holds at every level."""
    check_range(figure.level_from, figure.level_to)
    if not figure.is_precision and (figure.level_from or figure.level_to):
        raise BadInput(
            f"The {figure.what} holds at every level: leave the levels out.",
            field="level_from" if figure.level_from else "level_to",
        )


def check_range(level_from: str, level_to: str) -> None:
    """Refuse a range of level that is no range."""
    bounds = {
        field: read_number(text, field).value
        for field, text in (("level_from", level_from), ("level_to", level_to))
        if text
    }
    if len(bounds) == 2 and bounds["level_from"] >= bounds["level_to"]:
        raise BadInput(
            f"The range ends at {level_to}, not above its beginning at {level_from}: "
            "correct one of them.",
            field="level_to",
        )


def _check_beside(figure: Figure, others: Sequence[Figure]) -> None:
    """Refuse what contradicts another figure of the same characteristic."""
    for other in others:
        if other.what == figure.what and overlap(figure, other):
            raise BadInput(
                f"The {figure.what} {span(other)} is {other.value} already: change "
                "that figure, or choose levels beside it.",
                field="level_from" if figure.is_precision else "what",
            )
    said = {it.what: it.value for it in (*others, figure)}
    if figure.what == What.ROUTE and said.get(What.SCHOOL) != ISO_5725_6:
        raise BadInput(
            f"A route belongs to {ISO_5725_6}: state that as the repeat rule first, or "
            "leave the route out.",
            field="what",
        )
    if figure.what == What.SCHOOL and figure.value != ISO_5725_6 and What.ROUTE in said:
        raise BadInput(
            f"The route “{said[What.ROUTE]}” belongs to {ISO_5725_6}: take the route "
            f"out first, then state {figure.value}.",
            field="value",
        )
    _check_plausible(figure, said)


def _check_plausible(figure: Figure, said: Mapping[str, str]) -> None:
    low, high = (said.get(it, "") for it in (What.PLAUSIBLE_FROM, What.PLAUSIBLE_TO))
    if figure.what not in {What.PLAUSIBLE_FROM, What.PLAUSIBLE_TO} or not (
        low and high
    ):
        return
    if read_number(low, "value").value >= read_number(high, "value").value:
        raise BadInput(
            f"The plausible range would go from {low} to {high}: the end lies above "
            "the beginning, so correct one of them.",
            field="value",
        )


def overlap(one: Figure, two: Figure) -> bool:
    """Whether two ranges share more than an end."""
    return _lower(one) < _upper(two) and _lower(two) < _upper(one)


def _lower(figure: Figure) -> Decimal:
    return Decimal(figure.level_from or "-Infinity")


def _upper(figure: Figure) -> Decimal:
    return Decimal(figure.level_to or "Infinity")


def span(figure: Figure) -> str:
    """The levels of a figure in words."""
    if figure.level_from and figure.level_to:
        return f"from {figure.level_from} to {figure.level_to}"
    if figure.level_from:
        return f"from {figure.level_from}"
    return f"to {figure.level_to}" if figure.level_to else "at every level"
