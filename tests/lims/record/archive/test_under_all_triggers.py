"""Rows come back under every trigger, also those that no trigger would let in today: what a rule allowed then stays as it was decided."""

import io

import pytest

from lims.batches.models import FillLot
from lims.decisions.models import Decision
from lims.people import actions as people
from lims.people.queries import person, the_site
from lims.record.archive import tables
from lims.record.archive.restoring import restore
from lims.record.trigger_texts import recorded_models
from lims.record.verify import verify
from tests.factories import plant
from tests.lims.record.archive.conftest import archive_of

RELEASED = FillLot.State.RELEASED


def decided_alone():
    """A technician who was a deputy released what they had tested; the site allows it no more."""
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story())
    people.give_role(
        person=person("tech-a"), role="laboratory_manager", by=person("adm-1")
    )
    allow(alone=True)
    why = "night shift, nobody else on duty"
    plant.release(plant.lot(), by="tech-a", alone_reason=why)
    allow(alone=False)


def allow(*, alone):
    site = the_site()
    people.change_site(
        site=site,
        version=site.version,
        reason="the summer weeks",
        allow_deputy_alone=alone,
        by=person("adm-1"),
    )


@pytest.fixture
def moved(db, tmp_path, settings):
    archive = archive_of(tmp_path / "there", decided_alone)
    settings.MEDIA_ROOT = tmp_path / "here"
    restore(io.BytesIO(archive))


def test_what_was_decided_alone_comes_back_although_it_is_allowed_no_more(moved):
    (decision,) = Decision.objects.filter(fill_lot=plant.lot())

    assert decision.alone_reason
    assert not the_site().allow_deputy_alone
    assert plant.lot().state == RELEASED
    assert verify().holds


def test_every_recorded_table_is_archived_once():
    models = tables.archived()

    assert len(models) == len(set(models))
    assert set(models) == set(recorded_models())


def test_a_row_comes_before_those_that_it_leads_to_and_a_room_before_the_rooms_below():
    place = {model: number for number, model in enumerate(tables.archived())}
    wrong = [
        (model._meta.label, field.name)
        for model in place
        for field in model._meta.concrete_fields
        if field.related_model in place
        and field.related_model is not model
        and place[field.related_model] < place[model]
    ]
    rooms = [model._meta.app_label for model in place]

    assert wrong == []
    assert rooms.index("decisions") < rooms.index("bench") < rooms.index("batches")


def test_nothing_of_a_table_is_left_out_but_what_is_secret():
    for model in tables.archived():
        every = {it.attname for it in model._meta.concrete_fields}
        assert every - set(tables.names(model)) == set(
            getattr(model, "secret_fields", ())
        )
