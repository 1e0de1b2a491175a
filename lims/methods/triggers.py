"""The database's own word that figures in force do not change, on both engines."""

from lims.record.triggers import register

FIXED = "figures in force are never changed, only superseded"
TABLE = "methods_figuresrevision"
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

# The texts below are made of this module's constants alone.
_OTHERWISE_POSTGRES = " OR ".join(
    f"NEW.{column} IS DISTINCT FROM OLD.{column}" for column in COLUMNS
)
_OTHERWISE_SQLITE = " OR ".join(
    f"NEW.{column} IS NOT OLD.{column}" for column in COLUMNS
)
_BACKWARDS = (
    "NEW.state = 'draft' OR (OLD.state = 'superseded' AND NEW.state <> 'superseded')"
)

_FUNCTION = f"""
CREATE OR REPLACE FUNCTION kettlemark_figures_fixed() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state <> 'draft' THEN
    IF TG_OP = 'DELETE' THEN
      RAISE EXCEPTION '{FIXED}' USING ERRCODE = 'restrict_violation';
    ELSIF {_OTHERWISE_POSTGRES} OR {_BACKWARDS} THEN
      RAISE EXCEPTION '{FIXED}' USING ERRCODE = 'restrict_violation';
    END IF;
  END IF;
  IF TG_OP = 'DELETE' THEN RETURN OLD; END IF;
  RETURN NEW;
END $$;
"""


def register_all() -> None:
    """Hand the triggers to the record, which puts them on and looks after them."""
    changed = f"OLD.state <> 'draft' AND ({_OTHERWISE_SQLITE} OR {_BACKWARDS})"
    for what, when in (("update", changed), ("delete", "OLD.state <> 'draft'")):
        name = f"{TABLE}_fixed_{what}"
        register(
            name,
            table=TABLE,
            sqlite_sql=(
                f'CREATE TRIGGER "{name}" BEFORE {what.upper()} ON "{TABLE}" '
                f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{FIXED}'); END"
            ),
            postgres_sql=(
                f"{_FUNCTION}CREATE TRIGGER {name} BEFORE {what.upper()} "
                f'ON "{TABLE}" FOR EACH ROW EXECUTE FUNCTION kettlemark_figures_fixed()'
            ),
        )
