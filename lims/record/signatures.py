"""Signing: a fresh credential, and a name, function, time and meaning bound to one exact content."""

import hashlib
import json
import logging
from typing import Any, Protocol

from lims.record import opening
from lims.record.models import Signature
from lims.record.refusals import BadInput, GateError
from specs import chain

log = logging.getLogger(__name__)


class Signatory(opening.Actor, Protocol):
    """A person who can sign: the credential, and what stands beside the name."""

    is_active: Any

    @property
    def function(self) -> str: ...

    @property
    def zone(self) -> str: ...

    def check_password(self, raw_password: str, /) -> bool: ...


def sign(
    *,
    by: Signatory,
    password: str,
    meaning: str,
    about: Any,
    version: int,
    content: str,
    function: str = "",
) -> Signature:
    """Sign `content` (canonical JSON of what the person saw) inside an entry.

    What is stored and hashed is that content with the thing, its version, the meaning and
    the signer around it. `function` is for persons of several roles; without it, all stand.
    """
    it = opening.current()
    if it is None:
        raise GateError("A signature is given inside an entry of the record.")
    _check_credential(by, password)
    kind, key, _ = about.record_key()
    signed = {
        "kind": kind,
        "key": key,
        "version": version,
        "meaning": meaning,
        "account": by.account,
        "signed": json.loads(content),
    }
    text = chain.canonical(signed).decode()
    signature = Signature(
        account=by.account,
        printed_name=by.name,
        function=function or by.function,
        at=it.at,
        zone=by.zone,
        meaning=meaning,
        about_kind=kind,
        about_key=key,
        version=version,
        content=text,
        content_hash=hash_of(text),
    )
    signature.save()
    return signature


def signed_content(signature: Signature) -> Any:
    """What the person saw and signed, as it was given to `sign`."""
    return json.loads(signature.content)["signed"]


def hangs_where_it_was_given(signature: Signature) -> bool:
    """Whether the signed content names the thing, version, meaning and signer beside it."""
    told = json.loads(signature.content)
    named = [
        told.get(name) for name in ("kind", "key", "version", "meaning", "account")
    ]
    return named == [
        signature.about_kind,
        signature.about_key,
        signature.version,
        signature.meaning,
        signature.account,
    ]


def hash_of(content: str) -> str:
    """SHA-256 of a text, as hexadecimal digits."""
    return hashlib.sha256(content.encode()).hexdigest()


def _check_credential(by: Signatory, password: str) -> None:
    if not (by.is_active and by.check_password(password)):
        log.warning("A signature by %s was refused: wrong password.", by.account)
        raise BadInput(
            "That is not your password, so nothing was signed. Type it again.",
            field="password",
        )
