"""What is signed when a revision is approved: every line of it, as canonical text."""

import datetime as dt
from typing import Any

from lims.products.models import Requirement, Revision
from lims.products.queries import requirements_of
from specs import chain

MEANING = "reviewed and approved"


def content_of(revision: Revision, in_force_on: dt.date) -> str:
    """The canonical JSON of a revision: whose it is, its number and day, and its lines."""
    specification = revision.specification
    customer = specification.customer
    told: dict[str, Any] = {
        "product": specification.product.code,
        "customer": customer.code if customer else None,
        "revision": revision.number,
        "part_number": revision.part_number,
        "note": revision.note,
        "in_force_on": in_force_on.isoformat(),
        "requirements": [_line(row) for row in requirements_of(revision)],
    }
    return chain.canonical(told).decode()


def _line(row: Requirement) -> dict[str, Any]:
    return {
        "line": row.line,
        "characteristic": row.characteristic.code,
        "edition": str(row.edition) if row.edition else None,
        "kind": row.kind,
        "lower": row.lower,
        "upper": row.upper,
        "must": row.must,
        "comparing": row.comparing,
        "rule": row.rule,
        "basis": row.basis,
        "uncertainty": row.uncertainty,
        "confidence": row.confidence,
        "scope": row.scope,
        "every_batches": row.every_batches,
        "every_months": row.every_months,
        "internal_lower": row.internal_lower,
        "internal_upper": row.internal_upper,
        "typical": row.typical,
        "origin": row.origin,
        "origin_standing": row.origin_standing,
        "origin_checked_by": row.origin_checked_by,
    }
