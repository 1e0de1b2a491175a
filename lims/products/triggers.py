"""The database's own word that an approved revision does not change, on both engines."""

from lims.record.fixing import fix_after_draft
from lims.record.triggers import register

LINE_FIXED = "a requirement of an approved revision is never changed"
REVISION_FIXED = "an approved revision is never changed, only superseded"

FIXED = (
    "number",
    "specification_id",
    "part_number",
    "note",
    "in_force_on",
    "approved_at",
    "approved_by_id",
    "signature_id",
)

# The texts below are made of this module's constants alone.
_STATE_OF = "(SELECT state FROM products_revision WHERE id = {row}.revision_id)"
_OLD_FIXED, _NEW_FIXED = (
    f"{_STATE_OF.format(row=row)} <> 'draft'" for row in ("OLD", "NEW")
)

_LINE_FUNCTION = f"""
CREATE OR REPLACE FUNCTION kettlemark_line_fixed() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP <> 'INSERT' THEN
    IF {_OLD_FIXED} THEN
      RAISE EXCEPTION '{LINE_FIXED}' USING ERRCODE = 'restrict_violation';
    END IF;
  END IF;
  IF TG_OP = 'DELETE' THEN RETURN OLD; END IF;
  IF {_NEW_FIXED} THEN
    RAISE EXCEPTION '{LINE_FIXED}' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
"""


def register_all() -> None:
    """Hand the triggers to the record, which puts them on and looks after them."""
    lines = {
        "insert": _NEW_FIXED,
        "update": f"{_OLD_FIXED} OR {_NEW_FIXED}",
        "delete": _OLD_FIXED,
    }
    for what, when in lines.items():
        _register(what, when)
    fix_after_draft(
        "products_revision",
        FIXED,
        sentence=REVISION_FIXED,
        function="kettlemark_revision_fixed",
    )


def _register(what: str, when: str) -> None:
    table, name = "products_requirement", f"products_requirement_fixed_{what}"
    register(
        name,
        table=table,
        sqlite_sql=(
            f'CREATE TRIGGER "{name}" BEFORE {what.upper()} ON "{table}" WHEN {when} '
            f"BEGIN SELECT RAISE(ABORT, '{LINE_FIXED}'); END"
        ),
        postgres_sql=(
            f"{_LINE_FUNCTION}CREATE TRIGGER {name} BEFORE {what.upper()} "
            f'ON "{table}" FOR EACH ROW EXECUTE FUNCTION kettlemark_line_fixed()'
        ),
    )
