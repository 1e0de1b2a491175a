"""A paper speaks its customer's language: names, packs and masses; a pack no language knows keeps its word."""

import pytest

from lims.batches.models import FillLot
from lims.certificates import actions, composing, packs
from lims.certificates.data import CertificateData
from lims.products.models import Customer
from tests.factories import plant


@pytest.mark.parametrize(
    ("count", "pack", "language", "words"),
    [
        (1, "drum", "en", "1 drum"),
        (4, "drum", "en", "4 drums"),
        (1, "drum", "de", "1 Fass"),
        (4, "drum", "de", "4 Fässer"),
        (3, "firkin", "de", "3 firkin"),
    ],
)
def test_packs_are_counted_in_words(count, pack, language, words):
    assert packs.counted(count, pack, language) == words


def test_a_mass_has_the_languages_decimal_mark():
    lot = FillLot(letter="A", pack="pail", pack_kg="17.5", pack_count=40)

    assert packs.delivered(lot, 3, "de") == "3 Eimer, 52,5 kg netto"
    assert packs.filled(lot, "en") == "A, 40 pails of 17.5 kg"


def test_a_german_paper_names_its_characteristics_in_german(desk):
    allotment = actions.allot(
        fill_lot=plant.lot(),
        customer=Customer.objects.get(code="TT"),
        order="TT-7781",
        pack_count=4,
        by=desk,
    )

    issued = actions.issue(
        allotment=allotment, wishes=composing.Wishes(language="de"), by=desk
    )

    data = CertificateData.from_json(issued.data)
    names = {row.characteristic for row in data.rows}
    assert data.language == "de"
    assert {"Walkpenetration", "Tropfpunkt", "Ölabscheidung"} <= names
    assert data.quantity == "4 Fässer, 720 kg netto"
