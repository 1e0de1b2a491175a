"""What `verify` asks of certificates: each file stands as issued, with the fingerprint that the record has."""

import hashlib
import json
from collections.abc import Iterator

from django.core.files.storage import default_storage

from lims.certificates.models import CertificateRevision
from lims.record.verify import Finding


def files() -> Finding:
    """Every certificate's file and data, the first wrong one named."""
    count = CertificateRevision.objects.count()
    wrong = next(wrong_files(), None)
    if wrong:
        return Finding("The certificates", wrong)
    return Finding(f"The certificates: {count}, each file as it was issued")


def wrong_files() -> Iterator[str]:
    """A sentence for each certificate whose file or data is not what was issued."""
    for issued in CertificateRevision.objects.select_related("certificate").order_by(
        "pk"
    ):
        sentence = _wrong(issued)
        if sentence:
            yield sentence


def _wrong(issued: CertificateRevision) -> str:
    if json.loads(issued.data).get("number") != issued.certificate.number:
        return f"{issued}: the frozen data name another certificate."
    if not issued.file:
        return ""  # issued, still to be printed
    if not default_storage.exists(issued.file):
        return f"{issued}: the file as issued is missing."
    with default_storage.open(issued.file) as file:
        found = hashlib.sha256(file.read()).hexdigest()
    return "" if found == issued.sha256 else f"{issued}: the file was altered."
