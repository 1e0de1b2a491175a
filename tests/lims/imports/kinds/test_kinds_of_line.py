"""Lines of every kind from a table: limits in one cell or two, marks, words, periodic, reported only, typical."""

import pytest

from lims.products import queries
from tests.factories import products

HEADS = (
    "Product", "Revision", "Characteristic", "Method", "Kind", "Limits", "Lower limit",
    "Upper limit", "In words", "Tested", "Every so many batches", "Every so many months",
    "Compared by", "Decision rule", "Uncertainty from", "u or R", "Confidence",
    "Internal from", "Internal to", "Typical value",
)  # fmt: skip
LIMIT = {
    "Compared by": "rounding",
    "Decision rule": "simple acceptance",
    "Tested": "per batch",
}
WORKED = {"Characteristic": "worked-penetration", "Method": "ASTM D217-21a"}
COPPER = {"Characteristic": "copper-strip", "Method": "ASTM D4048-22"}


@pytest.fixture
def lx2(book, technologist):
    return products.product(by=technologist)


@pytest.fixture
def of_lx2(table, lx2):
    def rows(*cells):
        given = [{"Product": "LX2", **it} for it in cells]
        texts = [[it.get(head, "") for head in HEADS] for it in given]
        return table("specifications", HEADS, *texts)

    return rows


@pytest.fixture
def line(of_lx2, lx2, technologist):
    def of(cells):
        of_lx2(cells).take_in(by=technologist)
        return queries.requirements_of(queries.draft_of(lx2)).get()

    return of


def test_two_columns_of_limits(line):
    row = line({**WORKED, **LIMIT, "Lower limit": "265", "Upper limit": "295,0"})

    assert (row.lower, row.upper, row.scope) == ("265", "295.0", "per batch")


def test_one_column_or_two_that_say_the_same(line):
    both = {"Limits": "265-295", "Lower limit": "265", "Upper limit": "295"}

    assert line({**WORKED, **LIMIT, **both}).limits == "265 to 295"


def test_two_that_say_different_things_are_refused(of_lx2):
    both = {"Limits": "265-295", "Lower limit": "265", "Upper limit": "290"}

    asked = of_lx2({**WORKED, **LIMIT, **both}).asks()

    assert (
        "One column says 265 to 295, another 265 to 290"
        in asked["F/does not fit"].sentence
    )


def test_a_mark_alone_is_the_worst_allowed(line):
    assert line({**COPPER, **LIMIT, "Limits": "1b"}).upper == "1b"


def test_words_are_kept_as_words(line):
    row = line({"Characteristic": "Appearance", **LIMIT, "Limits": "smooth, brown"})

    assert (row.must, row.edition) == ("smooth, brown", None)


def test_what_must_be_met_and_is_no_word(line):
    rust = {"Characteristic": "rust-prevention", "Method": "ASTM D1743"}

    assert line({**rust, **LIMIT, "In words": "pass"}).must == "pass"


def test_an_internal_band(line):
    row = line(
        {
            **WORKED,
            **LIMIT,
            "Limits": "265-295",
            "Internal from": "270",
            "Internal to": "290",
        }
    )

    assert (row.internal_lower, row.internal_upper) == ("270", "290")


def test_a_rule_with_its_uncertainty(line):
    row = line(
        {
            **WORKED,
            **LIMIT,
            "Limits": "265-295",
            "Decision rule": "guarded acceptance",
            "Uncertainty from": "own uncertainty",
            "u or R": "3,5",
            "Confidence": "0.95",
        }
    )

    assert (row.rule, row.uncertainty, row.confidence) == (
        "guarded acceptance",
        "3.5",
        "0.95",
    )


def test_a_rule_without_one_is_refused(of_lx2):
    guarded = {
        **WORKED,
        **LIMIT,
        "Limits": "265-295",
        "Decision rule": "guarded acceptance",
    }

    assert (
        "Say what guarded acceptance rests on"
        in of_lx2(guarded).asks()["O/does not fit"].sentence
    )


def test_a_periodic_line(line):
    often = {
        "Tested": "periodic",
        "Every so many batches": "20",
        "Every so many months": "6",
    }

    row = line({**COPPER, **LIMIT, **often, "Limits": "max 1b"})

    assert (row.scope, row.every_batches, row.every_months) == ("periodic", 20, 6)


def test_how_often_and_not_that_it_is_periodic_is_asked(of_lx2):
    it = of_lx2(
        {
            **COPPER,
            **LIMIT,
            "Tested": "",
            "Every so many batches": "20",
            "Limits": "max 1b",
        }
    )

    question = it.asks()["J/scope"]
    assert question.proposed == "periodic"
    it.choices["J/scope"] = "periodic"
    assert it.look().is_ready


def test_a_periodic_line_that_does_not_say_how_often_is_refused(of_lx2):
    it = of_lx2({**COPPER, **LIMIT, "Tested": "periodic", "Limits": "max 1b"})

    assert "Say how often" in it.asks()["K/does not fit"].sentence


def test_a_row_without_limits_is_reported_only(line):
    assert line({**WORKED, "Tested": "per fill lot"}).kind == "report only"


def test_one_with_a_typical_value_alone_is_typical(line):
    row = line({**WORKED, "Typical value": "280"})

    assert (row.kind, row.typical) == ("typical", "280")


def test_a_kind_that_does_not_fit_is_refused(of_lx2):
    it = of_lx2({**WORKED, "Kind": "typical", "Limits": "265-295"})

    assert "held against nothing" in it.asks()["F/does not fit"].sentence


def test_an_internal_band_outside_the_limits_is_refused(of_lx2):
    it = of_lx2({**WORKED, **LIMIT, "Limits": "265-295", "Internal from": "260"})

    assert "reaches outside the limits" in it.asks()["R/does not fit"].sentence


@pytest.mark.parametrize("number", ["B", "5.1"])
def test_after_a_revision_that_is_no_number_none_follows(
    number, of_lx2, lx2, technologist, person
):
    approver = person("quality_manager")
    products.in_force(lx2, by=technologist, approver=approver, number=number)
    it = of_lx2({**WORKED, **LIMIT, "Limits": "270-290"})

    assert (
        f"After revision {number} no number follows"
        in it.asks()["B/does not fit"].sentence
    )
    it.instead["B2"] = "C"
    it.take_in(by=technologist)
    assert queries.draft_of(lx2).number == "C"


def test_a_number_that_is_too_long_is_refused(of_lx2, table, book):
    long = {**WORKED, **LIMIT, "Limits": "270-290", "Revision": "2026-03-04/a"}
    assert "shorten it to 10" in of_lx2(long).asks()["B/does not fit"].sentence

    new = {**long, "Product": "LX9"}
    assert "longer than 10 characters" in of_lx2(new).asks()["B/does not fit"].sentence
