from decimal import Decimal

import pytest

from specs.judging.grades import NLGI, Grade, GradeRefused, aimed_at, nlgi


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


@pytest.mark.parametrize(("number", "lowest", "highest"), NLGI)
def test_the_range_of_a_number_aims_at_it_and_a_wider_one_does_not(
    number, lowest, highest
):
    low, high = Decimal(lowest), Decimal(highest)

    assert aimed_at(low, high).grade == number
    assert aimed_at(low + 5, high - 5).grade == number
    assert aimed_at(low - 1, high).grade is None
    assert aimed_at(low, high + 1).grade is None


@pytest.mark.parametrize(
    ("lower", "upper", "says"),
    [
        ("270", "290", "270 to 290 lies in NLGI 2, 265 to 295"),
        ("220", "340", "220 to 340 is the range of no NLGI number: it reaches into NLGI 1, 2, 3"),
        ("200", "260", "200 to 260 is the range of no NLGI number: it reaches into NLGI 3, 4"),
        ("296", "309", "296 to 309 is the range of no NLGI number: it meets none"),
        ("295", "310", "295 to 310 is the range of no NLGI number: it reaches into NLGI 1, 2"),
    ],
)  # fmt: skip
def test_limits_aim_at_one_number_or_say_why_not(lower, upper, says):
    assert aimed_at(Decimal(lower), Decimal(upper)).says == says


def test_one_value_is_a_range_too():
    assert aimed_at(Decimal(280), Decimal(280)).grade == "2"


def test_a_range_misprinted_backwards_aims_at_nothing():
    """A table in the wild prints 185-115 for number 6."""
    aim = aimed_at(Decimal(185), Decimal(115))

    assert aim.grade is None
    assert "its lower end comes first" in aim.says


def test_a_range_misprinted_too_wide_is_not_number_4():
    """A table in the wild prints 175-250 for number 4."""
    aim = aimed_at(Decimal(175), Decimal(250))

    assert aim.grade is None
    assert "reaches into NLGI 3, 4" in aim.says
