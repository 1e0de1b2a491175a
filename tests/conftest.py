"""What every test may use: an empty database with its triggers, the clock, and people of each role."""

import datetime as dt
import os

import pytest
from django.test import override_settings

from lims.record import clock
from tests import flush

os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")  # the browser runs a loop
CHROMIUM = os.environ.get("CHROMIUM", "/usr/bin/chromium")
MORNING = dt.datetime(2026, 3, 4, 7, 0, tzinfo=dt.UTC)


@pytest.fixture(scope="session", autouse=True)
def _quick_passwords():
    with override_settings(PASSWORD_HASHERS=["tests.hashers.QuickArgon2"]):
        yield


@pytest.fixture(scope="session", autouse=True)
def _work_at_once():
    backend = "django_tasks.backends.immediate.ImmediateBackend"
    tasks = {"default": {"BACKEND": backend, "QUEUES": []}}
    with override_settings(WORK="at once", TASKS=tasks):
        yield


@pytest.fixture(scope="session", autouse=True)
def _flush_past_the_triggers():
    with flush.past_the_triggers():
        yield


@pytest.fixture(autouse=True)
def _true_time_again():
    yield
    clock.reset()


@pytest.fixture
def morning():
    """The clock stands at seven on a Wednesday morning, UTC, until a test sets it."""
    clock.set_to(MORNING)
    return MORNING


@pytest.fixture
def plant(db, morning):
    """The site, founded, with its first administrator."""
    from tests.factories import people

    return people.found_plant()


@pytest.fixture
def person(plant):
    """`person("technician")` or `person("technician", "despatch")`: made once, then the same."""
    from tests.factories import people

    return people.Staff(plant).of


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args):
    return {
        **browser_type_launch_args,
        "executable_path": CHROMIUM,
        "headless": True,
        "args": [
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--disable-dev-shm-usage",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
        ],
    }


@pytest.fixture(scope="session")
def browser_context_args(browser_context_args):
    return {
        **browser_context_args,
        "locale": "en-GB",
        "timezone_id": "UTC",
        "viewport": {"width": 1280, "height": 800},
    }
