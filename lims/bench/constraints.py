"""The database's own word on a released lot: no reading, condition, allowed use, curve or reported value is added to its samples."""

from lims.record import triggers

SENTENCE = "the lot is released and its readings stand"
ROWS = {  # table: the test that a new row belongs to
    "bench_reading": "(SELECT test_id FROM bench_determination WHERE id = NEW.determination_id)",
    "bench_condition": "(SELECT test_id FROM bench_determination WHERE id = NEW.determination_id)",
    "bench_trace": "(SELECT test_id FROM bench_determination WHERE id = NEW.determination_id)",
    "bench_useallowed": """(SELECT d.test_id FROM bench_determination d
      JOIN bench_condition c ON c.determination_id = d.id WHERE c.id = NEW.condition_id)""",
    "bench_reportedvalue": "NEW.test_id",
}

# The condition is the same words on both engines, made of this module's constants alone.
_RELEASED = """
  EXISTS (
    SELECT 1 FROM bench_test t
    JOIN batches_sample s ON s.id = t.sample_id
    JOIN batches_filllot l ON l.id = s.fill_lot_id
    WHERE l.state = 'released' AND t.id = {test}
  )
"""


def _sqlite(name: str, table: str, released: str) -> str:
    return f"""
CREATE TRIGGER {name} BEFORE INSERT ON {table}
WHEN {released}
BEGIN SELECT RAISE(ABORT, '{SENTENCE}'); END
"""


def _postgres(name: str, table: str, released: str) -> str:
    return f"""
CREATE OR REPLACE FUNCTION {name}_check() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF {released} THEN
    RAISE EXCEPTION '{SENTENCE}' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER {name} BEFORE INSERT ON {table}
FOR EACH ROW EXECUTE FUNCTION {name}_check();
"""


def register() -> None:
    """Hand the triggers to the record, which puts them on and looks after them."""
    for table, test in ROWS.items():
        name, released = f"{table}_of_released_lot", _RELEASED.format(test=test)
        triggers.register(
            name,
            table=table,
            sqlite_sql=_sqlite(name, table, released),
            postgres_sql=_postgres(name, table, released),
        )
