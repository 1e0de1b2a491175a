"""What --fresh deletes: the SQLite file in the demo's own folder with all that belongs to it."""

import pytest

from lims.management import demo_accounts, demo_database


class Connection:
    """Stands for the connection to a database; records that it was closed."""

    def __init__(self, file, vendor="sqlite"):
        self.vendor = vendor
        self.settings_dict = {"NAME": file, "HOST": "", "PORT": ""}
        self.closed = False

    def close(self):
        self.closed = True


@pytest.fixture
def home(settings, tmp_path):
    settings.HOME = tmp_path / "home"
    (settings.HOME / "files" / "certificates").mkdir(parents=True)
    return settings.HOME


def test_the_demos_own_database_goes_with_its_files_clock_and_passwords(
    home, monkeypatch
):
    connection = Connection(home / "kettlemark.sqlite3")
    monkeypatch.setattr(demo_database, "connection", connection)
    for name in ("kettlemark.sqlite3", "kettlemark.sqlite3-wal", "clock"):
        (home / name).touch()
    (home / "files" / "certificates" / "one.pdf").touch()
    demo_accounts.place().touch()

    demo_database.delete()

    assert connection.closed
    assert list(home.iterdir()) == []


@pytest.mark.parametrize(
    ("folder", "vendor"), [("elsewhere", "sqlite"), ("home", "postgresql")]
)
def test_any_other_database_stays(home, tmp_path, monkeypatch, folder, vendor):
    (tmp_path / "elsewhere").mkdir()
    file = tmp_path / folder / "kettlemark.sqlite3"
    file.touch()
    monkeypatch.setattr(demo_database, "connection", Connection(file, vendor))

    with pytest.raises(demo_database.NotOursError):
        demo_database.delete()

    assert file.exists()
