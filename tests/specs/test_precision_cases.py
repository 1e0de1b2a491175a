"""How known-answer cases name what the calculations of precision are given."""

import pytest

from specs.proving import prove


def one(calculation, given, **expect):
    case = {
        "id": "own",
        "calculation": calculation,
        "standing": "derived",
        "source": "by hand",
        "given": given,
        "expect": expect,
    }
    (result,) = prove({"own.json": {"cases": [case]}})
    return result


def repeat(results, **more):
    return {"school": "ISO 4259", "r": "7", "results": results, **more}


def test_what_is_set_aside_is_named_by_its_value():
    found = one(
        "repeat", repeat(["280", "300", "281"]), set_aside=["300"], value="280.5"
    )

    assert found.passed, found.got


def test_a_test_again_has_neither_value_nor_statistic():
    found = one(
        "repeat",
        repeat(["280", "300"]),
        outcome="test again",
        value=None,
        statistic=None,
        set_aside=[],
        more="1",
    )

    assert found.passed, found.got


BOUND = {"limit": "180", "side": "lower", "R": "13", "party": "recipient"}
TRIAL = {"limit": "180", "side": "lower", "R": "13", "probability": "0.95"}


@pytest.mark.parametrize(
    ("calculation", "given", "expect"),
    [
        ("single_result_bound", {**BOUND, "confidence": None}, {"bound": "172.29"}),
        ("acceptance_bound", {**TRIAL, "laboratories": None}, {"bound": "174.55"}),
        ("acceptance_bound", {**TRIAL, "laboratories": 1}, {"bound": "172.29"}),
        (
            "assigned_value",
            {"R": "13", "first": ["190", "199"], "retest": None, "referee": None},
            {"value": "194.5", "basis": "first"},
        ),
        ("grubbs", {"values": None, "n": 8, "alpha": "0.05", "sides": 1}, {"critical": "2.0317"}),
        (
            "grubbs",
            {"values": ["1", "2", "9"], "n": "3", "alpha": "0.05", "sides": "2", "tail": None},
            {"critical": "1.1543", "suspect": "9"},
        ),
    ],
)  # fmt: skip
def test_what_may_be_left_out_may_be_null(calculation, given, expect):
    found = one(calculation, given, **expect)

    assert found.passed, (found.got, found.error)


@pytest.mark.parametrize(
    ("calculation", "given", "words"),
    [
        ("single_result_bound", {**BOUND, "confidence": "0"}, "confidence of 0"),
        ("acceptance_bound", {**TRIAL, "laboratories": "0"}, "0 cannot be"),
        ("critical_range_factor", {"n": "2.5"}, "“n” is 2.5: a whole number"),
        ("grubbs", {"n": "5", "alpha": "0.05", "sides": "1.5"}, "“sides” is 1.5"),
        ("cochran", {"p": "4.5", "n": "2", "alpha": "0.05"}, "“p” is 4.5"),
        ("repeat", repeat(["280", ">300"]), "holds a bound"),
        ("repeat", repeat(["280"], school=None), "no repeat rule"),
        ("single_result_bound", {**BOUND, "side": None}, "no side"),
        ("single_result_bound", {**BOUND, "party": None}, "no party"),
        ("acceptance_bound", {**TRIAL, "side": None}, "no side"),
        ("interlaboratory", {"laboratories": []}, "0 laboratory"),
    ],
)
def test_what_cannot_be_computed_is_refused_by_name(calculation, given, words):
    assert one(calculation, given, refused=words).passed
    assert not one(calculation, given, refused="other words").passed


@pytest.mark.parametrize(
    ("calculation", "given", "words"),
    [
        ("grubbs", {"alpha": "0.05", "sides": "1"}, "Give the “values”, or “n”"),
        (
            "grubbs",
            {"values": ["1", "2", "3"], "n": "4", "alpha": "0.05", "sides": "1"},
            "“n” is 4, but there are 3 values",
        ),
        ("interlaboratory", {"laboratories": ["1", "2"]}, "write a list"),
        ("repeat", repeat("280"), "write a list"),
    ],
)
def test_a_case_of_another_form_fails_and_is_named(calculation, given, words):
    found = one(calculation, given, refused="anything")

    assert not found.passed
    assert words in found.error
