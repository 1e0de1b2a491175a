"""What the browser tests start from: their own files, and the plant as the first journey finds it or in mid-shift."""

import pytest

from lims.management import plant as demo
from tests.browser.driving import Bench
from tests.factories import plant


@pytest.fixture
def own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def works(transactional_db, own_files):
    """The plant on Thursday 5 March 2026, 07:30: lot A filled, oxidation last tested on batch 0310."""
    plant.open_plant()
    filled = plant.story()
    del filled["lots"][0]["sample"]
    plant.play(plant.periodic_pass(), filled, until="2026-03-05 07:30")


@pytest.fixture
def sampled(transactional_db, own_files):
    """The plant with one sample on the bench and no reading yet, at 07:50."""
    plant.open_plant()
    plant.play(plant.story(tests={}), until="2026-03-05 07:50")


@pytest.fixture
def mid_shift(transactional_db, own_files):
    """The whole invented plant, as the demo shows it."""
    demo.build(plant.PASSWORDS)


@pytest.fixture
def bench(page, live_server):
    return Bench(page, live_server.url)
