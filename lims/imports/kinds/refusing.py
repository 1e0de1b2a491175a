"""Refusals of the laboratory's rules, told as objections to a row while a table is looked at, and with its row when it is written."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager

from lims.record.refusals import BadInput, Refusal
from specs.tables.checked import Row
from specs.tables.forms.objections import CELLS, LEAVE_ROWS, Objection
from specs.tables.saying import Choice

Objects = Callable[[Sequence[Row]], Sequence[Objection]]
KEEP = Choice(CELLS, "Keep what stands here")


def objection(
    row: int, refusal: Refusal, key: str, names: Mapping[str, str] | None = None
) -> Objection:
    """A refusal as an objection to a cell: that of the field it names, else of `key`."""
    field = refusal.field if isinstance(refusal, BadInput) else key
    return Objection(row, (names or {}).get(field, field), refusal.sentence)


def asked(
    row: int, key: str, sentence: str, choices: Sequence[Choice], proposed: str = ""
) -> Objection:
    """What a row leaves open and the column is asked for, once."""
    return Objection(
        row,
        key,
        sentence,
        matter=key.replace("_", " "),
        choices=tuple(choices),
        proposed=proposed,
        is_refusal=False,
        takes_text=False,
    )


def differs(row: int, key: str, what: str, here: str, there: str) -> Objection:
    """A cell that says other than what is kept here, which a file does not change."""
    return Objection(
        row,
        key,
        f"{what} stands here with “{here}”, the file says “{there}”. A file changes nothing "
        "that is kept: keep what stands here, and change it there if it is to be changed.",
        matter="differs",
        choices=(KEEP, LEAVE_ROWS),
        proposed=CELLS,
        is_refusal=False,
        takes_text=False,
    )


@contextmanager
def in_row(row: int) -> Iterator[None]:
    """Say in which row of the file it was that something is refused."""
    try:
        yield
    except BadInput as refusal:
        raise BadInput(
            f"Row {row}: {refusal.sentence}", field=refusal.field
        ) from refusal
    except Refusal as refusal:
        raise type(refusal)(f"Row {row}: {refusal.sentence}") from refusal
