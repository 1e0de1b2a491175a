"""A reader sees words and names, not columns and numbers."""

from lims.people import actions
from lims.record import telling
from lims.record.gate import entry
from lims.record.models import Entry


def test_fields_stand_in_words_and_links_by_name(person, plant):
    technician = person("technician")
    given = actions.give_role(person=technician, role="despatch", by=plant)
    last = Entry.objects.first()

    found = {each.field: each for each in telling.told([last])[last.seq]}

    assert found["person"].after == "Technician"
    assert (found["given at"].before, found["role"].after) == (None, "despatch")
    assert found["role"].thing == "despatch: Technician"
    assert (found["role"].model, found["role"].id) == (
        "people.RoleGiven",
        str(given.pk),
    )


def test_a_field_that_is_gone_from_the_program_is_still_told(plant, monkeypatch):
    with entry(by=plant, verb="person_changed", about=plant):
        plant.name = "Ada"
        plant.save()
    last = Entry.objects.first()
    monkeypatch.setattr(
        Entry,
        "changes",
        [
            dict(last.changes[0], field="shoe_size"),
            dict(last.changes[0], model="moon.Phase"),
        ],
    )

    first, second = telling.told([last])[last.seq]

    assert (first.field, first.after) == ("shoe size", "Ada")
    assert second.field == "name"


def test_many_entries_cost_one_query_for_each_kind_of_thing(
    person, plant, django_assert_num_queries
):
    for role in ("technician", "auditor", "despatch"):
        person(role)
    entries = list(Entry.objects.all())

    with django_assert_num_queries(1):
        assert len(telling.told(entries)) == len(entries)
