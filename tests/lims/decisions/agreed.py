"""A customer's specification with a decision rule of its own, agreed before the lots of a test are registered; and what stands behind their lines."""

from itertools import chain

from lims.bench.models import ReportedValue
from lims.decisions.grounds import grounds_of
from lims.decisions.verdicts import held_of
from lims.management.plant.goods import revise
from lims.methods import queries
from lims.methods.figures import Figure
from lims.people.queries import person
from lims.record.gate import entry
from tests.factories import plant

PENETRATION = "worked-penetration"
R = Figure(
    characteristic=PENETRATION,
    what="repeatability",
    value="7",
    source="ASTM D217, precision",
    standing="from memory",
)
GUARDED = {
    "rule": "guarded acceptance",
    "basis": "own uncertainty",
    "uncertainty": "2.16",
    "confidence": "0.95",
}
RECIPIENT = {
    "rule": "bound of ISO 4259, recipient",
    "basis": "reproducibility",
    "uncertainty": "20",
    "confidence": "0.95",
}


def agree(customer="BM", number="2", **line):
    """A revision of one line, the worked penetration of LX2, drafted and approved; without a customer the plant's own."""
    given = {
        "characteristic": "worked-penetration",
        "method": ["ASTM D217", "21a"],
        "comparing": "rounding",
        "lower": "265",
        "upper": "295",
    }
    told = {"product": "LX2", "customer": customer, "number": number}
    revise(
        told | {"lines": [given | line]},
        drafter=person("chem-1"),
        approver=person("qm-1"),
        passwords=plant.PASSWORDS,
    )


def lot_with(worked, number="0417", retain="R-12-04", until="2026-03-09 09:00"):
    """A lot of LX2 whose every requirement is met, with these three cone readings."""
    tests = plant.READY | {"worked": worked}
    plant.play(plant.story(number, retain=retain, tests=tests), until=until)
    return plant.lot(number)


def lines_of(lot):
    return list(chain.from_iterable(held.lines for held in held_of(lot)))


def ground(lot, code=PENETRATION, held=0):
    line = next(
        line
        for line in held_of(lot)[held].lines
        if line.requirement.characteristic.code == code
        and line.requirement.kind == "limit"
    )
    return grounds_of(lines_of(lot))[line.requirement.pk]


def decided_by(lot, *figures, code=PENETRATION):
    """The reported value of a test made anew, with the figures of D217-21a that decided it."""
    edition = queries.edition("ASTM D217", "21a")
    whose = {"edition": str(edition), "edition_id": edition.pk}
    row = ReportedValue.objects.filter(
        test__sample__fill_lot=lot, test__characteristic__code=code
    ).latest("pk")
    row.replaces_id, row.pk = row.pk, None
    row.figures = [{**whose, **it.told} for it in figures]
    with entry(by=person("tech-a"), verb="reading_recorded", about=row.test):
        row.save(force_insert=True)
    return row
