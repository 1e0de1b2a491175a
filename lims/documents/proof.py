"""The report on the proof of the arithmetic: dated, versioned, one row a case, a line to sign."""

import json
import platform
from datetime import datetime, tzinfo

from lims.documents.pages import page
from lims.methods.known_answers import Proof, arithmetic_fingerprint, libraries
from lims.wording import dates


def print_proof(proof: Proof, *, at: datetime, zone: tzinfo, site: str = "") -> bytes:
    """The PDF of a run of known answers."""
    from lims.documents.pdf import pressed  # late: it takes half a second

    html = proof_html(proof, at=at, zone=zone, site=site)
    return pressed(html, "proof.css", f"proof-{proof.cases_fingerprint}")


def proof_html(proof: Proof, *, at: datetime, zone: tzinfo, site: str = "") -> str:
    """The page that is printed."""
    return page(
        "certificate/proof.html",
        {
            "proof": proof,
            "finding": finding(proof),
            "cases": [
                (it, told(it.expected), told(it.error or it.got))
                for it in proof.results
            ],
            "site": site,
            "moment": dates.day_time(at, zone),
            "created": at.isoformat(timespec="seconds"),
            "versions": (
                ("Arithmetic, SHA-256 of its source", arithmetic_fingerprint()),
                ("Cases, SHA-256 of their files", proof.cases_fingerprint),
                ("Python", platform.python_version()),
                ("Libraries", ", ".join(libraries())),
            ),
        },
    )


def finding(proof: Proof) -> str:
    """What the run came to, in one sentence."""
    if not proof.results:
        return "No case was run, so nothing is proved."
    if proof.failed:
        return "Not proved: a case does not agree."
    if proof.unproved:
        return f"Every case agrees. Without a case: {', '.join(proof.unproved)}."
    return "Every case agrees, and every calculation has its cases."


def told(text: str) -> str:
    """The answers of a case as people read them: `verdict met; compared 40`."""
    try:
        answers = json.loads(text)
    except ValueError:
        return text  # a refusal, or why the case could not be run
    if not isinstance(answers, dict):
        return text
    return "; ".join(f"{key} {_value(value)}" for key, value in answers.items())


def _value(value: object) -> str:
    if isinstance(value, list):
        return ", ".join(map(_value, value)) or "none"
    if value is None or isinstance(value, bool):
        return {None: "none", True: "yes", False: "no"}[value]
    return str(value)
