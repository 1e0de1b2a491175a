"""The demo's plant as an archive, made once: the database is empty again for each test."""

import io
import json
import zipfile

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import transaction
from django.test import override_settings

from lims.management.plant import build
from lims.methods import actions as methods
from lims.methods import queries as method_queries
from lims.people.queries import person
from lims.record import clock
from lims.record.archive.making import write_archive
from lims.sheets.actions import take_archive
from tests.factories import plant
from tests.factories.plant import PASSWORDS


@pytest.fixture(scope="session")
def archived(django_db_setup, django_db_blocker, tmp_path_factory):
    """The bytes of an archive of the whole demo, its files among them."""
    with django_db_blocker.unblock():
        return archive_of(tmp_path_factory.mktemp("files"), lambda: build(PASSWORDS))


@pytest.fixture(scope="session")
def small(django_db_setup, django_db_blocker, tmp_path_factory):
    """The bytes of an archive of the plant before its first batch, with one stored file; a draft of figures was discarded."""
    with django_db_blocker.unblock():
        return archive_of(tmp_path_factory.mktemp("files"), _before_the_first_batch)


def _before_the_first_batch():
    plant.open_plant()
    default_storage.save("papers/one.txt", ContentFile(b"as it was issued"))
    edition = method_queries.edition("ASTM D217", "21a")
    draft = methods.open_figures_draft(edition=edition, by=person("chem-1"))
    methods.discard_draft(revision=draft, by=person("chem-1"))


def archive_of(files, build):
    """What `build` records, as an archive; the database is left as it was."""
    around = transaction.atomic()
    around._from_testcase = True  # as Django's own tests do: entries begin inside it
    out = io.BytesIO()
    with override_settings(MEDIA_ROOT=files), around:
        build()
        take_archive(to=out, by=None)
        transaction.set_rollback(True)
    clock.reset()
    return out.getvalue()


def archive_bytes():
    """The record as it stands, as an archive."""
    out = io.BytesIO()
    write_archive(out)
    return out.getvalue()


@pytest.fixture
def emptied(db, settings, tmp_path):
    """An empty database and an empty storage."""
    settings.MEDIA_ROOT = tmp_path / "files"
    return settings.MEDIA_ROOT


def parts_of(archive):
    """Each part of an archive by its name."""
    with zipfile.ZipFile(io.BytesIO(archive)) as opened:
        return {name: opened.read(name) for name in opened.namelist()}


def packed(parts):
    """An archive of such parts, as a file."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    out.seek(0)
    return out


def manifest_of(parts):
    return json.loads(parts["manifest.json"])
