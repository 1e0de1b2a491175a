import pytest

from specs.judging.conformity import judge
from specs.judging.rules import RULES, SIMPLE_ACCEPTANCE, RuleRefused, rule
from specs.judging.verdicts import Verdict
from specs.numbers import read


def test_simple_acceptance_compares_with_the_limits_themselves():
    found = rule(SIMPLE_ACCEPTANCE)(read("280"), "265", "295", "rounding")

    assert found == judge(read("280"), "265", "295", "rounding")
    assert found.verdict is Verdict.MET


def test_an_unknown_rule_is_refused_with_the_known_ones():
    with pytest.raises(RuleRefused, match="simple acceptance"):
        rule("guarded")


def test_every_rule_refuses_a_line_without_a_procedure():
    for decide in RULES.values():
        with pytest.raises(ValueError, match="a line must name one"):
            decide(read("280"), "265", "295", None)
