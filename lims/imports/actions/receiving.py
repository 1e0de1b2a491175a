"""Receiving a file, and saying how it is read, what its columns hold and what its questions are answered with."""

import hashlib
import uuid
from collections.abc import Mapping
from typing import Any

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage

from lims.bench.actions.traces import named
from lims.imports import rules
from lims.imports.models import Import, Staging
from lims.people.models import Person
from lims.record.clock import now
from lims.record.gate import entry
from lims.record.refusals import BadInput

FOLDER = "imports"
Said = Mapping[str, Mapping[str, Any]]  # by block, then by column or question


def receive(*, name: str, content: bytes, kind: str, by: Person) -> Import:
    """Keep a file as it came, with its hash; nothing of it is taken in yet.

    The same bytes waiting already are that import again. Raises BadInput for an empty or
    too large file and for one that was taken in before.
    """
    rules.check_may(by, kind)
    rules.check_size(len(content))
    sha256 = hashlib.sha256(content).hexdigest()
    rules.check_not_taken_in(sha256, kind)
    found = _waiting(sha256, kind)
    if found is not None:
        return found
    stored_as = default_storage.save(
        f"{FOLDER}/{uuid.uuid4().hex}", ContentFile(content)
    )
    row = Import(
        kind=kind,
        name=named(name),
        stored_as=stored_as,
        sha256=sha256,
        size=len(content),
        received_at=now(),
        received_by=by,
    )
    try:
        _keep(row, by)
    except _CameTwiceError as twice:
        default_storage.delete(stored_as)
        return twice.first
    except BaseException:
        default_storage.delete(stored_as)
        raise
    return row


class _CameTwiceError(Exception):
    """The same bytes were received while these were being stored."""

    def __init__(self, first: Import) -> None:
        self.first = first


def _waiting(sha256: str, kind: str) -> Import | None:
    """The import that waits with the same bytes, if one does."""
    waits = Import.objects.filter(sha256=sha256, kind=kind, state=rules.State.RECEIVED)
    return waits.first()


def _keep(row: Import, by: Person) -> None:
    """Record the file; nothing where another with its bytes came first, which is certain only inside the entry."""
    with entry(by=by, verb="file_received") as record:
        first = _waiting(row.sha256, row.kind)
        if first is not None:
            raise _CameTwiceError(first)
        rules.check_not_taken_in(row.sha256, row.kind)
        row.save()
        record.about = row
        Staging(import_of=row, changed_at=now()).save()


def content_of(import_of: Import) -> bytes:
    """The file as it came; refused when the store no longer holds just that."""
    try:
        with default_storage.open(import_of.stored_as) as file:
            content = bytes(file.read())
    except OSError as trouble:
        raise BadInput(
            f"The kept file of {import_of.name} cannot be opened: bring it in again.",
            field="file",
        ) from trouble
    if hashlib.sha256(content).hexdigest() != import_of.sha256:
        raise BadInput(
            f"The kept file of {import_of.name} is not as it was received: leave this "
            "import and bring the file in again.",
            field="file",
        )
    return content


def set_reading(
    *,
    import_of: Import,
    encoding: str,
    delimiter: str,
    version: int | None = None,
    by: Person,
) -> Import:
    """Say in which encoding, and with which mark between columns, a text file is to be read; what was said of its columns goes."""
    _check(import_of, by)
    with entry(by=by, verb="file_reading_set", about=import_of):
        import_of.reading = {"encoding": encoding, "delimiter": delimiter}
        import_of.mapping, import_of.answers = {}, {}
        _save(import_of, version)
        Staging.objects.filter(import_of=import_of).update(
            parsed=None, outcome={}, looked_at_version=0
        )
    return import_of


def map_columns(
    *, import_of: Import, mapping: Said, version: int | None = None, by: Person
) -> Import:
    """Say what the columns of each table hold; answers to a column that changed its meaning go."""
    _check(import_of, by)
    told = {block: dict(uses) for block, uses in mapping.items()}
    with entry(by=by, verb="columns_mapped", about=import_of):
        import_of.answers = _answers_that_hold(import_of, told)
        import_of.mapping = told
        _save(import_of, version)
    return import_of


def answer(
    *,
    import_of: Import,
    choices: Said,
    instead: Said,
    version: int | None = None,
    by: Person,
) -> Import:
    """Answer questions about columns, and write single cells anew; what was answered before stays unless it is answered again."""
    _check(import_of, by)
    told = {block: dict(it) for block, it in import_of.answers.items()}
    for name, given in (("choices", choices), ("instead", instead)):
        for block, some in given.items():
            kept = told.setdefault(block, {})
            kept[name] = _written({**kept.get(name, {}), **some})
    with entry(by=by, verb="questions_answered", about=import_of):
        import_of.answers = told
        _save(import_of, version)
    return import_of


def _written(said: Mapping[str, str]) -> dict[str, str]:
    """What was really said: an emptied box takes its answer back."""
    return {key: text for key, text in said.items() if text.strip()}


def _answers_that_hold(import_of: Import, mapping: Said) -> dict[str, Any]:
    """The answers to columns that are taken for the same as before."""
    kept: dict[str, Any] = {}
    for block, answers in import_of.answers.items():
        old, new = import_of.mapping.get(block, {}), mapping.get(block, {})
        same = {letter for letter in new if old.get(letter) == new[letter]}
        kept[block] = {
            "choices": {
                key: choice
                for key, choice in answers.get("choices", {}).items()
                if key.partition("/")[0] in same
            },
            "instead": {
                cell: text
                for cell, text in answers.get("instead", {}).items()
                if cell.rstrip("0123456789") in same
            },
        }
    return kept


def _check(import_of: Import, by: Person) -> None:
    rules.check_may(by, import_of.kind)
    rules.check_waits(import_of)


def _save(import_of: Import, version: int | None) -> None:
    import_of.save_if_version(import_of.version if version is None else version)
