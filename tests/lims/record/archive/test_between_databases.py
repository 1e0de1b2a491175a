"""An archive of this database makes a new one of its own on SQLite, through the commands, and comes back from there: whichever engine this one runs on."""

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings as project
from django.core.files.storage import default_storage

from lims.record.archive.making import stored_files
from lims.record.archive.restoring import restore
from lims.record.verify import verify
from tests.lims.record.archive.conftest import archive_bytes, manifest_of, parts_of
from tests.lims.record.archive.test_round_trip import told


class Elsewhere:
    """Another copy of the program, with a SQLite database and a folder of its own."""

    def __init__(self, home: Path) -> None:
        self.env = os.environ | {
            "DATABASE_URL": f"sqlite:///{home / 'other.sqlite3'}",
            "KETTLEMARK_FILES": str(home / "stored"),
            "KETTLEMARK_MODE": "demo",
        }

    def run(self, *given: str) -> str:
        done = subprocess.run(  # noqa: S603 - this project's own command
            [sys.executable, str(project.ROOT / "manage.py"), *given],
            env=self.env,
            capture_output=True,
            text=True,
            check=False,
            timeout=120,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout


@pytest.fixture
def returned(archived, tmp_path):
    """The archive that the other copy makes of what it restored."""
    (tmp_path / "there.zip").write_bytes(archived)
    other = Elsewhere(tmp_path)
    other.run("migrate", "--verbosity", "0")
    other.run("restore", str(tmp_path / "there.zip"))
    assert "The record holds." in other.run("verify")
    other.run("archive", str(tmp_path / "back.zip"))
    return (tmp_path / "back.zip").read_bytes()


def test_a_record_moves_to_another_database_and_back(archived, returned, emptied):
    first, second = parts_of(archived), parts_of(returned)
    assert told(second) == told(first)
    assert second["entries.jsonl"].startswith(first["entries.jsonl"])

    restore(io.BytesIO(returned))

    third = parts_of(archive_bytes())
    assert told(third) == told(first)
    assert third["entries.jsonl"].startswith(second["entries.jsonl"])
    assert manifest_of(third)["entries"] == manifest_of(first)["entries"] + 3
    for name in stored_files():
        with default_storage.open(name) as file:
            assert file.read() == first[f"files/{name}"], name
    assert verify().holds
