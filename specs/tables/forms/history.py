"""The form of results of earlier batches: the batch, its day and product, and one column a characteristic."""

from collections.abc import Iterable

from specs.tables.forms.form import Form, FormColumn, Reads
from specs.tables.known import Measured, Role

HISTORY = Form(
    "history",
    "Results of earlier batches",
    Role.BATCH,
    (
        FormColumn(Role.BATCH, "Batch", note="Its number.", required=True),
        FormColumn(
            Role.DAY,
            "Date",
            note="The day of the result.",
            required=True,
            reads=Reads.DAY,
        ),
        FormColumn(
            Role.PRODUCT,
            "Product",
            note="Its code.",
            required=True,
            reads=Reads.NAME,
            of="product",
        ),
        FormColumn(Role.KETTLE, "Kettle"),
        FormColumn(Role.PACK, "Fill lot", note="Its letter, or the pack."),
        FormColumn(
            Role.PLACE,
            "Where sampled",
            choices=("kettle", "after mill", "pack", "tote", "bulk"),
            reads=Reads.CHOICE,
        ),
        FormColumn(Role.INSTRUMENT, "Instrument"),
        FormColumn(Role.PERSON, "Analyst"),
        FormColumn(Role.REMARK, "Remark"),
    ),
)


def history_of(measured: Iterable[Measured]) -> Form:
    """The form with a column for each of these characteristics, before the remark."""
    *before, remark = HISTORY.columns
    results = tuple(_result(it) for it in measured)
    return Form(
        HISTORY.kind, HISTORY.title, HISTORY.anchor, (*before, *results, remark)
    )


def _result(it: Measured) -> FormColumn:
    heading = f"{it.name}, {it.conditions}" if it.conditions else it.name
    return FormColumn(it.code, heading, unit=it.unit, note=_note(it), choices=it.scale)


def _note(it: Measured) -> str:
    if it.scale:
        return f"A mark: {', '.join(it.scale)}."
    if it.kind == "words":
        return "In words."
    return "A number, or a bound with < or >; n/a where it was not tested."
