"""Taking the whole record out: an entry says who did, then the archive is written."""

from typing import IO

from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record import queries
from lims.record.archive.making import write_archive
from lims.record.archive.manifest import Manifest
from lims.record.carrying import Thing
from lims.record.differences import utc_text
from lims.record.gate import entry
from lims.record.refusals import WrongMove


def take_archive(*, to: IO[bytes], by: Person | None) -> Manifest:
    """Write the whole record, with the entry that tells of it, to an open file; `by` is nobody where the server's own command asks.

    Raises NotAllowed, and WrongMove where nothing is recorded yet.
    """
    if by is not None:
        check(by, Permission.ARCHIVE)
    if not queries.tail().seq:
        raise WrongMove(
            "Nothing is recorded yet, so there is nothing to archive. To make this "
            "database of an archive, run `manage.py restore`."
        )
    with entry(by=by, verb="archive_begun") as it:
        key = utc_text(it.at)
        it.about = Thing("archive", key, f"record as of {key}")
        it.note = "All recorded tables, entries and stored files; no passwords."
    return write_archive(to)
