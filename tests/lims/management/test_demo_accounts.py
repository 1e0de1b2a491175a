"""The file with the demo's accounts, and how they are printed."""

import pytest

from lims.management import demo_accounts
from lims.management.demo_accounts import Account, Kept

ANNA = Account("anna", "Anna Berg", "technician", "olive-robin-maple-canoe-42")
BO = Account("bo", "Bo Lind", "despatch", "cedar-otter-plover-daisy-17")


@pytest.fixture(autouse=True)
def home(settings, tmp_path):
    settings.HOME = tmp_path / "home"
    return settings.HOME


def test_what_was_written_is_read():
    kept = Kept(database="sqlite x", is_complete=True, accounts=(ANNA, BO))

    demo_accounts.write(kept)

    assert demo_accounts.read() == kept


def test_only_its_owner_reads_the_file():
    demo_accounts.write(Kept(database="", is_complete=False, accounts=()))

    assert demo_accounts.place().stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("text", ["", "{}", "[]", '{"accounts": 3}'])
def test_a_file_that_cannot_be_read_counts_as_none(home, text):
    home.mkdir()
    demo_accounts.place().write_text(text)

    assert demo_accounts.read() is None


def test_no_file_counts_as_none():
    assert demo_accounts.read() is None


def test_the_accounts_stand_in_columns():
    head, first, second = demo_accounts.table([ANNA, BO])

    assert head.split() == ["Account", "Password", "Name", "Roles"]
    assert first.index("Anna Berg") == second.index("Bo Lind") == head.index("Name")
    assert second.endswith("despatch")
