"""Printing what was issued: outside the entry that issued it, and never twice."""

from lims.certificates import actions
from lims.certificates.data import CertificateData
from lims.certificates.models import CertificateRevision
from lims.certificates.queries import not_printed
from lims.documents.certificate import print_certificate
from lims.people.models import Person


def print_one(
    issued: CertificateRevision, *, by: Person | None = None
) -> CertificateRevision:
    """Print one revision from its frozen data and keep the file; one that has its file is left alone."""
    if issued.file:
        return issued
    content = print_certificate(CertificateData.from_json(issued.data))
    return actions.keep_file(issued=issued, content=content, by=by)


def print_due() -> list[CertificateRevision]:
    """Print whatever was issued and has no file yet, such as after a breakdown."""
    return [print_one(issued) for issued in not_printed()]
