"""A paper speaks its customer's language: names, packs and masses; a pack no language knows keeps its word."""

import pytest

from lims.batches.models import FillLot
from lims.certificates import actions, composing, packs
from lims.certificates.data import CertificateData
from lims.documents.finding import finding_words
from lims.documents.words import Words
from lims.methods.models import Characteristic
from lims.products.models import Customer
from lims.record.gate import entry
from tests.factories import plant


@pytest.mark.parametrize(
    ("count", "pack", "language", "words"),
    [
        (1, "drum", "en", "1 drum"),
        (4, "drum", "en", "4 drums"),
        (1, "drum", "de", "1 Fass"),
        (4, "drum", "de", "4 Fässer"),
        (3, "firkin", "de", "3 firkin"),
        (3, "firkin", "en", "3 firkins"),
        (1, "drum", "fr", "1 fût"),
        (30, "drum", "fr", "30 fûts"),
        (2, "drum", "es", "2 bidones"),
        (1, "drum", "pl", "1 beczka"),
        (4, "drum", "pl", "4 beczki"),
        (12, "drum", "pl", "12 beczek"),
        (22, "cartridge", "pl", "22 kartusze"),
        (25, "cartridge", "pl", "25 kartuszy"),
    ],
)
def test_packs_are_counted_in_words(count, pack, language, words):
    assert packs.counted(count, pack, language) == words


def test_a_mass_has_the_languages_decimal_mark():
    lot = FillLot(letter="A", pack="pail", pack_kg="17.5", pack_count=40)

    assert packs.delivered(lot, 3, "de") == "3 Eimer, 52,5 kg netto"
    assert packs.filled(lot, "en") == "A, 40 pails of 17.5 kg"
    assert packs.filled(lot, "fr") == "A, 40 seaux de 17,5 kg"
    assert packs.filled(lot, "es") == "A, 40 cubos de 17,5 kg"
    assert packs.filled(lot, "pl") == "A, 40 wiader po 17,5 kg"


@pytest.mark.parametrize(
    ("language", "names", "quantity"),
    [
        (
            "en",
            {"Worked penetration", "Dropping point", "Oil separation"},
            "4 drums, 720 kg net",
        ),
        (
            "de",
            {"Walkpenetration", "Tropfpunkt", "Ölabscheidung"},
            "4 Fässer, 720 kg netto",
        ),
        (
            "fr",
            {"Pénétration travaillée", "Point de goutte", "Séparation d’huile"},
            "4 fûts, 720 kg net",
        ),
        (
            "es",
            {"Penetración trabajada", "Punto de gota", "Separación de aceite"},
            "4 bidones, 720 kg neto",
        ),
        (
            "pl",
            {"Penetracja po ugniataniu", "Temperatura kroplenia", "Wydzielanie oleju"},
            "4 beczki, 720 kg netto",
        ),
    ],
)
def test_a_paper_names_its_characteristics_in_its_customers_language(
    desk, language, names, quantity
):
    customer = Customer.objects.get(code="TT")
    with entry(by=None, verb="customer_changed", about=customer):
        customer.language = language
        customer.save()
    allotment = actions.allot(
        fill_lot=plant.lot(), customer=customer, order="TT-7781", pack_count=4, by=desk
    )

    issued = actions.issue(allotment=allotment, wishes=composing.Wishes(), by=desk)

    data = CertificateData.from_json(issued.data)
    assert data.language == language
    assert names <= {row.characteristic for row in data.rows}
    assert data.quantity == quantity
    assert finding_words(data).title == Words.of(language).counted(
        "all_met", 7, n=Words.of(language).count(7)
    )


def test_the_wish_of_one_delivery_goes_before_the_customers_language(desk):
    allotment = actions.allot(
        fill_lot=plant.lot(),
        customer=Customer.objects.get(code="TT"),
        order="TT-7781",
        pack_count=4,
        by=desk,
    )

    issued = actions.issue(
        allotment=allotment, wishes=composing.Wishes(language="pl"), by=desk
    )

    assert CertificateData.from_json(issued.data).language == "pl"


def test_a_book_begun_before_a_language_came_has_its_names_too():
    older = Characteristic(code="flow-pressure-20", name="Flow pressure", conditions="−20 °C")  # fmt: skip
    renamed = Characteristic(code="flow-pressure-20", name="Our flow pressure")
    own = Characteristic(
        code="flow-pressure-20",
        name="Flow pressure",
        elsewhere={"fr": {"name": "Écoulement", "conditions": ""}},
    )

    assert older.named("fr") == ("Pression d’écoulement", "−20 °C")
    assert older.named("en") == ("Flow pressure", "−20 °C")
    assert renamed.named("fr") == ("Our flow pressure", "")
    assert own.named("fr") == ("Écoulement", "")
    assert Characteristic(code="of-ours", name="Ours").named("pl") == ("Ours", "")
