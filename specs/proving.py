"""Known-answer cases run through the functions that the screens use.

A case passes only when every key that it expects was computed and agrees. What is not
understood (a calculation, a key, a number that is no text) fails and is named.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from specs.calculations import CALCULATIONS, Calculation
from specs.comparing import CaseRefused, Margin, agrees, plain
from specs.judging.constants import EXACT, SETS
from specs.numbers import Refused

__all__ = ["CALCULATIONS", "Calculation", "Result", "prove", "summary", "unproved"]

STANDINGS = ("published", "from memory", "derived", "common practice")
CASE_KEYS = {"id", "calculation", "standing", "source", "given", "expect"}
OPTIONAL_KEYS = {"tolerance", "relative"}


@dataclass(frozen=True)
class Result:
    """One case and what came of it; `error` says why a case could not be run."""

    file: str
    case: str
    calculation: str
    expected: str
    got: str
    standing: str
    source: str
    passed: bool
    error: str = ""


def prove(files: Mapping[str, object]) -> list[Result]:
    """The results of all cases of parsed files, by file name, in their order."""
    cases = [(file, case) for file, parsed in files.items() for case in _cases(parsed)]
    counted = Counter((file, str(_of(case, "id"))) for file, case in cases)
    return [
        _result(file, case, is_twin=counted[file, str(_of(case, "id"))] > 1)
        for file, case in cases
    ]


def unproved(files: Mapping[str, object]) -> list[str]:
    """The calculations for which no file has a case."""
    named = {_of(case, "calculation") for it in files.values() for case in _cases(it)}
    return [name for name in CALCULATIONS if name not in named]


def summary(results: Sequence[Result]) -> str:
    """The last line of a report: "12 passed, 0 failed"."""
    passed = sum(result.passed for result in results)
    return f"{passed} passed, {len(results) - passed} failed"


def _cases(parsed: object) -> Iterator[object]:
    """The cases of a file; a file of another form is one case that fails."""
    cases = parsed.get("cases") if isinstance(parsed, dict) else None
    if isinstance(cases, list) and cases:
        yield from cases
    else:
        yield None


def _of(case: object, key: str) -> object:
    return case.get(key, "") if isinstance(case, dict) else ""


def _result(file: str, case: object, *, is_twin: bool) -> Result:
    """Run one case; whatever goes wrong is its error and fails it."""
    got, error, passed = "", "", False
    try:
        checked = _checked(case, is_twin=is_twin)
        passed, got = _outcome(checked)
    except CaseRefused as refusal:
        error = refusal.sentence
    except (ArithmeticError, LookupError, TypeError, ValueError) as fault:
        error = f"The calculation broke off: {fault!r}."
    return Result(
        file=file,
        case=str(_of(case, "id")),
        calculation=str(_of(case, "calculation")),
        expected=plain(_of(case, "expect")),
        got=got,
        standing=str(_of(case, "standing")),
        source=str(_of(case, "source")),
        passed=passed,
        error=error,
    )


def _checked(case: object, *, is_twin: bool) -> dict[str, Any]:
    """The case, once its form is right. Raises CaseRefused naming what is not."""
    if not isinstance(case, dict):
        raise CaseRefused("The file holds no list of cases.")
    _check_keys("the case", case, CASE_KEYS, OPTIONAL_KEYS)
    if is_twin:
        raise CaseRefused(f"The id “{case['id']}” stands twice in the file.")
    for key in ("id", "source"):
        if not str(case[key]).strip():
            raise CaseRefused(f"The {key} of the case is empty: a reader looks for it.")
    if case["standing"] not in STANDINGS:
        raise CaseRefused(f"The standing “{case['standing']}” is unknown.")
    if case["calculation"] not in CALCULATIONS:
        raise CaseRefused(f"The calculation “{case['calculation']}” is unknown.")
    if not isinstance(case["given"], dict) or not isinstance(case["expect"], dict):
        raise CaseRefused("Given and expect are objects with keys.")
    _check_content(CALCULATIONS[case["calculation"]], case["given"], case["expect"])
    return case


def _check_content(
    calculation: Calculation, given: dict[str, Any], expect: dict[str, Any]
) -> None:
    optional = {*calculation.optional, "constants"}
    _check_keys("given", given, set(calculation.required), optional)
    if given.get("constants", EXACT) not in SETS:
        raise CaseRefused(f"The constants “{given['constants']}” are unknown.")
    if not expect:
        raise CaseRefused("The case expects nothing, so it checks nothing.")
    if "refused" in expect:
        _check_keys("expect", expect, {"refused"}, set())
        return
    _check_keys("expect", expect, set(), set(calculation.gives))


def _check_keys(
    where: str, found: Mapping[str, Any], required: set[str], optional: set[str]
) -> None:
    for key in sorted(required - set(found)):
        raise CaseRefused(f"The key “{key}” is missing in {where}.")
    for key in sorted(set(found) - required - optional):
        raise CaseRefused(f"The key “{key}” in {where} is unknown.")


def _outcome(case: dict[str, Any]) -> tuple[bool, str]:
    """Whether the case passes, and what was got, as text."""
    calculation, expect = CALCULATIONS[case["calculation"]], case["expect"]
    try:
        got = calculation.function(case["given"])
    except CaseRefused:
        raise
    except Refused as refusal:
        words = expect.get("refused")
        passed = bool(words) and str(words).casefold() in refusal.sentence.casefold()
        return passed, f"refused: {refusal.sentence}"
    if "refused" in expect:
        return False, plain(got)
    shown = {key: got.get(key) for key in expect}
    margin = Margin.of(case)
    passed = all(
        agrees(calculation.gives[key], expect[key], got.get(key), margin)
        for key in expect
    )
    return passed, plain(shown)
