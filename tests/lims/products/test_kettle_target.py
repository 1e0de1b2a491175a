"""The kettle target: what a kettle sample must show so that the pack will be right."""

from lims.products import queries
from lims.products.queries import KettleTarget
from tests.factories import products


def test_the_target_and_the_band_move_by_the_offset(technologist, quality_manager, lx2):
    line = products.worked_line(internal_lower="270", internal_upper="290")
    products.in_force(lx2, by=technologist, approver=quality_manager, lines=[line])

    assert queries.kettle_target(lx2) == KettleTarget(
        "284", lower="269", upper="299", internal_lower="274", internal_upper="294"
    )


def test_a_missing_side_of_the_band_stays_missing(technologist, quality_manager, lx2):
    line = products.worked_line("265", "")
    products.in_force(lx2, by=technologist, approver=quality_manager, lines=[line])

    assert queries.kettle_target(lx2) == KettleTarget("284", lower="269")


def test_a_draft_gives_no_band(technologist, lx2):
    products.draft(lx2, by=technologist)

    assert queries.kettle_target(lx2) == KettleTarget("284")


def test_without_a_worked_line_there_is_a_target_alone(
    technologist, quality_manager, lx2
):
    lines = [products.dropping_line()]
    products.in_force(lx2, by=technologist, approver=quality_manager, lines=lines)

    assert queries.kettle_target(lx2) == KettleTarget("284")


def test_a_product_without_target_or_offset_has_no_kettle_target(technologist):
    none = products.product(by=technologist, pack_target="", kettle_offset="")
    half = products.product(by=technologist, code="LC2", kettle_offset="")

    assert queries.kettle_target(none) is None
    assert queries.kettle_target(half) is None


def test_an_offset_of_nought_leaves_the_target_as_it_is(technologist):
    row = products.product(by=technologist, kettle_offset="0")

    assert queries.kettle_target(row) == KettleTarget("280")
