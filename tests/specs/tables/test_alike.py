"""One value, however many noughts stand at its end."""

import pytest

from specs.tables.alike import alike
from specs.tables.saying import RowRole
from tests.specs.tables.one_column import look, table


@pytest.mark.parametrize(
    ("one", "other"),
    [("2.0", "2"), ("1.50", "1.5"), (">300.0", ">300"), ("-0.50", "-0.5"), ("0.0", "0"), ("<2.00", "<2")],
)  # fmt: skip
def test_noughts_behind_the_decimals_make_no_other_value(one, other):
    assert alike(one) == alike(other) == other


@pytest.mark.parametrize(
    "text", ["280", "100", "1b", "pass", "v2.0", "", ">300", "2.05"]
)
def test_everything_else_stands_as_it_is(text):
    assert alike(text) == text


def test_a_bound_is_no_number():
    assert alike(">2.0") != alike("2")


def test_rows_that_write_one_value_in_two_ways_repeat_each_other():
    found = look(table(["281", "281.0"], batches=["Q1-25-0377"] * 2))

    assert found.role(3) is RowRole.DUPLICATE


def test_batch_numbers_are_texts_and_keep_their_noughts():
    found = look(table(["281", "281"], batches=["Q1-25-7.0", "Q1-25-7"]))

    assert [it.batch for it in found.lines] == ["Q1-25-7.0", "Q1-25-7"]
