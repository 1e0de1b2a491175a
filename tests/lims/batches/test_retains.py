"""A retain has a place of its own; a decision without one needs a reason and a manager."""

import pytest

from lims.batches import actions
from lims.batches.models import Retain
from lims.bench.actions.samples import receive_sample
from lims.people.queries import person as person_of
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import plant


@pytest.fixture
def works(db):
    plant.open_plant()
    plant.play(
        plant.story(tests={}, retain=None),
        plant.story("0418", tests={}, retain="R-12-05"),
        until="2026-03-05 09:00",
    )


def test_a_place_is_noted_as_scanned(works):
    actions.keep_retain(
        sample=plant.sample(), place=" r-12-04 ", by=person_of("tech-a")
    )

    assert Retain.objects.get(sample=plant.sample()).place == "R-12-04"


def test_a_place_holds_one_retain(works):
    with pytest.raises(BadInput, match="holds the retain of Q1-26-0418-A-01"):
        actions.keep_retain(
            sample=plant.sample(), place="R-12-05", by=person_of("tech-a")
        )


def test_a_sample_has_one_retain(works):
    with pytest.raises(WrongMove, match="kept already"):
        actions.keep_retain(
            sample=plant.sample("0418"), place="R-12-09", by=person_of("tech-a")
        )


def test_a_place_is_written(works):
    with pytest.raises(BadInput):
        actions.keep_retain(sample=plant.sample(), place=" ", by=person_of("tech-a"))


def test_a_kettle_sample_has_no_retain(works):
    kettle = receive_sample(
        batch=plant.lot().batch,
        place="kettle",
        taken_at=plant.at("2026-03-05 08:50"),
        taken_by="",
        by=person_of("tech-a"),
    )

    with pytest.raises(WrongMove, match="finished samples"):
        actions.keep_retain(sample=kettle, place="R-12-04", by=person_of("tech-a"))


def allow(reason="jar broken in the store", by="mgr-1", number="0417"):
    actions.allow_without_retain(
        fill_lot=plant.lot(number), reason=reason, by=person_of(by)
    )


def test_an_exception_is_kept_with_its_reason(works):
    allow()

    assert plant.lot().retain_exception.reason == "jar broken in the store"


def test_an_exception_needs_a_reason(works):
    with pytest.raises(BadInput):
        allow(reason=" ")


def test_a_technician_allows_no_exception(works):
    with pytest.raises(NotAllowed):
        allow(by="tech-a")


def test_an_exception_is_allowed_once_and_only_where_it_is_needed(works):
    allow()

    with pytest.raises(WrongMove, match="already"):
        allow()
    with pytest.raises(WrongMove, match="no exception is needed"):
        allow(number="0418")
