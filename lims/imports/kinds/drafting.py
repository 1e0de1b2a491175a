"""Drafts out of the rows of a table: which specification each row belongs to, what stands against it, and how the draft is written."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from lims.imports.kinds.lines import Book, line_of, states_line
from lims.imports.kinds.refusing import asked, in_row, objection
from lims.products import lines, queries, rules, widths
from lims.products.actions import drafts
from lims.products.models import Customer, Product, Requirement, Revision
from lims.record.refusals import BadInput, Refusal
from specs.tables.checked import Row
from specs.tables.forms.objections import LEAVE_ROWS, ROWS, TAKE, Objection
from specs.tables.saying import Choice

STAY, GO = "stay", "go"
OTHERS = "other lines"
SAID = (
    "edition", "lower", "upper", "must", "comparing", "rule", "basis", "uncertainty",
    "confidence", "scope", "every_batches", "every_months", "internal_lower",
    "internal_upper", "typical",
)  # fmt: skip
_FIGURES = re.compile(r"[0-9]{1,6}")
Whose = tuple[str, str]  # product and customer, by their codes


@dataclass
class Wanted:
    """What a table asks of one specification: its rows, first to last."""

    product: str
    customer: str
    rows: list[Row] = field(default_factory=list)

    def value(self, key: str) -> str:
        """What the first row that says anything of it says."""
        return next((it.values[key] for it in self.rows if it.values.get(key)), "")


def wanted(rows: Iterable[Row], product: str, customer: str) -> list[Wanted]:
    """The specifications that rows state lines of; `product` and `customer` are the keys of their columns."""
    found: dict[Whose, Wanted] = {}
    for row in rows:
        if states_line(row):
            whose = (row.values.get(product, ""), row.values.get(customer, ""))
            found.setdefault(whose, Wanted(*whose)).rows.append(row)
    return list(found.values())


@dataclass(frozen=True)
class Here:
    """Products and customers that are kept here, by code."""

    products: Mapping[str, Product]
    customers: Mapping[str, Customer]


def here() -> Here:
    """What is kept here, in two queries."""
    return Here(
        {it.code: it for it in Product.objects.all()},
        {it.code: it for it in Customer.objects.all()},
    )


def against(every: Sequence[Wanted], here: Here, book: Book) -> Iterator[Objection]:
    """What stands against the drafts: one is open, the number is taken, a line stands twice or is wider than the product's own."""
    for it in every:
        product = here.products.get(it.product)
        customer = here.customers.get(it.customer)
        yield from _twice(it)
        yield from _numbers(it)
        if product is not None and (customer is not None or not it.customer):
            yield from _against_kept(it, product, customer, book)
        elif it.value("revision"):
            yield from _check_number(it)


def _against_kept(
    it: Wanted, product: Product, customer: Customer | None, book: Book
) -> Iterator[Objection]:
    first = it.rows[0].row
    try:
        rules.check_may_open_draft(product, customer)
    except Refusal as refusal:
        for row in it.rows:
            yield Objection(row.row, _whose(it), refusal.sentence, "a draft is open")
        return
    try:
        drafts.drawn_up(
            product=product,
            customer=customer,
            number=number_of(it, product, customer),
            part_number=it.value("part_number"),
            note=it.value("note"),
        )
    except Refusal as refusal:
        yield objection(first, refusal, "revision", {"number": "revision"})
        return
    yield from _others(it, product, customer)
    yield from _nothing_new(it, product, customer, book)
    if customer is not None:
        yield from _too_wide(it, product, book)


def _whose(it: Wanted) -> str:
    return "product" if any("product" in row.values for row in it.rows) else "code"


def _check_number(it: Wanted) -> Iterator[Objection]:
    """Of a specification that has no revision yet any number that can be kept will do."""
    longest = Revision._meta.get_field("number").max_length or 0
    number = it.value("revision")
    if len(number) > longest:
        yield Objection(
            it.rows[0].row,
            "revision",
            f"“{number}” is longer than {longest} characters: shorten it.",
        )


def _twice(it: Wanted) -> Iterator[Objection]:
    """The same line in two rows: when both say the same, the second is proposed to be left out."""
    seen: dict[tuple[str, str], Row] = {}
    for row in it.rows:
        place = (row.values.get("characteristic", ""), row.values.get("kind", ""))
        first = seen.setdefault(place, row)
        if first is row or not place[0]:
            continue
        same = dict(first.values) == dict(row.values)
        yield Objection(
            row.row,
            "characteristic",
            f"Row {first.row} states this line already, "
            f"{'in the same words' if same else 'with other values: keep one of them'}.",
            matter="stands twice",
            proposed=ROWS if same else "",
        )


def _numbers(it: Wanted) -> Iterator[Objection]:
    number = it.value("revision")
    for row in it.rows:
        other = row.values.get("revision")
        if other and other != number:
            yield Objection(
                row.row,
                "revision",
                f"Rows above state revision {number}, this one {other}: one file brings "
                "one draft of a specification.",
                matter="another revision",
            )


def _others(
    it: Wanted, product: Product, customer: Customer | None
) -> Iterator[Objection]:
    """Lines in force that the table does not state: they stay in the draft or go, as is answered."""
    if it.value(OTHERS):
        return
    old = queries.in_force(product, customer)
    stated = {row.values.get("characteristic") for row in it.rows}
    kept = queries.requirements_of(old) if old else ()
    others = [line for line in kept if line.characteristic.code not in stated]
    if others:
        names = ", ".join(line.characteristic.in_full for line in others[:4])
        yield asked(
            it.rows[0].row,
            OTHERS,
            f"The revision in force of {old.specification if old else ''} has lines that the "
            f"file does not state: {names}{', …' if len(others) > 4 else ''}.",
            (
                Choice(STAY, "They stay in the draft"),
                Choice(GO, "They are taken out of the draft"),
            ),
            STAY,
        )


def _nothing_new(
    it: Wanted, product: Product, customer: Customer | None, book: Book
) -> Iterator[Objection]:
    """Every line that the table states stands in force in the same words."""
    old = queries.in_force(product, customer)
    kept = queries.requirements_of(old) if old else ()
    standing = {(row.characteristic.code, row.kind): _told(row) for row in kept}
    if not standing or it.value(OTHERS) == GO:
        return
    for row in it.rows:
        filled = Requirement()
        try:
            lines.fill(filled, line_of(row.values, book))
        except (BadInput, KeyError):
            return  # told of the line itself
        place = (filled.characteristic.code, filled.kind)
        if standing.get(place) != _told(filled):
            return
    for row in it.rows:
        yield Objection(
            row.row,
            "characteristic",
            f"All that the file states of {old} stands there already: a draft of it would change "
            "nothing.",
            matter="nothing new",
            choices=(LEAVE_ROWS, Choice(TAKE, "Open a draft all the same")),
            proposed=ROWS,
            is_refusal=False,
            takes_text=False,
        )


def _told(row: Requirement) -> tuple[str, ...]:
    """What a line says, whatever its place on the paper and wherever it came from."""
    return tuple(str(getattr(row, it) or "") for it in SAID)


def _too_wide(it: Wanted, product: Product, book: Book) -> Iterator[Objection]:
    own = queries.in_force(product)
    limits = widths.limits_of(own) if own else {}
    for place, row in enumerate(it.rows, 1):
        filled = Requirement(line=place)
        try:
            lines.fill(filled, line_of(row.values, book))
            widths.check_line_inside(filled, limits.get(filled.characteristic.code))
        except BadInput:
            continue  # told of the line itself
        except Refusal as refusal:
            key = "limits" if row.values.get("limits") else "upper"
            yield Objection(row.row, key, refusal.sentence, "wider than the own")


def number_of(it: Wanted, product: Product, customer: Customer | None) -> str:
    """The number of the draft: as stated, else the next one. Raises BadInput where nothing follows from those that were."""
    if it.value("revision"):
        return it.value("revision")
    rows = Revision.objects.filter(
        specification__product=product, specification__customer=customer
    )
    return _next_number(list(rows.values_list("number", flat=True)))


def _next_number(numbers: Sequence[str]) -> str:
    if not numbers:
        return "1"
    if not all(_FIGURES.fullmatch(it) for it in numbers):
        raise BadInput(
            f"After revision {numbers[-1]} no number follows by itself: write the number "
            "of the draft.",
            field="revision",
        )
    return str(max(int(it) for it in numbers) + 1)


def write(it: Wanted, product: Product, customer: Customer | None, book: Book) -> int:
    """Write one draft inside the open entry; how many lines of it the table stated."""
    with in_row(it.rows[0].row):
        draft = drafts.drawn_up(
            product=product,
            customer=customer,
            number=number_of(it, product, customer),
            part_number=it.value("part_number"),
            note=it.value("note"),
        )
        drafts.begin(draft, product, customer)
    for row in it.rows:
        with in_row(row.row):
            drafts.filled_line(draft, line_of(row.values, book)).save()
    if it.value(OTHERS) == GO:
        stated = {row.values["characteristic"] for row in it.rows}
        for other in draft.requirements.exclude(characteristic__code__in=stated):
            other.delete()
    return len(it.rows)
