"""What is signed when figures are approved or an own uncertainty is stated: all that was seen, as canonical text."""

from typing import Any

from lims.methods.models import FiguresRevision, OwnUncertainty
from specs import chain

APPROVED = "reviewed and approved"
STATED = "stated as the laboratory's own"


def figures_content(revision: FiguresRevision) -> str:
    """The canonical JSON of a revision of figures: whose it is, its number and each figure whole."""
    told: dict[str, Any] = {
        "edition": str(revision.edition),
        "revision": revision.number,
        "note": revision.note,
        "figures": revision.figures,
    }
    return chain.canonical(told).decode()


def uncertainty_content(row: OwnUncertainty) -> str:
    """The canonical JSON of a statement of the laboratory's own uncertainty."""
    told: dict[str, Any] = {
        "characteristic": row.characteristic.code,
        "number": row.number,
        "uncertainty": row.uncertainty,
        "site_precision": row.site_precision,
        "level_from": row.level_from,
        "level_to": row.level_to,
        "basis": row.basis,
    }
    return chain.canonical(told).decode()
