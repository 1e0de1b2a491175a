"""A file that cannot be read is refused; one that cannot be read in the way that somebody chose may be read in another."""

import pytest
from django.urls import reverse

from lims.imports import actions
from lims.imports.models import Import
from lims.sheets import jobs, looking
from tests.factories import bringing


@pytest.fixture
def manager(person, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    return person("laboratory_manager")


def test_a_file_that_is_no_table_is_refused_with_its_sentence(manager):
    row = bringing.received(by=manager, content=b"%PDF-1.7\n", name="a.csv")

    jobs.look(row)

    row = Import.objects.get()
    assert row.state == "refused"
    assert row.reason


def test_another_encoding_may_be_chosen_after_one_that_fails(manager, client):
    row = bringing.received(by=manager, content=b"Batch;Pen\nQ1;280\nQ2;281\n")
    actions.set_reading(import_of=row, encoding="utf-16", delimiter=";", by=manager)

    jobs.look(row)

    found = looking.looked(row)
    assert Import.objects.get().state == "received"
    assert found.stage == "failed"
    assert found.words.startswith("Read so, it fails.")
    client.force_login(manager)
    page = client.get(reverse("imports:one", args=[row.pk])).content.decode()
    assert "Read so, it fails." in page
    assert "Read it this way" in page

    row = Import.objects.get()
    actions.set_reading(import_of=row, encoding="utf-8", delimiter=";", by=manager)
    jobs.look(row)
    assert looking.looked(row).stage == "looked at"
