import copy
import json
from decimal import Decimal, InvalidOperation
from pathlib import Path

import pytest

from specs.proving import CALCULATIONS, STANDINGS, prove, summary, unproved

FOLDER = Path(__file__).parents[2] / "fixtures" / "known_answers"
SHIPPED = {
    path.name: json.loads(path.read_text(encoding="utf-8"))
    for path in sorted(FOLDER.glob("*.json"))
}
CASE = {
    "id": "worked",
    "calculation": "penetration",
    "standing": "derived",
    "source": "by hand",
    "given": {"readings": ["281", "283", "286"]},
    "expect": {"mean": "283.33", "reported": "283", "spread": "5", "accepted": True},
}


def one(**changes):
    case = {**copy.deepcopy(CASE), **changes}
    (result,) = prove({"own.json": {"subject": "own", "cases": [case]}})
    return result


@pytest.mark.parametrize(
    "result", prove(SHIPPED), ids=lambda result: f"{result.file}:{result.case}"
)
def test_every_shipped_case_is_proved(result):
    assert result.passed, f"expected {result.expected}, got {result.got} {result.error}"


def test_every_calculation_has_a_shipped_case():
    assert unproved(SHIPPED) == []


def test_a_calculation_without_a_case_is_unproved():
    named = unproved({"own.json": {"subject": "own", "cases": [CASE]}})

    assert named == [name for name in CALCULATIONS if name != "penetration"]
    assert unproved({}) == list(CALCULATIONS)


def test_shipped_cases_say_where_they_come_from():
    results = prove(SHIPPED)

    assert len({(result.file, result.case) for result in results}) == len(results) > 200
    assert {result.standing for result in results} == set(STANDINGS)
    assert all(len(result.source) > 10 for result in results)
    assert not [result.case for result in results if "..." in result.source]
    assert all(calculation.source for calculation in CALCULATIONS.values())


@pytest.mark.parametrize(
    ("result", "calculation"),
    [(result, result.calculation) for result in prove(SHIPPED)],
)
def test_every_shipped_case_checks_something_that_could_fail(result, calculation):
    file = SHIPPED[result.file]
    (case,) = [each for each in file["cases"] if each["id"] == result.case]

    for key, value in case["expect"].items():
        wrong = {**case, "expect": {**case["expect"], key: spoiled(value, case)}}
        (found,) = prove({"wrong.json": {"cases": [wrong]}})
        assert not found.passed, (calculation, key)


def spoiled(value, case):
    """An answer that is just wrong: a number by two units of its last digit, or by thrice its margin."""
    if isinstance(value, bool):
        return not value
    if value is None:
        return "12345"
    if isinstance(value, list):
        return [*value, "12345"]
    sign, digits = value[: value[0] in "<>"], value.lstrip("<>")
    try:
        number = Decimal(digits)
    except InvalidOperation:
        return f"{value} in no way"
    margin = max(
        2 * Decimal((0, (1,), min(number.as_tuple().exponent, 0))),
        3 * Decimal(case.get("tolerance", "0")),
        3 * Decimal(case.get("relative", "0")) * abs(number),
    )
    return f"{sign}{number + margin:f}"


def test_a_case_that_agrees_passes_and_shows_what_was_got():
    result = one()

    assert result.passed
    assert result.error == ""
    assert '"reported": "283"' in result.got
    assert (result.standing, result.source) == ("derived", "by hand")


@pytest.mark.parametrize(
    ("key", "wrong"),
    [
        ("mean", "283.34"),
        ("reported", "284"),
        ("spread", None),
        ("accepted", False),
        ("accepted", "true"),
    ],
)
def test_a_case_that_differs_in_one_key_fails(key, wrong):
    result = one(expect={**CASE["expect"], key: wrong})

    assert not result.passed
    assert result.error == ""


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"calculation": "guess"}, "The calculation “guess” is unknown."),
        ({"standing": "sure"}, "The standing “sure” is unknown."),
        ({"surplus": 1}, "The key “surplus” in the case is unknown."),
        ({"given": {"readings": [], "x": "1"}}, "The key “x” in given is unknown."),
        ({"given": {}}, "The key “readings” is missing in given."),
        ({"given": []}, "Given and expect are objects"),
        ({"expect": []}, "Given and expect are objects"),
        ({"expect": {}}, "checks nothing"),
        ({"expect": {"middle": "1"}}, "The key “middle” in expect is unknown."),
        (
            {"expect": {"refused": "x", "mean": "1"}},
            "The key “mean” in expect is unknown.",
        ),
        ({"given": {"readings": "281"}}, "“readings” is '281': write a list."),
        ({"given": {"readings": [281.5]}}, "“readings” is 281.5: write a number"),
        ({"given": {"readings": ["281"], "scale": 1.5}}, "“scale” is 1.5"),
        (
            {"given": {**CASE["given"], "constants": "rough"}},
            "The constants “rough” are unknown.",
        ),
        ({"tolerance": "wide"}, "“tolerance” is 'wide'"),
        ({"tolerance": "-1"}, "“tolerance” is -1: write a number from 0 on."),
        ({"relative": "<1"}, "“relative” is <1: write a number from 0 on."),
        ({"source": " "}, "The source of the case is empty"),
        ({"id": ""}, "The id of the case is empty"),
        ({"expect": {"mean": "much"}}, "“expect” is 'much'"),
    ],
)
def test_what_is_not_understood_fails_and_is_named(changes, words):
    result = one(**changes)

    assert not result.passed
    assert words in result.error


@pytest.mark.parametrize(
    "key", ["id", "calculation", "standing", "source", "given", "expect"]
)
def test_a_missing_key_of_a_case_is_named(key):
    case = {name: it for name, it in CASE.items() if name != key}

    (result,) = prove({"own.json": {"cases": [case]}})

    assert not result.passed
    assert f"“{key}” is missing" in result.error


@pytest.mark.parametrize("parsed", [None, [], {}, {"cases": []}, {"cases": {}}, "x"])
def test_a_file_without_cases_fails_once(parsed):
    (result,) = prove({"own.json": parsed})

    assert (result.file, result.passed) == ("own.json", False)
    assert "no list of cases" in result.error


def test_an_id_that_stands_twice_in_a_file_fails_both():
    results = prove(
        {"own.json": {"cases": [CASE, CASE]}, "other.json": {"cases": [CASE]}}
    )

    assert [result.passed for result in results] == [False, False, True]
    assert "stands twice" in results[0].error


def test_a_refusal_is_expected_by_its_words():
    four = {"readings": ["280", "281", "280", "282"]}

    assert one(given=four, expect={"refused": "THREE cone readings"}).passed
    assert not one(given=four, expect={"refused": "no such words"}).passed
    assert not one(given=four, expect={"refused": ""}).passed
    assert not one(given=four).passed
    assert not one(expect={"refused": "three"}).passed


def test_the_constants_make_no_difference_where_there_are_none():
    for constants in ("exact", "printed"):
        assert one(given={**CASE["given"], "constants": constants}).passed


def test_the_constants_reach_the_calculation_that_uses_them():
    for constants, factor in (("exact", "3.633"), ("printed", "3.6"), ("", "3.633")):
        given = {"n": "4", **({"constants": constants} if constants else {})}
        found = one(
            calculation="critical_range_factor", given=given, expect={"factor": factor}
        )
        assert found.passed, (constants, found.got)


def test_a_whole_json_number_is_read_as_it_is():
    assert one(given={"readings": [281, 283, 286]}).passed


def test_a_limit_may_be_a_whole_json_number():
    result = one(
        calculation="judge",
        given={"value": 280, "lower": 265, "upper": 295, "procedure": "rounding"},
        expect={"verdict": "met", "compared": 280},
    )

    assert result.passed


def test_a_calculation_that_breaks_off_fails_the_case(monkeypatch):
    def broken(_given):
        raise ZeroDivisionError("nothing to divide by")

    calculation = CALCULATIONS["penetration"]
    monkeypatch.setattr(
        "specs.proving.CALCULATIONS",
        {
            "penetration": type(calculation)(
                broken, "x", ("readings",), calculation.gives
            )
        },
    )

    result = one()

    assert not result.passed
    assert "broke off" in result.error


@pytest.mark.parametrize(
    ("calculation", "given", "words"),
    [
        (
            "dropping_point",
            {"method": "D566", "pairs": [{"observed": "1"}]},
            "observed",
        ),
        ("dropping_point", {"method": "D566", "pairs": ["1"]}, "observed"),
        ("dropping_point", {"method": "D566", "pairs": "1"}, "write a list"),
        ("pressure_drop", {"unit": "kPa", "log": [["0"]], "hours": "100"}, "“log”"),
        ("pressure_drop", {"unit": "kPa", "log": ["0"], "hours": "100"}, "“log”"),
        ("record_chain", {"records": {}}, "write a list"),
    ],
)
def test_lists_of_another_form_are_named(calculation, given, words):
    keys = dict.fromkeys(CALCULATIONS[calculation].gives)

    result = one(calculation=calculation, given=given, expect=keys)

    assert not result.passed
    assert words in result.error


def test_the_last_line_counts_what_passed_and_what_failed():
    results = [one(), one(), one(expect={"mean": "1"})]

    assert summary(results) == "2 passed, 1 failed"
    assert summary([]) == "0 passed, 0 failed"
