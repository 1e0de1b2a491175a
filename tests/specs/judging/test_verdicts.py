import itertools

import pytest

from specs.judging.verdicts import Verdict, worst

ORDER = ["not met", "not evaluated", "not tested", "met"]


@pytest.mark.parametrize(("bad", "good"), [*itertools.combinations(ORDER, 2)])
def test_of_two_verdicts_the_worse_stands(bad, good):
    assert worst([Verdict(good), Verdict(bad)]) == bad
    assert worst([Verdict(bad), Verdict(good)]) == bad


def test_the_order_holds_every_verdict():
    assert sorted(ORDER) == sorted(Verdict)


def test_no_verdict_at_all_is_never_met():
    assert worst([]) is Verdict.NOT_EVALUATED
