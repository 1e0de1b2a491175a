"""Rows that cannot become a product or a line: refused with what to write, or asked about once."""

import re

import pytest

from lims.products.models import Requirement
from tests.factories import products

HEADS = (
    "Product", "Name", "Thickener", "Sampling plan", "Characteristic", "Method",
    "Limits", "Unit", "Tested", "Compared by", "Decision rule",
)  # fmt: skip
DECIDED = ("per fill lot", "rounding", "simple acceptance")
WORKED = ("worked-penetration", "ASTM D217-21a", "265-295", "0.1 mm")
COPPER = ("copper-strip", "ASTM D4048-22", "max 1b", "")


@pytest.fixture
def lx2(book, technologist):
    return products.product(by=technologist)


def kept(table, book, *rows):
    return table("specifications", HEADS, *(("LX2", "", "", "", *it) for it in rows))


@pytest.mark.parametrize(
    ("row", "key", "sentence"),
    [
        (("LX3", "", "lithium", "SP-02", *WORKED), "B/does not fit", "write its name"),
        (("LX3", "x", "", "SP-02", *WORKED), "C/does not fit", "write its thickener"),
        (("LX3", "x", "lithium", "", *WORKED), "D/does not fit", r"its sampling plan \(SP-02\)"),
        (("LX3", "x", "butter", "SP-02", *WORKED), "C/cannot be read", "write one of lithium soap"),
        (("LX3", "x", "lithium", "SP-9", *WORKED), "D/cannot be read", "no sampling plan that is kept"),
        (("X" * 21, "x", "lithium", "SP-02", *WORKED), "A/does not fit", "21 characters long"),
    ],
)  # fmt: skip
def test_a_new_product_lacks_nothing(table, book, row, key, sentence):
    asked = table("specifications", HEADS, (*row, *DECIDED)).asks()

    assert list(asked) == [key]
    assert re.search(sentence, asked[key].sentence)


@pytest.mark.usefixtures("lx2")
@pytest.mark.parametrize(
    ("line", "key", "sentence"),
    [
        (("worked-penetration", "ASTM D217-21a", "295-265", ""), "G/cannot be read", "begins above its end"),
        (("worked-penetration", "ASTM D217-21a", "280", ""), "G/cannot be read", "on which side"),
        (("worked-penetration", "ASTM D217-21a", "<295", ""), "G/cannot be read", "write “at most 295”"),
        (("worked-penetration", "ASTM D2265-20", "265-295", ""), "F/does not fit", "does not measure"),
        (("worked-penetration", "", "265-295", ""), "F/does not fit", "Name the method's edition"),
        (("Worked penetration", "ASTM D217-21a", "265-295", ""), "E/cannot be read", "write which of them"),
        (("stickiness", "", "265-295", ""), "E/cannot be read", "no characteristic that is kept"),
        (("", "ASTM D217-21a", "265-295", ""), "E/missing", "is missing"),
        (("copper-strip", "ASTM D4048-22", "max 5x", ""), "G/does not fit", "not on the scale"),
        (("oxidation-drop", "ASTM D942-19", "max 10", "psi"), "H/does not fit", r"kPa \(68.948 kPa\)"),
        (("worked-penetration", "ASTM D217-21a", "265-295", "°C"), "H/does not fit", "Write the limits in that unit"),
    ],
)  # fmt: skip
def test_a_line_that_cannot_stand_is_refused_with_what_to_write(
    table, book, line, key, sentence
):

    asked = kept(table, book, (*line, *DECIDED)).asks()

    assert list(asked) == [key]
    assert asked[key].is_refusal
    assert re.search(sentence, asked[key].sentence)


def test_a_name_written_anew_once_goes_for_every_row_that_says_the_same(
    table, book, technologist
):
    for code in ("LX2", "LX3"):
        products.product(by=technologist, code=code)
    line = ("Worked penetration", "ASTM D217-21a", "265-295", "")
    it = table(
        "specifications",
        HEADS,
        *((code, "", "", "", *line, *DECIDED) for code in ("LX2", "LX3")),
    )

    assert it.asks()["E/cannot be read"].cells == ("E2",)
    it.instead["E2"] = "worked-penetration"

    looked = it.look()
    assert looked.is_ready
    assert looked.at("E", 3).rule == "written instead of “Worked penetration”"


def test_the_only_edition_of_the_book_is_offered(table, book, technologist):
    products.product(by=technologist)
    it = kept(table, book, ("copper-strip", "", "max 1b", "", *DECIDED))
    only = it.asks()["F/edition"]
    assert only.proposed == "the only one"
    it.choices["F/edition"] = "the only one"

    it.take_in(by=technologist)

    assert Requirement.objects.get().edition is not None


def test_the_same_line_twice_is_asked_about(table, book, technologist):
    products.product(by=technologist)
    it = kept(table, book, (*COPPER, *DECIDED), (*COPPER, *DECIDED))

    question = it.asks()["E/stands twice"]
    assert question.proposed == "rows"
    it.choices["E/stands twice"] = "rows"

    assert [row.row for row in it.look().rows] == [2]
    assert "Row 2 states this line already" in it.look().held[3]


def test_two_revisions_of_one_specification_do_not_come_together(
    table, book, technologist
):
    products.product(by=technologist)
    heads = ("Product", "Revision", *HEADS[4:])
    it = table(
        "specifications",
        heads,
        ("LX2", "6", *COPPER, *DECIDED),
        ("LX2", "7", *WORKED, *DECIDED),
    )

    assert "one draft of a specification" in it.asks()["B/another revision"].sentence


def test_a_number_that_the_specification_had_is_refused(
    table, book, technologist, person
):
    lx2 = products.product(by=technologist)
    products.in_force(lx2, by=technologist, approver=person("quality_manager"))
    it = table(
        "specifications",
        ("Product", "Rev", *HEADS[4:]),
        ("LX2", "5", *WORKED, *DECIDED),
    )

    assert "stands already" in it.asks()["B/does not fit"].sentence
