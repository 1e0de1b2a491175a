"""The record is found by person, verb, thing and day."""

import datetime as dt

import pytest

from lims.record import clock, queries
from lims.record.gate import entry
from specs import chain


def noted(person, verb="record_verified", note="x"):
    with entry(by=person, verb=verb, about=person, note=note) as it:
        pass
    return it.seq


def seqs(found):
    return [entry.seq for entry in found]


def test_the_tail_is_the_last_entry(plant):
    seq = noted(plant)

    assert queries.tail().seq == seq
    assert queries.tail().head == queries.entries()[0].hash


def test_the_tail_of_an_empty_record_is_the_first_head(db):
    assert queries.tail() == (0, chain.FIRST_HEAD)


def test_entries_about_a_thing_are_newest_first(person, plant):
    technician = person("technician")
    first, _, second = noted(technician), noted(plant), noted(technician)

    assert seqs(queries.entries(about=technician))[:2] == [second, first]
    assert seqs(queries.entries())[0] == second
    key = ("person", technician.account)
    assert seqs(queries.entries(about=key)) == seqs(queries.entries(about=technician))


@pytest.mark.parametrize(
    ("filters", "found"),
    [
        ({"verb": "record_verified"}, 2),
        ({"account": "administrator", "verb": "record_verified"}, 1),
        ({"about": "TECHNIC", "verb": "record_verified"}, 1),
        ({"about": "nobody"}, 0),
    ],
    ids=["verb", "person", "about", "nothing"],
)
def test_a_search_narrows_by_each_filter(person, plant, filters, found):
    noted(person("technician"))
    noted(plant)

    assert len(queries.search(**filters)) == found


def test_a_day_is_the_sites_own(plant):
    clock.set_to(dt.datetime(2026, 6, 30, 22, 30, tzinfo=dt.UTC))
    seq = noted(plant)
    first_of_july = dt.date(2026, 7, 1)

    assert seqs(queries.search(day=first_of_july, zone="Europe/Berlin")) == [seq]
    assert seqs(queries.search(day=first_of_july)) == []


def test_the_instant_of_an_entry_is_known(plant, morning):
    noted(plant)

    assert queries.at(queries.entries()[0]) == morning


def test_entries_about_several_things_run_from_the_first(person, plant):
    technician, auditor = person("technician"), person("auditor")
    first, _, last = noted(technician), noted(plant), noted(auditor)

    found = queries.entries_about(("person", "technician"), ("person", "auditor"))

    assert seqs(found)[-2:] == [first, last]


def test_entries_about_a_part_are_found_by_its_name(person, plant):
    seq = noted(person("technician"))

    found = queries.entries_about(("sample", "S"), named=("person", "Technic"))

    assert seqs(found)[-1] == seq
    assert not queries.entries_about(("sample", "S"))


def test_everybody_who_wrote_stands_once_with_the_name_printed_last(person, plant):
    technician = person("technician")
    with entry(by=plant, verb="person_changed", about=technician):
        technician.name = "Wilf Tarrow"
        technician.save()
    noted(technician)

    assert queries.authors() == [
        ("administrator", "Ada Ministrator"),
        ("kettlemark", "Kettlemark"),
        ("technician", "Wilf Tarrow"),
    ]


def test_an_entry_is_found_by_its_number(plant):
    assert queries.by_number(noted(plant)).note == "x"
    assert queries.by_number(10_000) is None
