"""Methods, their figures and characteristics, as rows of a sheet."""

from collections.abc import Iterable, Iterator

from lims.methods.models import Characteristic
from lims.screens.methods.book import Chapter
from lims.screens.methods.presenting import EditionRow
from lims.sheets.exports import Export, Row, columns, typed


def methods(rows: Iterable[EditionRow]) -> Export:
    """One edition a row; a method without one has a row too."""
    heads = columns(
        *("Method", "Title", "Edition", "Standing", "Measures", "Figures in force"),
        *("From memory, not checked", "Last checked", "Checked by", "Source"),
    )
    return Export("methods", heads, map(_method, rows))


def _method(row: EditionRow) -> Row:
    edition, check = row.edition, row.last_check
    return [
        *(row.method.designation, row.method.title),
        edition.edition if edition else None,
        edition.standing if edition else None,
        "; ".join(it.in_full for it in row.measures),
        *(row.figure_count, row.from_memory),
        check.checked_on if check else None,
        check.checked_by if check else None,
        edition.source if edition else None,
    ]


def figures(rows: Iterable[EditionRow]) -> Export:
    """Every figure in force of the editions, with its source, its standing and its check."""
    return Export("figures", FIGURE_HEADS, _figures(rows))


FIGURE_HEADS = columns(
    *("Method", "Characteristic", "Figure", "From level", "To level", "Value"),
    *("Unit of the characteristic", "Standing", "Checked", "Source"),
)


def _figures(rows: Iterable[EditionRow]) -> Iterator[Row]:
    for row in rows:
        yield from figure_rows(str(row.edition or row.method), row.chapters)


def figure_rows(edition: str, chapters: Iterable[Chapter]) -> Iterator[Row]:
    """The figures of one edition, in the order of its page."""
    for chapter in chapters:
        it = chapter.characteristic
        for row in chapter.rows:
            figure = row.figure
            yield [
                *(edition, it.in_full, row.what, typed(figure.level_from)),
                *(typed(figure.level_to), typed(figure.value), it.unit),
                *(figure.standing, row.checked, figure.source),
            ]


def figures_of(edition: str, chapters: Iterable[Chapter]) -> Export:
    """The figures of one revision."""
    return Export("figures", FIGURE_HEADS, figure_rows(edition, chapters))


def characteristics(rows: Iterable[Characteristic]) -> Export:
    """One characteristic a row, in the order of the bench."""
    heads = columns(
        *("Place", "Characteristic", "Conditions", "Code", "Kind", "Unit"),
        *("Procedure", "Reported to", "With its sign"),
    )
    return Export("characteristics", heads, map(_characteristic, rows))


def _characteristic(row: Characteristic) -> Row:
    is_number = row.kind == Characteristic.Kind.NUMBER
    return [
        *(row.place, row.name, row.conditions, row.code, row.kind, row.unit),
        *(row.procedure, typed(row.step) if is_number else None),
        "yes" if row.is_signed else "no",
    ]
