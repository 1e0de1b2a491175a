"""The triggers stand on every recorded table, are missed when they do not, and come back."""

import pytest
from django.core.management import call_command
from django.db import connection

from lims.people.models import Person, Site
from lims.record import trigger_texts, triggers
from lims.record.gate import GateError, entry
from lims.record.models import Entry
from tests.factories import people
from tests.lims.record.refused import refused, run, take_off_triggers

FURTHER = "people_site_no_moon"


@pytest.fixture
def further(monkeypatch):
    """A rule of a room's own, on one table, that speaks of another."""
    moon = "NEW.name = 'Moon' AND EXISTS (SELECT 1 FROM people_person)"
    monkeypatch.setattr(triggers, "_further", dict(triggers._further))
    triggers.register(
        FURTHER,
        table="people_site",
        sqlite_sql=f"CREATE TRIGGER {FURTHER} BEFORE UPDATE ON people_site "
        f"WHEN {moon} BEGIN SELECT RAISE(ABORT, 'not there'); END;",
        postgres_sql=f"CREATE OR REPLACE FUNCTION {FURTHER}_check() RETURNS trigger "
        f"LANGUAGE plpgsql AS $$ BEGIN IF {moon} THEN RAISE EXCEPTION 'not there' USING ERRCODE = "
        "'restrict_violation'; END IF; RETURN NEW; END $$; "
        f"CREATE TRIGGER {FURTHER} BEFORE UPDATE ON people_site "
        f"FOR EACH ROW EXECUTE FUNCTION {FURTHER}_check();",
    )
    triggers.install("default")
    yield
    run(f"DROP TRIGGER IF EXISTS {FURTHER}" + _on("people_site"))


def _on(table):
    return f' ON "{table}"' if connection.vendor == "postgresql" else ""


@pytest.mark.parametrize(
    "model", trigger_texts.recorded_models(), ids=lambda model: model._meta.label
)
def test_every_recorded_table_refuses_writing_while_the_gate_is_closed(db, model):
    stand = {trigger.name for trigger in triggers.expected("default")}
    table = model._meta.db_table

    assert {f"{table}_gate_{what}" for what in ("insert", "update", "delete")} <= stand
    assert triggers.missing("default") == []
    assert "only inside an entry" in refused(f'INSERT INTO "{table}" DEFAULT VALUES')


def test_a_trigger_that_was_dropped_is_named(db):
    run("DROP TRIGGER people_person_gate_update" + _on("people_person"))

    assert triggers.missing("default") == ["people_person_gate_update"]


@pytest.mark.skipif(connection.vendor != "sqlite", reason="SQLite keeps the text")
def test_a_trigger_that_was_altered_is_named(db):
    run("DROP TRIGGER people_person_gate_update")
    run(
        "CREATE TRIGGER people_person_gate_update BEFORE UPDATE ON people_person "
        "WHEN 1 = 0 BEGIN SELECT 1; END"
    )

    assert triggers.missing("default") == ["people_person_gate_update"]


def test_no_entry_is_written_while_a_trigger_is_missing(plant):
    take_off_triggers("people_person")
    triggers.look_again()

    with (
        pytest.raises(GateError, match="people_person_gate_insert"),
        entry(by=plant, verb="record_verified", about=plant, note="x"),
    ):
        pass

    triggers.install("default")
    with entry(by=plant, verb="record_verified", about=plant, note="x"):
        pass


def test_a_rule_of_a_room_is_put_on_and_refuses(plant, further):
    assert triggers.missing("default") == []

    with entry(by=plant, verb="site_changed", about=plant, note="x"):
        assert "not there" in refused("UPDATE people_site SET name = 'Moon'")


def test_a_rule_of_a_room_that_is_gone_is_named(plant, further):
    run(f"DROP TRIGGER {FURTHER}" + _on("people_site"))

    assert triggers.missing("default") == [FURTHER]


@pytest.mark.skipif(connection.vendor != "sqlite", reason="SQLite rebuilds tables")
@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("model", [Person, Site], ids=["person", "site"])
def test_a_table_rebuilt_by_a_migration_has_its_triggers_again(model, further):
    people.found_plant()
    triggers.take_off_before_migrate(using="default")
    with connection.schema_editor() as editor:
        editor._remake_table(model)
    table = model._meta.db_table
    gone = {f"{table}_gate_{what}" for what in ("insert", "update", "delete")}

    assert gone <= set(triggers.missing("default"))

    call_command("migrate", verbosity=0)

    assert triggers.missing("default") == []
    assert "only inside an entry" in refused(f'UPDATE "{table}" SET name = name')


@pytest.mark.django_db(transaction=True)
def test_a_database_emptied_between_tests_has_its_triggers_again():
    people.found_plant()
    call_command("flush", interactive=False, verbosity=0)

    assert Entry.objects.count() == Person.objects.count() == 0
    assert triggers.missing("default") == []
    assert "only inside an entry" in refused("INSERT INTO people_site DEFAULT VALUES")


@pytest.mark.skipif(connection.vendor != "postgresql", reason="PostgreSQL's own way")
def test_a_recorded_table_is_not_truncated(plant):
    with connection.cursor() as cursor:  # else the rows just made are in the way
        cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")

    assert "never changed" in refused("TRUNCATE people_person CASCADE")


@pytest.mark.skipif(connection.vendor != "postgresql", reason="PostgreSQL's own way")
@pytest.mark.django_db
def test_an_emptied_function_is_named_and_renewed():
    with connection.cursor() as cursor:
        cursor.execute(
            "CREATE OR REPLACE FUNCTION kettlemark_gate() RETURNS trigger "
            "LANGUAGE plpgsql AS $$ BEGIN RETURN NEW; END $$"
        )

    assert "people_site_gate_insert" in triggers.missing("default")

    triggers.install("default")
    assert triggers.missing("default") == []
