"""Lines of history out of a look at a file: written many at once, each with what it was read from; what is here already is not added again."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from itertools import islice

from lims.imports.models import HistoryLine, Import
from lims.products.models import Product
from lims.record.bulk import Prepared, add_prepared, prepared
from lims.record.refusals import BadInput
from specs.tables.alike import alike
from specs.tables.checked import Checked
from specs.tables.saying import Line, Value

AT_ONCE = 500
LONGEST = {
    "batch": 40,
    "kettle": 20,
    "pack": 40,
    "place": 12,
    "instrument": 40,
    "person": 80,
}  # characters that are kept, as the table has them
Told = tuple[str, str]  # characteristic and value, however it is written


@dataclass(frozen=True)
class Plan:
    """The lines to be added, made before the record is locked, and what stood here by then."""

    rows: Prepared
    counts: dict[str, int]
    stand: tuple[tuple[int, ...], int]


def planned(import_of: Import, tables: Sequence[Checked]) -> Plan:
    """The lines of all tables that are not here yet, ready to be written."""
    stand = _stand()
    products = {it.code: it for it in Product.objects.all()}
    rows: list[HistoryLine] = []
    values = here = 0
    for table in tables:
        known = _here_already(table.lines)
        for line in table.lines:
            key = key_of(line)
            new = _not_yet(line.values, known[key])
            here += len(line.values) - len(new)
            if not new:
                continue
            row = _row(line, products)
            row.import_of, row.sheet, row.key = import_of, table.block.sheet[:60], key
            row.values = [told(it) for it in new]
            rows.append(row)
            values += len(new)
            known[key].update((it.characteristic, alike(it.value)) for it in new)
    counts = {"added": len(rows), "values": values, "values here already": here}
    name = f"{len(rows)} lines of {import_of.name}"
    return Plan(prepared(rows, name=name), counts, stand)


def write(plan: Plan, import_of: Import, tables: Sequence[Checked]) -> dict[str, int]:
    """Add the planned lines inside the open entry; planned anew where another file was taken in meanwhile."""
    if plan.stand != _stand():
        plan = planned(import_of, tables)
    add_prepared(plan.rows)
    return plan.counts


def _stand() -> tuple[tuple[int, ...], int]:
    """The files that stand and the last line: another file taken in or withdrawn moves them."""
    stands = Import.objects.filter(state=Import.State.TAKEN_IN).order_by("pk")
    files = tuple(stands.values_list("pk", flat=True))
    last = HistoryLine.objects.order_by("-pk").values_list("pk", flat=True).first()
    return files, last or 0


def key_of(line: Line) -> str:
    """What a line is about: its product, batch, day and place, whatever file tells it."""
    about = (line.product, line.batch, line.day, line.pack, line.place)
    return sha256("\x1f".join(about).encode()).hexdigest()


def _not_yet(values: Iterable[Value], known: set[Told]) -> list[Value]:
    return [it for it in values if (it.characteristic, alike(it.value)) not in known]


def _here_already(lines: Sequence[Line]) -> defaultdict[str, set[Told]]:
    """The values that files taken in before tell of the same batches, by key."""
    found: defaultdict[str, set[Told]] = defaultdict(set)
    here = HistoryLine.objects.filter(import_of__state=Import.State.TAKEN_IN)
    if not here.exists():
        return found
    for some in _by_many(key_of(line) for line in lines):
        for key, values in here.filter(key__in=some).values_list("key", "values"):
            found[key].update(
                (it["characteristic"], alike(it["value"])) for it in values
            )
    return found


def _by_many(keys: Iterable[str]) -> Iterator[list[str]]:
    left = iter(keys)
    while some := list(islice(left, AT_ONCE)):
        yield some


def _row(line: Line, products: dict[str, Product]) -> HistoryLine:
    product = products.get(line.product)
    if product is None:
        raise BadInput(
            f"Row {line.rows[0]}: product {line.product} is not kept here any more. Add "
            "it under Specifications, or leave its rows out.",
            field="product",
        )
    _check_short(line)
    return HistoryLine(
        row=line.rows[0],
        batch=line.batch,
        product=product,
        measured_on=date.fromisoformat(line.day),
        kettle=line.kettle,
        pack=line.pack,
        place=line.place,
        instrument=line.instrument,
        person=line.person,
        remark=line.remark[:300],
    )


def _check_short(line: Line) -> None:
    """Refuse what is longer than is kept of it: half a number is another one."""
    for name, longest in LONGEST.items():
        if len(getattr(line, name)) > longest:
            raise BadInput(
                f"Row {line.rows[0]}: the {name} has more than {longest} characters. "
                "Write it shorter, or leave the row out.",
                field=name,
            )


def told(value: Value) -> dict[str, object]:
    """A value as it is stored: with its cells, their raw text and the rule; where it lies beside today's limits is not kept."""
    return {
        "characteristic": value.characteristic,
        "value": value.value,
        "cells": list(value.cells),
        "raw": list(value.raw),
        "rule": value.rule,
        "is_words": value.is_words,
    }
