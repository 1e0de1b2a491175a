"""What `verify` asks of certificates: each revision stands as the record tells of it, and its file with the fingerprint that the record has."""

import hashlib
import json
from collections.abc import Iterator

from django.core.files.storage import default_storage

from lims.certificates.models import CertificateRevision
from lims.record.models import Entry
from lims.record.verify import Finding

MODEL = "certificates.CertificateRevision"
Told = dict[str, dict[str, str | None]]  # by key, then by field


def files() -> Finding:
    """Every certificate's file and data, the first wrong one named."""
    count = CertificateRevision.objects.count()
    wrong = next(wrong_files(), None)
    if wrong:
        return Finding("The certificates", wrong)
    return Finding(f"The certificates: {count}, each file as it was issued")


def wrong_files() -> Iterator[str]:
    """A sentence for each certificate whose file or data is not what was issued."""
    told = _told_by_the_record()
    for issued in CertificateRevision.objects.select_related("certificate").order_by(
        "pk"
    ):
        sentence = _wrong(issued, told.pop(str(issued.pk), {}))
        if sentence:
            yield sentence
    if told:
        yield f"certificate revision {min(told, key=int)} is gone"


def _told_by_the_record() -> Told:
    """What the entries say that was written of each revision, the newest word of each field."""
    told: Told = {}
    for content in (
        Entry.objects.filter(about_kind="certificate")
        .order_by("seq")
        .values_list("content", flat=True)
    ):
        for change in json.loads(content)["changes"]:
            if change["model"] == MODEL:
                row = told.setdefault(str(change["id"]), {})
                row[change["field"]] = change["after"]
    return told


def _wrong(issued: CertificateRevision, told: dict[str, str | None]) -> str:
    if told.get("data") != f"sha256:{_hash(issued.data.encode())}":
        return f"{issued}: the frozen data are not those that were issued."
    for field in ("code", "file", "sha256"):
        if (told.get(field) or "") != getattr(issued, field):
            return f"{issued}: its {field} is not the one that the record tells of."
    if not issued.file:
        return ""  # issued, still to be printed
    if not default_storage.exists(issued.file):
        return f"{issued}: the file as issued is missing."
    with default_storage.open(issued.file) as file:
        found = _hash(file.read())
    return "" if found == issued.sha256 else f"{issued}: the file was altered."


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
