"""The designation panel: which NLGI number, or between which two, and which letters the requirements support."""

import pytest
from django.urls import reverse

from lims.people.queries import person
from lims.products import actions, queries
from lims.screens.specifications.designation import number_of, panel_of
from tests.factories import plant, products
from tests.lims.screens.specifications.conftest import address, text_of


@pytest.mark.parametrize(
    ("reported", "sentence"),
    [
        ("280", "Worked penetration 280 is NLGI 2."),
        ("265", "Worked penetration 265 is NLGI 2."),
        ("296", "296 lies between NLGI 1 and NLGI 2 and belongs to neither."),
        ("264", "264 lies between NLGI 2 and NLGI 3 and belongs to neither."),
        ("476", "476 lies outside the nine NLGI numbers."),
        (">475", "gives no NLGI number: it is no whole number."),
        ("280.5", "gives no NLGI number: it is no whole number."),
    ],
)
def test_a_worked_penetration_gives_a_number_or_falls_between_two(reported, sentence):
    assert sentence in number_of(reported)


def test_a_product_says_what_its_limits_are_and_what_nothing_states(as_):
    page = text_of(as_("tech-a").get(address("product", "LX2")))

    assert "265 to 295 lies in NLGI 2, 265 to 295." in page
    assert "The product is called KP2K-30 (DIN 51502)" in page
    assert "upper temperature 120 °C" in page
    assert "no requirement states it: it takes a flow pressure" in page


def test_limits_over_several_numbers_are_said_to_be_of_none(opened):
    product = queries.product("LX2")
    lines = [products.worked_line("220", "340")]
    draft = products.draft(
        products.product(by=person("chem-1"), code="LX9"),
        by=person("chem-1"),
        lines=lines,
    )

    panel = panel_of(product, queries.requirements_of(draft))

    assert panel.numbers == (
        "220 to 340 is the range of no NLGI number: it reaches into NLGI 1, 2, 3.",
    )


def test_a_product_without_a_specification_or_a_symbol_claims_nothing(opened, as_):
    products.product(by=person("chem-1"), code="LX9", designation="KP2Z-30")

    page = text_of(as_("tech-a").get(address("product", "LX9")))

    assert "No limits of worked penetration are stated" in page
    assert "“Z” in “KP2Z-30” is no letter of the upper temperature" in page


def test_requirements_support_letters_as_far_as_they_go(opened, as_):
    draft = actions.open_draft(
        product=queries.product("PU2"), number="3", by=person("chem-1")
    )
    published = queries.published("DIN 51825 K-30")

    actions.copy_published_lines(
        revision=draft,
        published=published,
        comparing="rounding",
        rule="simple acceptance",
        by=person("chem-1"),
    )

    found = dict(
        panel_of(queries.product("PU2"), queries.requirements_of(draft)).places
    )
    din = {it.place: it.signs for it in found["DIN 51502"]}
    assert din["lower temperature"] == ("-30",)
    assert din["upper temperature and water"] == ("K", "M")
    assert din["NLGI number"] == ("2",)
    assert din["use"] == ()


@pytest.mark.parametrize(
    ("worked", "sentence"),
    [
        ("279 281 280", "Worked penetration 280 is NLGI 2."),
        ("301 303 302", "302 lies between NLGI 1 and NLGI 2 and belongs to neither."),
    ],
)
def test_a_lot_says_what_its_worked_penetration_gives(opened, as_, worked, sentence):
    plant.play(plant.story(tests=plant.READY | {"worked": worked}))

    page = text_of(as_("tech-a").get(reverse("batches:lot", args=["Q1-26-0417-A"])))

    assert sentence in page
    assert "What the stated requirements support of ISO 6743-9" in page


def test_a_lot_without_a_worked_penetration_has_no_number(opened, as_):
    plant.play(plant.story(tests={}))

    page = text_of(as_("tech-a").get(reverse("batches:lot", args=["Q1-26-0417-A"])))

    assert "No worked penetration is reported yet" in page
