"""The migration that carried precisions over into revisions of figures, tried on a database of the old form."""

import json
import sqlite3
import subprocess
import sys

import pytest
from django.conf import settings

ROWS = """
INSERT INTO record_gate (id) VALUES (1);
INSERT INTO methods_characteristic (id, code, name, conditions, unit, kind, procedure,
  parameters, derived_from, step, is_signed, span, place, caution, elsewhere)
  VALUES (1, 'worked-penetration', 'Worked', '', '0.1 mm', 'number', 'cone penetration',
  '{}', '{}', '1', 0, '', 20, '', '{}');
INSERT INTO methods_method (id, designation, title) VALUES (1, 'ASTM D217', 'Cone');
INSERT INTO methods_methodedition
  (id, edition, characteristics, source, standing, checked_by, checked_on, method_id)
  VALUES (1, '21a', '["worked-penetration"]', 'a copy', 'published', 'QM-1',
  '2026-03-04', 1), (2, '19', '[]', 'a copy', 'published', '', NULL, 1);
INSERT INTO methods_precision (id, level_from, level_to, repeatability, reproducibility,
  source, standing, checked_by, characteristic_id, edition_id)
  VALUES (1, '130', '475', '7', '20', 'recalled', 'from memory', 'QM-1', 1, 1),
  (2, '85', '130', '8', '', 'from 100 000 strokes', 'from memory', 'QM-1', 1, 1);
DELETE FROM record_gate;
"""


@pytest.fixture
def database(tmp_path):
    return tmp_path / "old.sqlite3"


def manage(database, *command):
    done = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "manage.py", *command],
        cwd=settings.ROOT,
        env={
            "DATABASE_URL": f"sqlite:///{database}",
            "KETTLEMARK_FILES": str(database.parent),
            "PATH": "",
        },
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def migrate(database, *to):
    manage(database, "migrate", *to, "--verbosity=0")


@pytest.fixture
def carried(database):
    """A database of the old form, brought up to date."""
    migrate(database, "methods", "0002")
    with sqlite3.connect(database) as old:
        old.executescript(ROWS)
    migrate(database)
    return database


def test_what_stood_is_in_force_and_a_check_stays_a_check(carried):
    with sqlite3.connect(carried) as now:
        [revision] = now.execute(
            "SELECT edition_id, number, state, is_shipped, signature_id, "
            "json_extract(figures, '$[0].value'), json_extract(figures, '$[1].what'), "
            "json_extract(figures, '$[2].level_to'), "
            "json_extract(figures, '$[2].source'), json_array_length(figures) "
            "FROM methods_figuresrevision"
        )
        [check] = now.execute(
            "SELECT edition_id, checked_by, checked_on, json_array_length(figures) "
            "FROM methods_figurecheck"
        )
        tables = {row[0] for row in now.execute("SELECT name FROM sqlite_master")}
        stands_open = list(now.execute("SELECT * FROM record_gate"))
    state, told = revision[:5], revision[5:]
    assert state == (1, 1, "in force", 1, None)
    assert told == ("7", "reproducibility", "130", "from 100 000 strokes", 3)
    assert check == (1, "QM-1", "2026-03-04", 3)
    assert "methods_precision" not in tables
    assert stands_open == []


def test_one_entry_tells_what_was_carried_over_and_the_record_holds(carried):
    with sqlite3.connect(carried) as now:
        [entry] = now.execute("SELECT verb, account, content FROM record_entry")
    names = {it["name"] for it in json.loads(entry[2])["changes"]}

    assert entry[:2] == ("figures_carried_over", "kettlemark")
    assert names == {
        "figures 1 of ASTM D217, edition 21a",
        "check of ASTM D217, edition 21a by QM-1",
    }
    assert "The record holds." in manage(carried, "verify")
