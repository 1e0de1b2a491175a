"""The database's own word on certificates: what was issued is never altered, and a file once kept is never exchanged."""

from lims.record import triggers

NAME = "certificates_issued_is_never_altered"
TABLE = "certificates_certificaterevision"
SENTENCE = "what was issued is never altered"

_ALTERED = """
  OLD.data <> NEW.data OR OLD.code <> NEW.code OR OLD.revision <> NEW.revision
  OR OLD.certificate_id <> NEW.certificate_id OR OLD.decision_id <> NEW.decision_id
  OR OLD.held_against_id <> NEW.held_against_id OR OLD.issued_at <> NEW.issued_at
  OR OLD.issued_by_id <> NEW.issued_by_id
  OR (OLD.file <> '' AND (OLD.file <> NEW.file OR OLD.sha256 <> NEW.sha256))
"""

SQLITE = f"""
CREATE TRIGGER {NAME} BEFORE UPDATE ON {TABLE}
WHEN {_ALTERED}
BEGIN SELECT RAISE(ABORT, '{SENTENCE}'); END
"""

POSTGRES = f"""
CREATE OR REPLACE FUNCTION {NAME}_check() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF {_ALTERED} THEN
    RAISE EXCEPTION '{SENTENCE}' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER {NAME} BEFORE UPDATE ON {TABLE}
FOR EACH ROW EXECUTE FUNCTION {NAME}_check();
"""


def register() -> None:
    triggers.register(NAME, table=TABLE, sqlite_sql=SQLITE, postgres_sql=POSTGRES)
