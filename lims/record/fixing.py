"""Triggers for a numbered revision: once it is no draft it never changes, it is only superseded. On both engines."""

from collections.abc import Sequence

from lims.record.triggers import register

_BACKWARDS = (
    "NEW.state = 'draft' OR (OLD.state = 'superseded' AND NEW.state <> 'superseded')"
)


def fix_after_draft(
    table: str, columns: Sequence[str], *, sentence: str, function: str
) -> None:
    """Hand the triggers of such a table to the record; the texts are made of a room's own constants alone.

    `columns` are what stays; `sentence` is the refusal, `function` its name on PostgreSQL.
    """
    body = _function(columns, sentence=sentence, function=function)
    changed = _changed(columns, "IS NOT")
    for what, when in (
        ("update", f"OLD.state <> 'draft' AND ({changed} OR {_BACKWARDS})"),
        ("delete", "OLD.state <> 'draft'"),
    ):
        name = f"{table}_fixed_{what}"
        register(
            name,
            table=table,
            sqlite_sql=(
                f'CREATE TRIGGER "{name}" BEFORE {what.upper()} ON "{table}" '
                f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{sentence}'); END"
            ),
            postgres_sql=(
                f"{body}CREATE TRIGGER {name} BEFORE {what.upper()} "
                f'ON "{table}" FOR EACH ROW EXECUTE FUNCTION {function}()'
            ),
        )


def _changed(columns: Sequence[str], differs: str) -> str:
    return " OR ".join(f"NEW.{column} {differs} OLD.{column}" for column in columns)


def _function(columns: Sequence[str], *, sentence: str, function: str) -> str:
    changed = _changed(columns, "IS DISTINCT FROM")
    return f"""
CREATE OR REPLACE FUNCTION {function}() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state <> 'draft' THEN
    IF TG_OP = 'DELETE' THEN
      RAISE EXCEPTION '{sentence}' USING ERRCODE = 'restrict_violation';
    ELSIF {changed} OR {_BACKWARDS} THEN
      RAISE EXCEPTION '{sentence}' USING ERRCODE = 'restrict_violation';
    END IF;
  END IF;
  IF TG_OP = 'DELETE' THEN RETURN OLD; END IF;
  RETURN NEW;
END $$;
"""
