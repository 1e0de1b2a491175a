"""The kinds of instrument that checks are proposed for."""

from specs.control.kinds import KINDS, kind_of
from specs.methods.catalogue import PROCEDURES


def test_every_kind_says_what_is_checked_and_what_a_failed_check_touches():
    assert all(it.checks and it.interval and it.failing for it in KINDS)
    assert len({it.words for it in KINDS}) == len(KINDS)
    assert all(0 <= it.days <= 366 for it in KINDS)


def test_a_kind_is_found_by_its_words_and_a_strange_one_is_not():
    assert kind_of(" Penetrometer ").days == 91
    assert kind_of("water bath of the canteen") is None


def test_the_penetrometer_is_named_as_the_bench_asks_for_it():
    assert "cone penetration" in PROCEDURES
    assert kind_of("penetrometer")
