"""The plant's own figures of methods: they become drafts of the next figures of their editions, to be approved by hand."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from lims.imports.kinds import stating
from lims.imports.kinds.keeping import Mapped, check_form
from lims.imports.kinds.refusing import asked, in_row, objection
from lims.imports.kinds.stating import Book, Wanted, clash, figure_of
from lims.imports.models import Import
from lims.methods import figure_rules, queries
from lims.methods.actions import drafts
from lims.methods.figures import Figure
from lims.people.models import Person
from lims.record.refusals import BadInput, WrongMove
from specs.tables.checked import Checked, Row
from specs.tables.forms import figures as form
from specs.tables.forms.objections import (
    LEAVE_CELLS,
    LEAVE_ROWS,
    ROWS,
    TAKE,
    Objection,
)
from specs.tables.layout import Block
from specs.tables.saying import Answers, Choice
from specs.tables.sheet import Sheet

STAY, GO = "stay", "go"
OTHERS, OTHER_LEVELS = "other figures", "other levels"
NAMES = {"what": "figure"}
LEVELS = ("level_from", "level_to")
MOST_NAMED = 4
MOST = 500  # figures of one edition
Stated = list[tuple[Row, Figure]]
Beside = tuple[Row, Figure, list[Figure]]


def check(sheet: Sheet, block: Block, mapping: Mapped, answers: Answers) -> Checked:
    """What becomes of each cell, held against the editions and their figures that stand here."""
    objects = partial(against, book=stating.book())
    return check_form(
        Import.Kind.FIGURES, sheet, block, mapping, answers, objects=objects
    )


def against(rows: Sequence[Row], *, book: Book) -> Sequence[Objection]:
    """What the rows themselves and the rules of the method book hold against figures."""
    rows = form.whole(rows)
    found = list(form.against(rows))
    refused = {it.row for it in found if it.is_refusal}
    stand = [it for it in rows if it.row not in refused]
    return [
        *found,
        *(
            objection
            for it in stating.wanted(stand, book)
            for objection in _against(it, book)
        ),
    ]


def _against(it: Wanted, book: Book) -> Iterator[Objection]:
    """Of one edition: a draft is open, a row cannot stand, or what the whole of it leaves open."""
    matter, why = _against_any(it, book)
    if why:
        yield from (Objection(row.row, "edition", why, matter) for row in it.rows)
        return
    stated, found = _stated(it, book)
    for row, figure, beside in _each(stated, it, book):
        found += _against_row(row, figure, beside, it, book)
    yield from found
    if not _is_open(it, found):
        yield from _of_the_whole(it, [figure for _, figure in stated], book)


def _is_open(it: Wanted, found: Sequence[Objection]) -> bool:
    """Whether an answer about single rows can still change what the whole of them says."""
    is_known = all(row.values.get("standing") for row in it.rows)
    return not is_known or any(one.matter != OTHER_LEVELS for one in found)


def _against_any(it: Wanted, book: Book) -> tuple[str, str]:
    """What keeps every figure of an edition out, by its matter; two empty texts where nothing does."""
    if len(it.rows) > MOST:
        return "too many", (
            f"The file states {len(it.rows)} figures of {it.edition}, more than the {MOST} "
            "that a person can look through and sign: leave out what is no figure of it."
        )
    return "a draft is open", book.open_drafts.get(it.edition.pk, "")


def _stated(it: Wanted, book: Book) -> tuple[Stated, list[Objection]]:
    """The figures of the rows that can be read as one, and what is wrong with the others."""
    stated: Stated = []
    found = []
    for row in it.rows:
        known = Row(row.row, {"standing": form.PUBLISHED, **row.values})  # asked anyway
        try:
            stated.append((row, figure_of(known, book.standing(it.edition))))
        except BadInput as refusal:
            found.append(_refused(row, refusal))
    return stated, found


def _each(stated: Stated, it: Wanted, book: Book) -> Iterator[Beside]:
    """Each figure with what would stand in the draft beside it."""
    kept = _kept([figure for _, figure in stated], it, book)
    for row, figure in stated:
        yield row, figure, [*kept, *(one for at, one in stated if at is not row)]


def _kept(told: Sequence[Figure], it: Wanted, book: Book) -> list[Figure]:
    """The figures in force that stay in the draft beside those that are told."""
    standing = () if it.value(OTHERS) == GO else book.standing(it.edition)
    return [old for old in standing if not any(clash(old, one) for one in told)]


def _against_row(
    row: Row, figure: Figure, beside: Sequence[Figure], it: Wanted, book: Book
) -> Iterator[Objection]:
    """What stands against one row; of several things the first that must be settled."""
    known = book.characteristics
    try:
        figure_rules.check_figure(figure, it.edition, known, beside)
    except BadInput as refusal:
        yield _refused(row, refusal)
        return
    units = list(stating.against_unit(row, known[figure.characteristic]))
    yield from units or _other_levels(row, figure, book.standing(it.edition))


def _refused(row: Row, refusal: BadInput) -> Objection:
    found = objection(row.row, refusal, "figure", NAMES)
    if found.key in LEVELS:
        return replace(found, choices=(LEAVE_CELLS, LEAVE_ROWS))
    return found


def _other_levels(
    row: Row, figure: Figure, standing: Sequence[Figure]
) -> Iterator[Objection]:
    """The same is in force over other levels: it gives way, which is said."""
    away = [it for it in standing if clash(it, figure) and it.place != figure.place]
    if not away:
        return
    told = "; ".join(f"{figure_rules.span(it)}: {it.value}" for it in away)
    yield Objection(
        row.row,
        "level_from",
        f"The {figure.what} in force stands over other levels ({told}). It gives way to "
        "those of the file, whole.",
        matter=OTHER_LEVELS,
        choices=(Choice(TAKE, "Put those of the file in its place"), LEAVE_ROWS),
        proposed=TAKE,
        is_refusal=False,
        takes_text=False,
    )


def _of_the_whole(
    it: Wanted, told: Sequence[Figure], book: Book
) -> Iterator[Objection]:
    """What is in force and not stated; or that nothing stated is new."""
    others = _kept(told, it, book)
    if set(told) <= set(book.standing(it.edition)):
        yield from _nothing_new(it)
    elif others and not it.value(OTHERS):
        yield _asks_others(it, others, book)


def _nothing_new(it: Wanted) -> Iterator[Objection]:
    for row in it.rows:
        yield Objection(
            row.row,
            "edition",
            f"All that the file states of {it.edition} is in force already: a draft of it "
            "would change nothing.",
            matter="nothing new",
            choices=(LEAVE_ROWS, Choice(TAKE, "Open a draft all the same")),
            proposed=ROWS,
            is_refusal=False,
            takes_text=False,
        )


def _asks_others(it: Wanted, others: Sequence[Figure], book: Book) -> Objection:
    named = "; ".join(_named(one, book) for one in others[:MOST_NAMED])
    more = len(others) - MOST_NAMED
    return asked(
        it.rows[0].row,
        OTHERS,
        f"Of {it.edition} figures are in force that the file does not state: {named}"
        f"{f'; and {more} more' if more > 0 else ''}.",
        (
            Choice(STAY, "They stay in the draft"),
            Choice(GO, "They are taken out of the draft"),
        ),
        STAY,
    )


def _named(figure: Figure, book: Book) -> str:
    row = book.characteristics.get(figure.characteristic)
    return f"{row.in_full if row else figure.characteristic}: {figure.what}"


def write(import_of: Import, table: Checked, by: Person) -> dict[str, int]:
    """Open a draft for each edition that the table states figures of; nothing is in force by it."""
    book = stating.book()
    counts = {"added": 0, "drafts": 0, "figures in force already": 0}
    for it in stating.wanted(table.rows, book):
        told = _told(it, book)
        with in_row(it.rows[0].row):
            _open(import_of, it, [*_kept(told, it, book), *told])
        new = sum(figure not in book.standing(it.edition) for figure in told)
        counts["added"] += new
        counts["figures in force already"] += len(told) - new
        counts["drafts"] += 1
    return counts


def _told(it: Wanted, book: Book) -> list[Figure]:
    """The figures of an edition's rows, held against the rules once more. Raises BadInput with the row."""
    stated: Stated = []
    for row in it.rows:
        with in_row(row.row):
            stated.append((row, figure_of(row, book.standing(it.edition))))
    for row, figure, beside in _each(stated, it, book):
        with in_row(row.row):
            figure_rules.check_figure(figure, it.edition, book.characteristics, beside)
    return [figure for _, figure in stated]


def _open(import_of: Import, it: Wanted, figures: Sequence[Figure]) -> None:
    note = f"From the file {import_of.name} (import {import_of.pk})"
    draft = queries.figures_draft(it.edition)
    if draft is not None and draft.note == note:
        raise WrongMove(
            f"Two tables of the file state figures of {it.edition}: put them into one "
            "table, or leave the columns of one of them out and bring it in afterwards."
        )
    drafts.begin(drafts.drawn_up(edition=it.edition, note=note), figures)
