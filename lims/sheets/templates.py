"""Empty tables to fill in: a workbook for each kind of file, with heads, units, pick lists and notes; what they are filled with reads back without a question about columns."""

import io
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from lims.imports import kinds, knowing
from lims.imports.models import Import
from lims.products.models import Product, Requirement, Revision
from specs.tables.forms import FORMS, Form, FormColumn
from specs.tables.forms.history import history_of
from specs.tables.sheet import letter_of

LISTS = "Lists"
ROWS = 1000  # that the pick lists reach
LONGEST_IN_ONE = 255  # characters of a pick list that is written out
LONGEST_PROMPT = 250
WIDTH_OF_PAGE = 150  # characters that are readable across a sheet of paper
ASKED_OF_ALL = (
    "unworked-penetration",
    "worked-penetration",
    "dropping-point-block",
    "oil-separation",
    "copper-strip",
    "oxidation-drop",
)  # where no specification is in force yet


def template(kind: str, product: Product | None = None) -> bytes:
    """An empty workbook for a kind of file; of results, with a column for each characteristic that the product is tested for."""
    form = form_of(kind, product)
    return workbook(form, kinds.offered(kind))


def form_of(kind: str, product: Product | None = None) -> Form:
    """The form of a kind; of results, with the characteristics of a product, or of all products."""
    if kind != Import.Kind.HISTORY:
        return FORMS[kind]
    known = knowing.known().characteristics
    wanted = _asked_of(product) or ASKED_OF_ALL
    return history_of(it for code in wanted if (it := known.get(code)) is not None)


def _asked_of(product: Product | None) -> list[str]:
    """The codes that specifications in force ask for, in the order of the bench."""
    rows = Requirement.objects.filter(revision__state=Revision.State.IN_FORCE)
    if product is not None:
        rows = rows.filter(revision__specification__product=product)
    codes = rows.order_by("characteristic__place", "characteristic__name").values_list(
        "characteristic__code", flat=True
    )
    return list(dict.fromkeys(codes))


def workbook(form: Form, offered: Mapping[str, Sequence[str]]) -> bytes:
    """The workbook of a form; `offered` holds what a column can be picked from, by its key."""
    from openpyxl import Workbook  # late: it loads numpy

    book = Workbook()
    sheet: Any = book.active
    sheet.title = form.title
    _head(sheet, form)
    lists = book.create_sheet(LISTS)
    lists.sheet_state = "veryHidden"
    for place, column in enumerate(form.columns, 1):
        picks = column.choices or offered.get(column.key, ())
        _picks(sheet, lists, place, column, picks)
    if lists["A1"].value is None:
        book.remove(lists)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _head(sheet: Any, form: Form) -> None:
    """Heads in bold with a note each, units beneath, and the panes kept in sight."""
    from openpyxl.comments import Comment
    from openpyxl.styles import Alignment, Font

    for place, column in enumerate(form.columns, 1):
        head = sheet.cell(1, place, column.heading)
        head.font = Font(bold=True)
        head.alignment = Alignment(wrap_text=True, vertical="top")
        if told := note_of(column):
            head.comment = Comment(told, "Kettlemark", height=90, width=260)
        unit = sheet.cell(2, place, column.unit or None)
        unit.font = Font(italic=True)
        sheet.column_dimensions[letter_of(place)].width = max(
            12, min(30, len(column.heading) + 3)
        )
    sheet.freeze_panes = "A3"
    _printed(sheet)


def _printed(sheet: Any) -> None:
    """On paper: across, no column cut in two, heads and the first column on every page."""
    width = sum(it.width for it in sheet.column_dimensions.values())
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = sheet.PAPERSIZE_A4
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.page_setup.fitToWidth = max(1, round(width / WIDTH_OF_PAGE))
    sheet.page_setup.fitToHeight = 0  # as many as the rows need
    sheet.print_title_rows, sheet.print_title_cols = "1:2", "A:A"


def note_of(column: FormColumn) -> str:
    """What is told of a column beside its head."""
    needed = "Needed in every row. " if column.required else ""
    return f"{needed}{column.note}".strip()


def _picks(
    sheet: Any, lists: Any, place: int, column: FormColumn, picks: Sequence[str]
) -> None:
    """A pick list below a head: written out where it is short, else kept on a sheet that is not shown."""
    from openpyxl.worksheet.datavalidation import DataValidation

    if not picks:
        return
    written = ",".join(picks)
    if len(written) <= LONGEST_IN_ONE and not any("," in it for it in picks):
        source = f'"{written}"'
    else:
        source = _listed(lists, picks)
    rule = DataValidation(type="list", formula1=source, allow_blank=True)
    rule.showErrorMessage = False  # another text may be meant: it is asked about
    rule.promptTitle, rule.prompt = (
        column.heading[:32],
        note_of(column)[:LONGEST_PROMPT],
    )
    rule.showInputMessage = bool(rule.prompt)
    rule.add(f"{letter_of(place)}3:{letter_of(place)}{ROWS + 2}")
    sheet.add_data_validation(rule)


def _listed(lists: Any, picks: Iterable[str]) -> str:
    """The picks below those of other columns: one column alone is no table when the file comes back."""
    first = 1 if lists["A1"].value is None else lists.max_row + 1
    last = first
    for last, text in enumerate(picks, first):
        lists[f"A{last}"] = text
    return f"{LISTS}!$A${first}:$A${last}"
