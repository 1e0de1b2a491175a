"""`manage.py demo`: a database of its own, accounts printed at each start, and refusals."""

import io
import socket
import sys
from types import ModuleType

import pytest
from django.core.management import CommandError, call_command

from lims.management import demo_accounts, demo_database
from lims.management.commands import demo as command
from lims.management.demo_accounts import Account, Kept
from lims.people.models import Person
from lims.record.clock import now
from lims.record.gate import entry

pytestmark = pytest.mark.django_db


def add_person(account):
    person = Person(account=account, name=account.title(), created_at=now())
    with entry(by=None, verb="person_invited", about=person):
        person.save()


@pytest.fixture(autouse=True)
def home(settings, tmp_path):
    settings.HOME = tmp_path / "home"
    return settings.HOME


@pytest.fixture
def plant(monkeypatch):
    """A plant of two people; what was built is counted."""
    built = []

    def build(passwords, *, check_address):
        assert check_address.startswith("http://127.0.0.1:")
        for account in ("anna", "bo"):
            assert len(passwords[account]) >= 15
            add_person(account)
        built.append(dict(passwords))

    module = ModuleType("lims.management.plant")
    module.build = build
    monkeypatch.setitem(sys.modules, "lims.management.plant", module)
    monkeypatch.setattr("lims.management.plant", module, raising=False)
    return built


def demo(*options):
    out = io.StringIO()
    call_command("demo", "--no-serve", *options, stdout=out)
    return out.getvalue()


def test_the_first_start_builds_the_plant_and_prints_its_accounts(plant):
    said = demo()

    assert len(plant) == 1
    for account, password in plant[0].items():
        assert account in said
        assert password in said


def test_the_second_start_uses_the_same_plant_and_prints_the_same(plant):
    first = demo()

    second = demo()

    assert len(plant) == 1
    assert set(second.splitlines()) <= set(first.splitlines())


def test_passwords_are_kept_beside_the_database_for_their_owner_only(plant, home):
    demo()

    file = home / "demo-accounts.json"
    assert file.stat().st_mode & 0o777 == 0o600


def test_a_plants_laboratory_is_left_alone(settings, plant):
    settings.IS_PLANT = True

    with pytest.raises(CommandError, match="KETTLEMARK_MODE=plant"):
        demo()

    assert plant == []


def test_a_database_with_other_people_is_left_alone(plant):
    add_person("someone")

    with pytest.raises(CommandError, match="people whom the demo did not make"):
        demo()

    assert plant == []


def test_accounts_of_another_database_do_not_open_this_one(plant):
    add_person("anna")
    one = Account("anna", "Anna", "technician", "x")
    demo_accounts.write(Kept(database="other", is_complete=True, accounts=(one,)))

    with pytest.raises(CommandError, match="people whom the demo did not make"):
        demo()


def test_people_added_during_the_demo_do_no_harm(plant):
    demo()
    add_person("newcomer")

    assert "anna" in demo()
    assert len(plant) == 1


def test_a_plant_that_was_not_built_to_the_end_is_not_used(plant):
    add_person("anna")
    name = demo_database.name()
    demo_accounts.write(Kept(database=name, is_complete=False, accounts=()))

    with pytest.raises(CommandError, match="not built to the end"):
        demo()


def test_fresh_deletes_nothing_but_the_demos_own_database(plant):
    with pytest.raises(CommandError, match="own SQLite database only"):
        demo("--fresh")


def test_a_taken_port_is_named_before_anything_is_set_up(plant):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]

        with pytest.raises(CommandError, match=f"Port {port} cannot be used"):
            call_command("demo", "--port", str(port), stdout=io.StringIO())

    assert plant == []


@pytest.mark.parametrize(("asked", "proposed"), [(8765, 8766), (8766, 8765)])
def test_the_port_proposed_is_another_than_the_one_asked_for(
    monkeypatch, asked, proposed
):
    monkeypatch.setattr(command, "HOST", "192.0.2.1")  # no address of this machine

    with pytest.raises(CommandError, match=f"--port {proposed}$"):
        command.check_port(asked)


def test_a_port_that_is_no_port_is_refused(plant):
    with pytest.raises(CommandError, match="--port 8765"):
        call_command("demo", "--port", "70000", stdout=io.StringIO())
