"""The whole record as one file: what it holds, who may take it, and the file itself."""

import tempfile
from typing import IO, Any

from django.http import FileResponse, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_http_methods

from lims.people.permissions import Permission, allowed, listed
from lims.people.roles import ROLES
from lims.record import clock, queries
from lims.screens.access import staff
from lims.screens.batches.answers import person_of
from lims.screens.zone import zone
from lims.sheets.actions import take_archive
from lims.wording import dates

AT_ONCE = 16 * 1024 * 1024  # bytes


@require_http_methods(["GET", "HEAD", "POST"])
@staff
def archive(request: HttpRequest) -> HttpResponseBase:
    """Read, what an archive is; sent, the archive, once the entry that tells of it is written."""
    if request.method != "POST":
        return render(request, "record/archive.html", page(request))
    file = tempfile.TemporaryFile()  # noqa: SIM115 - _answer or the response closes it
    try:
        take_archive(to=file, by=person_of(request))
        return _answer(file)
    except BaseException:
        file.close()
        raise


def _answer(file: IO[bytes]) -> HttpResponseBase:
    """The archive as a file to be kept; a small one whole, a large one from the disk piece by piece."""
    day = dates.local_day(clock.now(), zone()).isoformat()
    name, is_large = f"record-{day}.zip", file.tell() > AT_ONCE
    file.seek(0)
    if is_large:
        return FileResponse(file, as_attachment=True, filename=name)
    with file:
        response = HttpResponse(file.read(), content_type="application/zip")
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    return response


def page(request: HttpRequest) -> dict[str, Any]:
    """Where the record stands, and who may take it out."""
    who = [
        f"the {role.words}"
        for role in ROLES.values()
        if Permission.ARCHIVE in role.permissions
    ]
    return {
        "tail": queries.tail(),
        "may_archive": allowed(request.user, Permission.ARCHIVE),
        "who_may": listed(who, "or"),
    }
