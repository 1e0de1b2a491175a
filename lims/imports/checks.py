"""What `verify` asks of files that were brought in: each is kept as it came."""

import hashlib
from collections.abc import Iterator

from django.core.files.storage import default_storage

from lims.imports.models import Import
from lims.record.verify import Finding


def files() -> Finding:
    """Every kept file, the first wrong one named."""
    count = Import.objects.count()
    wrong = next(wrong_files(), None)
    if wrong:
        return Finding("The files brought in", wrong)
    return Finding(f"The files brought in: {count}, each kept as it came")


def wrong_files() -> Iterator[str]:
    """A sentence for each file that is missing or is not the one that came."""
    for it in Import.objects.order_by("pk"):
        if not default_storage.exists(it.stored_as):
            yield f"the kept file of {it.name} (import {it.pk}) is missing."
            continue
        with default_storage.open(it.stored_as) as file:
            found = hashlib.sha256(file.read()).hexdigest()
        if found != it.sha256:
            yield f"the kept file of {it.name} (import {it.pk}) was altered."
