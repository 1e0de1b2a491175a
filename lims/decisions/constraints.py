"""The database's own word on who may authorise: whoever recorded a determination of a lot does not release it, unless the site lets a deputy decide alone and the reason is given."""

from lims.record import triggers

NAME = "decisions_tester_does_not_release"
TABLE = "decisions_decision"
SENTENCE = "who recorded a determination of a lot does not release it"

# The condition is the same words on both engines; {told} ends the refusal in each.
_TESTED = """
  EXISTS (
    SELECT 1 FROM bench_reading r
    JOIN bench_determination d ON d.id = r.determination_id
    JOIN bench_test t ON t.id = d.test_id
    JOIN batches_sample s ON s.id = t.sample_id
    WHERE s.fill_lot_id = NEW.fill_lot_id AND r.saved_by_id = NEW.decided_by_id
  ) OR EXISTS (
    SELECT 1 FROM bench_condition c
    JOIN bench_determination d ON d.id = c.determination_id
    JOIN bench_test t ON t.id = d.test_id
    JOIN batches_sample s ON s.id = t.sample_id
    WHERE s.fill_lot_id = NEW.fill_lot_id AND c.saved_by_id = NEW.decided_by_id
  ) OR EXISTS (
    SELECT 1 FROM bench_determination d
    JOIN bench_test t ON t.id = d.test_id
    JOIN batches_sample s ON s.id = t.sample_id
    WHERE s.fill_lot_id = NEW.fill_lot_id AND d.begun_by_id = NEW.decided_by_id
  )
"""

SQLITE = f"""
CREATE TRIGGER {NAME} BEFORE INSERT ON {TABLE}
WHEN NEW.disposition = 'release' AND ({_TESTED})
  AND (NEW.alone_reason = '' OR NOT EXISTS (
    SELECT 1 FROM people_site WHERE allow_deputy_alone))
BEGIN SELECT RAISE(ABORT, '{SENTENCE}'); END
"""  # noqa: S608 - constants of this module only

POSTGRES = f"""
CREATE OR REPLACE FUNCTION {NAME}_check() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.disposition = 'release' AND ({_TESTED})
    AND (NEW.alone_reason = '' OR NOT EXISTS (
      SELECT 1 FROM people_site WHERE allow_deputy_alone))
  THEN
    RAISE EXCEPTION '{SENTENCE}' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER {NAME} BEFORE INSERT ON {TABLE}
FOR EACH ROW EXECUTE FUNCTION {NAME}_check();
"""  # noqa: S608 - constants of this module only


def register() -> None:
    triggers.register(NAME, table=TABLE, sqlite_sql=SQLITE, postgres_sql=POSTGRES)
