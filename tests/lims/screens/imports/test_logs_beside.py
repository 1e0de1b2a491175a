"""A log is seen from the page of what it is of: the sample whose test it belongs to, and the batch."""

import pytest
from django.urls import reverse

from lims.bench.actions import samples
from lims.imports import actions
from lims.imports.models import Log
from lims.methods import queries as methods
from lims.people.queries import person
from lims.sheets import jobs
from tests.factories import plant
from tests.lims.screens.imports.conftest import (
    address,
    brought,
    fresh,
    map_as_proposed,
    questions_sent,
    text_of,
)
from tests.lims.screens.imports.test_logs import PRESSURE


@pytest.fixture
def technician(as_):
    return as_("tech-a")


@pytest.fixture
def run(opened):
    """A test over hours that nobody has authorised yet."""
    plant.play(plant.story(tests={}), until="2026-03-05 08:53")
    return samples.add_test(
        sample=plant.lot().samples.get(),
        characteristic=methods.characteristic("oxidation-drop"),
        edition=methods.edition("ASTM D942", "19"),
        by=person("tech-a"),
    )


@pytest.fixture
def taken_in(technician):
    """Takes a log in with these answers to what it is of."""

    def take(name, **answers):
        row = brought(PRESSURE, name, kind="log", by="tech-a")
        map_as_proposed(technician, row)
        technician.post(
            address("questions", row.pk),
            questions_sent(technician, fresh(row), **answers),
        )
        jobs.take(fresh(row), by=person("tech-a"))
        return Log.objects.get(import_of=row)

    return take


def pages_of(sample):
    return [
        reverse("bench:sample", args=[sample.number]),
        reverse("batches:batch", args=[sample.batch.number]),
    ]


def links_to(client, log, sample):
    link = reverse("imports:log", args=[log.pk])
    return [link in client.get(it).content.decode() for it in pages_of(sample)]


def test_a_log_of_a_test_is_seen_from_its_sample_and_its_batch(
    technician, run, taken_in
):
    log = taken_in("vessel3.csv", **{"t1-B-subject": f"test {run.pk}"})

    assert log.test == run
    assert links_to(technician, log, run.sample) == [True, True]


def test_a_log_of_a_batch_is_seen_from_the_batch_alone(technician, run, taken_in):
    log = taken_in("kettle.csv", **{"t1-at-B1": run.sample.batch.number})

    assert links_to(technician, log, run.sample) == [False, True]


def test_a_log_of_something_else_is_seen_from_neither(technician, run, taken_in):
    log = taken_in("bath.csv", **{"t1-at-B1": f"{run.sample.batch.number}0"})

    assert links_to(technician, log, run.sample) == [False, False]
    assert "Logs" not in text_of(technician.get(pages_of(run.sample)[0]))


def test_a_withdrawn_log_is_seen_no_more(technician, run, taken_in):
    log = taken_in("vessel3.csv", **{"t1-B-subject": f"test {run.pk}"})

    actions.withdraw(
        import_of=log.import_of, reason="another vessel", by=person("tech-a")
    )

    assert links_to(technician, log, run.sample) == [False, False]
