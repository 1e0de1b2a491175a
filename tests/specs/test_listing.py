"""The list of what is proved: every calculation, also one that no case names."""

from dataclasses import replace

from specs.calculations import CALCULATIONS
from specs.listing import listed
from specs.proving import Result

CASE = Result(
    file="one.json",
    case="first",
    calculation="round",
    expected="",
    got="",
    standing="published",
    source="a table",
    passed=True,
)


def of(name, *results):
    return next(it for it in listed(results) if it.name == name)


def test_every_calculation_stands_in_the_list_once():
    assert [it.name for it in listed([])] == list(CALCULATIONS)


def test_without_a_case_it_is_unproved():
    found = of("round")

    assert not found.is_proved
    assert found.words == "unproved"


def test_cases_are_counted_by_their_standing():
    found = of("round", CASE, replace(CASE, standing="from memory"), CASE)

    assert found.is_proved
    assert found.words == "3 cases"
    assert found.standings == (("published", 2), ("from memory", 1))


def test_one_case_is_one_case():
    assert of("round", CASE).words == "1 case"


def test_a_failed_case_leaves_the_calculation_not_proved():
    found = of("round", CASE, replace(CASE, passed=False))

    assert not found.is_proved
    assert found.words == "2 cases, 1 failed"


def test_a_case_of_an_unknown_calculation_proves_none():
    found = listed([replace(CASE, calculation="trend")])

    assert not any(it.cases for it in found)
