from decimal import Decimal

import pytest

from specs.judging.grades import NLGI, Grade, GradeRefused, nlgi


def slowly_graded(worked):
    for number, lowest, highest in NLGI:
        if worked in range(lowest, highest + 1):
            return number
    return None


def test_every_whole_penetration_has_the_number_of_the_table():
    for worked in range(600):
        assert nlgi(worked).grade == slowly_graded(worked)


def test_each_band_is_thirty_wide_and_each_gap_fourteen_whole_numbers():
    gaps = [worked for worked in range(85, 476) if nlgi(worked).between]

    assert all(highest - lowest == 30 for _, lowest, highest in NLGI)
    assert len(gaps) == 8 * 14


def test_a_gap_lies_between_two_numbers_the_softer_first():
    assert nlgi(302) == Grade(None, ("1", "2"))


@pytest.mark.parametrize("worked", [84, 476, 0, -5, 620])
def test_outside_the_table_there_is_neither_number_nor_gap(worked):
    assert nlgi(worked) == Grade(None, None)


@pytest.mark.parametrize("worked", ["295.33", "NaN", "Infinity"])
def test_only_the_reported_whole_number_is_graded(worked):
    with pytest.raises(GradeRefused, match="reported whole number"):
        nlgi(Decimal(worked))


def test_a_whole_number_may_be_written_with_decimals():
    assert nlgi(Decimal("280.0")).grade == "2"
