"""The database's own word that figures in force do not change, on both engines."""

from lims.record.fixing import fix_after_draft

COLUMNS = (
    "edition_id",
    "number",
    "note",
    "figures",
    "is_shipped",
    "approved_at",
    "approved_by_id",
    "signature_id",
)


def register_all() -> None:
    """Hand the triggers to the record, which puts them on and looks after them."""
    fix_after_draft(
        "methods_figuresrevision",
        COLUMNS,
        sentence="figures in force are never changed, only superseded",
        function="kettlemark_figures_fixed",
    )
