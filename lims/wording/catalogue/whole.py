"""The whole catalogue by its shelves: what a paper says, what the check page says, and all else."""

from lims.wording.catalogue import (
    authorisation,
    bounds,
    check_answers,
    check_asking,
    finding,
    head,
    labels,
    packs,
    results,
    rules,
    statement,
    times,
)
from lims.wording.catalogue.said import Counted, Said

PAPER: dict[str, Said] = {
    **head.SENTENCES,
    **finding.SENTENCES,
    **results.SENTENCES,
    **statement.SENTENCES,
    **authorisation.SENTENCES,
}
PAPER_COUNTED: dict[str, Counted] = {
    **head.COUNTED,
    **finding.COUNTED,
    **results.COUNTED,
    **statement.COUNTED,
}
CHECK: dict[str, Said] = {**check_answers.SENTENCES, **check_asking.SENTENCES}
SHELVES: dict[str, dict[str, Said]] = {
    "paper": PAPER,
    "rules": rules.RULES,
    "procedures": rules.PROCEDURES,
    "units": rules.UNITS,
    "labels": labels.LABELS,
    "packs": packs.SENTENCES,
    "check": CHECK,
    "times": times.SENTENCES,
    "bounds": bounds.SENTENCES,
}
COUNTED_SHELVES: dict[str, dict[str, Counted]] = {
    "paper": PAPER_COUNTED,
    "packs": packs.PACKS,
    "check": check_asking.COUNTED,
    "times": times.COUNTED,
    "bounds": bounds.COUNTED,
}
