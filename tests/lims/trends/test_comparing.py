"""Two groups beside each other: like with like, a source each."""

import pytest
from scipy import stats

from lims.record.refusals import BadInput
from lims.trends.asked import Asked, Source, Where
from lims.trends.queries import compare, trend
from tests.factories import history

FIRST, SECOND = ["278", "281", "279", "280"], ["284", "283", "287", "285"]


def of_kettle(kettle, **more):
    return Asked("LX2", "worked-penetration", kettle=kettle, **more)


@pytest.fixture
def told(lot, manager):
    mixed = [value for pair in zip(FIRST, SECOND, strict=True) for value in pair]
    history.taken_in(history.lines(mixed), by=manager)


def test_two_kettles_differ_as_scipy_tells(told):
    found = compare(of_kettle("K1"), of_kettle("K2"))
    theirs = stats.ttest_ind(
        [float(it) for it in SECOND], [float(it) for it in FIRST], equal_var=False
    ).confidence_interval()

    means = found.compared[Source.HISTORY].means
    assert float(means.value) == 5.25
    assert float(means.lower) == pytest.approx(theirs.low)
    assert float(means.upper) == pytest.approx(theirs.high)


def test_the_charts_of_both_are_those_asked_for(told):
    first, second = of_kettle("K1"), of_kettle("K2")
    found = compare(first, second)

    assert found.first == trend(first)
    assert found.second == trend(second)


def test_a_source_that_only_one_of_them_has_is_not_compared(told):
    assert list(compare(of_kettle("K1"), of_kettle("K2")).compared) == [Source.HISTORY]


def test_marks_are_not_subtracted(told, manager):
    rows = history.lines(["1a", "1b"], characteristic="copper-strip")
    history.taken_in(rows, by=manager, name="copper.csv")
    sides = [Asked("LX2", "copper-strip", kettle=it) for it in ("K1", "K2")]

    assert compare(*sides).compared == {}


def test_two_characteristics_are_refused(works):
    with pytest.raises(BadInput, match="no scale in common"):
        compare(of_kettle("K1"), Asked("LX2", "oil-separation"))


def test_kettle_and_pack_are_refused(works):
    with pytest.raises(BadInput, match="never mixed"):
        compare(of_kettle("K1"), of_kettle("K1", where=Where.KETTLE))


def test_two_products_can_be_compared(told, manager):
    rows = history.lines(["290", "292"], product="PU2")
    history.taken_in(rows, by=manager, name="pu2.csv")

    found = compare(of_kettle("K1"), Asked("PU2", "worked-penetration"))
    assert found.compared[Source.HISTORY].means.value == 291 - sum(map(int, FIRST)) / 4
