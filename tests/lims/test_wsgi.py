"""The server does not start over a database that would let unrecorded writes through."""

import importlib

import pytest
from django.core.exceptions import ImproperlyConfigured

from lims.record import clock, triggers

pytestmark = pytest.mark.django_db


@pytest.fixture
def start(monkeypatch):
    """Start the server anew; its demo clock is counted, and no connection is closed."""
    resumed = []
    monkeypatch.setattr(clock, "resume_demo", lambda: resumed.append(1))
    monkeypatch.setattr("django.db.connection.close", lambda: None)

    def start():
        importlib.reload(importlib.import_module("lims.wsgi"))
        return resumed

    return start


def test_a_demo_takes_up_its_clock(start, settings):
    settings.MODE = "demo"

    assert start()


def test_a_plant_keeps_the_true_time(start, settings):
    start().clear()
    settings.MODE = "plant"

    assert start() == []


def test_a_missing_trigger_stops_the_start(start, monkeypatch):
    start()
    monkeypatch.setattr(triggers, "missing", lambda using: ["batches_filllot_insert"])

    with pytest.raises(ImproperlyConfigured, match="migrate, then"):
        start()
