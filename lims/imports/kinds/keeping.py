"""What is kept here today, as the cells of a table are looked up in it, and the check of a table against its form."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from lims.batches.models import Batch, FillLot
from lims.imports.kinds.refusing import Objects
from lims.instruments.models import Instrument
from lims.methods.models import Characteristic, MethodEdition
from lims.people.days import today
from lims.products.models import Customer, Product, SamplingPlan
from lims.wording.languages import LANGUAGES
from specs.tables.checked import Checked
from specs.tables.forms import FORMS, LEFT_OUT, Kept, checking
from specs.tables.forms.kept import Names, names_of
from specs.tables.layout import Block
from specs.tables.saying import Answers
from specs.tables.sheet import Sheet

Pairs = Iterable[tuple[str, str]]
Mapped = Mapping[str, Mapping[str, Any]]


def check_form(
    kind: str,
    sheet: Sheet,
    block: Block,
    mapping: Mapped,
    answers: Answers,
    *,
    objects: Objects,
) -> Checked:
    """The check of a table of one kind, with what is kept here today."""
    return checking.check(
        FORMS[kind],
        sheet,
        block,
        _keys(kind, mapping),
        answers=answers,
        kept=kept(kind),
        objects=objects,
    )


def _keys(kind: str, mapping: Mapped) -> dict[str, str]:
    """The form's column of each letter; what the form does not know is left out."""
    known = {it.key for it in FORMS[kind].columns}
    roles = {letter: str(use.get("role", "")) for letter, use in mapping.items()}
    return {it: key if key in known else LEFT_OUT for it, key in roles.items()}


def kept(kind: str) -> Kept:
    """The lists that the columns of a kind's form look into, each in one query."""
    wanted = {it.of for it in FORMS[kind].columns if it.of}
    return Kept(today(), {name: LISTS[name]() for name in wanted})


def _products() -> Names:
    rows = Product.objects.values_list("code", "name")
    return names_of([*((code, code) for code, _ in rows), *_named(rows)])


def _customers() -> Names:
    rows = Customer.objects.values_list("code", "name")
    return names_of([*((code, code) for code, _ in rows), *_named(rows)])


def _named(rows: Pairs) -> Pairs:
    return [(name, code) for code, name in rows]


def _plans() -> Names:
    return names_of(
        (it, it) for it in SamplingPlan.objects.values_list("code", flat=True)
    )


def _instruments() -> Names:
    return names_of(
        (it, it) for it in Instrument.objects.values_list("number", flat=True)
    )


def _characteristics() -> Names:
    pairs = []
    for it in Characteristic.objects.all():
        named = [it.named(language) for language in LANGUAGES]
        in_full = [", ".join(filter(None, parts)) for parts in named]
        names = (it.code, it.in_full, *in_full, *(name for name, _ in named))
        pairs += [(name, it.code) for name in dict.fromkeys(names)]
    return names_of(pairs)


def _editions() -> Names:
    rows = MethodEdition.objects.select_related("method")
    return names_of((name, str(it)) for it in rows for name in _names_of_edition(it))


def _names_of_edition(it: MethodEdition) -> tuple[str, ...]:
    """ASTM D217-21a, ASTM D217 21a, D217-21a; and the method alone, which can mean several."""
    method = it.method.designation
    number = method.partition(" ")[2] or method
    return (
        str(it),
        str(it).partition(" ")[2],
        f"{method} {it.edition}",
        f"{method}, {it.edition}",
        method,
        number,
    )


def _batches_and_lots() -> Names:
    batches = Batch.objects.values_list("number", flat=True)
    pairs = [(it, it) for it in batches]
    for it in FillLot.objects.only("number", "letter"):
        pairs += [(it.number, it.number), (str(it), it.number)]
    return names_of(pairs)


LISTS = {
    "product": _products,
    "customer": _customers,
    "sampling plan": _plans,
    "instrument": _instruments,
    "characteristic": _characteristics,
    "edition": _editions,
    "batch or fill lot": _batches_and_lots,
}


def offered(kind: str) -> dict[str, list[str]]:
    """What a column of a kind's form can be picked from, as the template writes it; by the column's key."""
    return {it.key: OFFERED[it.of]() for it in FORMS[kind].columns if it.of in OFFERED}


def _codes(model: Any, field: str = "code") -> Callable[[], list[str]]:
    return lambda: sorted(model.objects.values_list(field, flat=True))


OFFERED: dict[str, Callable[[], list[str]]] = {
    "product": _codes(Product),
    "customer": _codes(Customer),
    "sampling plan": _codes(SamplingPlan),
    "instrument": _codes(Instrument, "number"),
    "characteristic": lambda: [it.in_full for it in Characteristic.objects.all()],
    "edition": lambda: [
        str(it) for it in MethodEdition.objects.select_related("method")
    ],
}
