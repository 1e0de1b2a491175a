"""A customer's limits are never wider than the product's own."""

import pytest

from lims.products import actions, queries
from lims.record.refusals import WrongMove
from tests.factories import products
from tests.factories.people import PASSWORD


@pytest.fixture
def own(technologist, quality_manager, lx2):
    lines = [
        products.worked_line(),
        products.dropping_line("190"),
        products.copper_line("1b"),
        products.appearance_line(),
    ]
    return products.in_force(
        lx2, by=technologist, approver=quality_manager, lines=lines
    )


@pytest.fixture
def drafting(technologist, lx2, osprey):
    def draft(*lines):
        return products.draft(
            lx2, customer=osprey, number="C", lines=lines, by=technologist
        )

    return draft


def approve(revision, by):
    return actions.approve_revision(revision=revision, password=PASSWORD, by=by)


@pytest.mark.parametrize(
    "line",
    [
        lambda: products.worked_line("270", "290"),
        lambda: products.worked_line("265", "295.0"),
        lambda: products.dropping_line("200"),
        lambda: products.copper_line("1a"),
        lambda: products.appearance_line("any colour"),
        lambda: products.oxidation_line("99"),
        products.unworked_line,
    ],
    ids=["tighter", "equal", "higher", "better", "words", "new", "report"],
)
@pytest.mark.usefixtures("own")
def test_limits_as_tight_as_the_products_come_into_force(
    drafting, quality_manager, lx2, osprey, line
):
    approve(drafting(line()), quality_manager)

    assert queries.in_force(lx2, osprey).number == "C"
    assert queries.in_force(lx2).number == "5"
    assert [row.number for row in queries.customers_in_force(lx2)] == ["C"]


@pytest.mark.parametrize(
    ("line", "named"),
    [
        (lambda: products.worked_line("264", "290"), r"Worked .*264 to 290"),
        (lambda: products.worked_line("270", "296"), r"Worked .*270 to 296"),
        (lambda: products.worked_line("", "290"), r"Worked .*at most 290"),
        (lambda: products.worked_line("270", ""), r"Worked .*at least 270"),
        (lambda: products.dropping_line("189.9"), r"Dropping point.*at least 189.9"),
        (lambda: products.copper_line("2a"), r"Copper strip.*at most 2a"),
    ],
)
def test_a_wider_line_is_refused_by_name(own, drafting, line, named):
    with pytest.raises(WrongMove, match=f"Line 1, {named}.*is wider than the product"):
        drafting(line())


def test_a_customers_revision_waits_for_the_products_own(drafting, quality_manager):
    draft = drafting(products.worked_line("270", "290"))

    with pytest.raises(WrongMove, match="LX2 has no specification of its own in force"):
        approve(draft, quality_manager)


def test_a_line_drafted_before_the_products_own_is_looked_at_again(
    drafting, technologist, quality_manager, lx2
):
    draft = drafting(products.worked_line("260", "300"))
    products.in_force(lx2, by=technologist, approver=quality_manager)

    with pytest.raises(WrongMove, match=r"260 to 300.*is wider than the product's own"):
        approve(draft, quality_manager)


def test_the_product_does_not_become_tighter_than_a_customers_revision(
    own, drafting, technologist, quality_manager, lx2
):
    approve(drafting(products.worked_line("266", "294")), quality_manager)
    tighter = actions.open_draft(product=lx2, number="6", by=technologist)
    actions.set_requirement(
        revision=tighter, line=products.worked_line("270", "290"), by=technologist
    )

    with pytest.raises(WrongMove, match="Revision C of OL for LX2 would be wider"):
        approve(tighter, quality_manager)

    assert queries.in_force(lx2) == own


def test_the_product_may_become_as_tight_as_its_customers(
    own, drafting, technologist, quality_manager, lx2
):
    approve(drafting(products.worked_line("270", "290")), quality_manager)
    tighter = actions.open_draft(product=lx2, number="6", by=technologist)
    actions.set_requirement(
        revision=tighter, line=products.worked_line("270", "290"), by=technologist
    )

    approve(tighter, quality_manager)

    assert queries.in_force(lx2) == tighter


def test_a_side_that_the_product_leaves_open_is_open_to_its_customers(
    technologist, quality_manager, lx2, osprey
):
    products.in_force(
        lx2,
        by=technologist,
        approver=quality_manager,
        lines=[products.worked_line("", "295")],
    )
    line = products.worked_line("200", "290")

    products.in_force(
        lx2,
        customer=osprey,
        number="C",
        by=technologist,
        approver=quality_manager,
        lines=[line],
    )

    assert queries.in_force(lx2, osprey).requirements.get().lower == "200"
