"""The whole record as a file: who may take it, what the page says, and the entry that tells who did."""

import io
import zipfile

import pytest
from django.urls import reverse

from lims.record.archive.manifest import read
from lims.record.models import Entry

PAGE = reverse("record:archive")


def test_everybody_reads_what_an_archive_is(auditor):
    page = auditor.get(PAGE).content.decode()

    assert "can be taken out as one file" in page
    assert "is for the laboratory manager or the quality manager" in page
    assert "Make the archive" not in page


def test_the_record_leads_there(auditor):
    assert PAGE in auditor.get(reverse("record:list")).content.decode()


@pytest.mark.parametrize("account", ["mgr-1", "qm-1"])
def test_whoever_may_takes_it_and_the_record_tells_so(as_account, account):
    client = as_account(account)
    assert "Make the archive" in client.get(PAGE).content.decode()

    response = client.post(PAGE)

    with zipfile.ZipFile(io.BytesIO(response.content)) as archive:
        manifest = read(archive.read("manifest.json"))
    last = Entry.objects.order_by("-seq").first()
    assert (last.verb, last.account) == ("archive_begun", account)
    assert (manifest.entries, manifest.head) == (last.seq, last.hash)
    assert response["Content-Disposition"].startswith('attachment; filename="record-')


@pytest.mark.parametrize("account", ["tech-a", "chem-1", "desk-1", "aud-1", "adm-1"])
def test_nobody_else_takes_it(as_account, account):
    before = Entry.objects.count()

    response = as_account(account).post(PAGE)

    assert response.status_code == 403
    assert "Taking the whole record out is for" in response.content.decode()
    assert Entry.objects.count() == before


def test_a_large_archive_leaves_piece_by_piece_and_whole(as_account, monkeypatch):
    monkeypatch.setattr("lims.screens.record.archiving.AT_ONCE", 1000)

    response = as_account("qm-1").post(PAGE)

    content = b"".join(response.streaming_content)
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        assert archive.testzip() is None
    assert int(response["Content-Length"]) == len(content) > 1000
