"""A customer's specification with a decision rule of its own, agreed before the lots of a test are registered."""

from lims.management.plant.goods import revise
from lims.people.queries import person
from tests.factories import plant

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
