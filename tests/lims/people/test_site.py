"""The site: one row, founded once, changed with a reason by the administrator."""

import datetime as dt

import pytest
from django.db import IntegrityError

from lims.people import actions, days, queries
from lims.people.models import Site
from lims.record import clock
from lims.record.gate import entry
from lims.record.models import Entry
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from tests.factories.people import SITE


def test_a_site_is_founded_once(plant):
    assert queries.the_site().name == "Quernstone Grease Works"
    assert not queries.the_site().allow_deputy_alone

    with pytest.raises(WrongMove, match="founded already"):
        actions.found_site(**SITE, by=plant)


def test_the_program_founds_no_site_once_there_are_people(plant):
    with pytest.raises(WrongMove, match="administrator founds"):
        actions.found_site(**SITE, by=None)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("code", ""),
        ("code", "Q 1"),
        ("code", "QUERNST"),
        ("name", " "),
        ("laboratory", ""),
        ("address", "\n \n"),
        ("mail", ""),
        ("quality_mail", "nobody"),
        ("check_address", "check.example"),
        ("check_address", "ftp://check.example"),
        ("zone", "Mars/Olympus"),
        ("language", "la"),
        ("first_certificate", 0),
        ("first_certificate", 100_000),
    ],
)
def test_a_site_says_which_field_is_wrong(db, field, value):
    with pytest.raises(BadInput) as refusal:
        actions.found_site(**SITE | {field: value}, by=None)

    assert refusal.value.field == field
    assert not Site.objects.exists()


def test_texts_are_tidied(db):
    site = actions.found_site(
        **SITE
        | {
            "code": " q1 ",
            "address": " 1 Millrace Lane \n\n Quernstone ",
            "check_address": "https://check.example/",
        },
        by=None,
    )

    assert site.code == "Q1"
    assert site.address == "1 Millrace Lane\nQuernstone"
    assert site.check_address == "https://check.example"


def test_settings_change_with_a_reason_and_raise_the_version(plant):
    site = queries.the_site()

    actions.change_site(
        site=site,
        version=1,
        reason="Deputy at night.",
        allow_deputy_alone=True,
        zone="Europe/Dublin",
        by=plant,
    )

    kept = queries.the_site()
    assert (kept.allow_deputy_alone, kept.zone, kept.version) == (
        True,
        "Europe/Dublin",
        2,
    )
    assert Entry.objects.first().reason == "Deputy at night."
    assert str(queries.site_zone()) == "Europe/Dublin"
    assert plant.zone == "Europe/Dublin"


def test_settings_seen_before_somebody_changed_them_are_not_saved(plant):
    site, seen = queries.the_site(), queries.the_site()
    actions.change_site(site=site, version=1, reason="why", language="de", by=plant)

    with pytest.raises(ChangedSince):
        actions.change_site(site=seen, version=1, reason="why", name="X", by=plant)


def test_the_code_of_a_site_stays(plant):
    with pytest.raises(TypeError, match="no setting code"):
        actions.change_site(
            site=queries.the_site(), version=1, reason="why", code="Q2", by=plant
        )


def test_only_an_administrator_changes_settings(person):
    with pytest.raises(NotAllowed, match="for the administrator"):
        actions.change_site(
            site=queries.the_site(),
            version=1,
            reason="why",
            language="de",
            by=person("quality_manager"),
        )


def test_before_the_site_is_founded_the_clock_is_utc(db):
    assert str(queries.site_zone()) == "UTC"
    with pytest.raises(Site.DoesNotExist):
        queries.the_site()


def test_a_second_site_is_refused_by_the_database(plant):
    second = Site(**SITE | {"code": "Q2"})

    with (
        pytest.raises(IntegrityError),
        entry(by=plant, verb="site_founded", about=second),
    ):
        second.save()

    assert queries.the_site().code == "Q1"


def test_the_day_is_the_sites_own(plant):
    clock.set_to(dt.datetime(2026, 6, 30, 22, 30, tzinfo=dt.UTC))

    assert days.today() == dt.date(2026, 7, 1)


def test_the_same_settings_again_are_refused_and_not_recorded(plant):
    site = queries.the_site()

    with pytest.raises(WrongMove, match="Nothing was changed"):
        actions.change_site(
            site=site, version=site.version, reason="again", mail=site.mail, by=plant
        )

    assert not Entry.objects.filter(verb="site_changed").exists()
