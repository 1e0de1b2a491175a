"""Files of the tests' own."""

import pytest


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def manager(person):
    return person("laboratory_manager")
