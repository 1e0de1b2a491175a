"""What there is to chart: counts that agree with the charts themselves."""

import datetime as dt

from lims.imports import actions as imports
from lims.people.queries import person
from lims.trends.asked import Asked, Where
from lims.trends.queries import (
    characteristics_of,
    choices,
    products_with_results,
    small,
    trend,
)
from tests.factories import bringing, history


def told(by):
    rows = [
        *history.lines(["281", "283"], instrument="PEN-09", person="R. Ashdown"),
        bringing.line(
            batch="H26-9",
            place="kettle",
            values=(
                bringing.value("286"),
                bringing.value("280", "unworked-penetration"),
            ),
            kettle="K7",
        ),
    ]
    return history.taken_in(rows, by=by)


def test_nothing_can_be_charted_yet(works):
    assert products_with_results() == ()
    assert characteristics_of("LX2") == ()
    assert choices("LX2").kettles == ()
    assert choices("LX2").since is None


def test_products_are_told_with_what_can_be_charted(kettle, manager):
    told(manager)

    (found,) = products_with_results()
    assert (found.product.code, found.own, found.history) == ("LX2", 9, 4)
    assert found.total == 13
    assert found.latest == dt.date(2026, 3, 5)


def test_the_latest_day_may_be_one_of_history(works, manager):
    told(manager)

    assert products_with_results()[0].latest == dt.date(2025, 12, 3)


def test_every_count_is_that_of_the_chart(kettle, manager):
    told(manager)

    for found in characteristics_of("LX2"):
        for where in Where:
            asked = Asked("LX2", found.characteristic.code, where)
            assert found.by_where.get(where, 0) == len(trend(asked).points)
        assert found.total == sum(found.by_where.values())
    codes = [it.characteristic.code for it in characteristics_of("LX2")]
    assert codes == [it.characteristic.code for it in small("LX2")]


def test_withdrawn_history_counts_nowhere(works, manager):
    imports.withdraw(import_of=told(manager), reason="of another plant", by=manager)

    assert products_with_results() == ()
    assert characteristics_of("LX2") == ()
    assert choices("LX2").persons == ()


def test_the_choices_are_what_the_values_bear(kettle, manager):
    told(manager)
    found = choices("LX2")

    assert found.kettles == ("K1", "K2", "K7")
    assert found.lots == ("Q1-26-0417-A",)
    assert {"PEN-01", "PEN-09"} <= set(found.instruments)
    assert {"R. Ashdown", person("tech-a").name} <= set(found.persons)
    assert (found.since, found.until) == (dt.date(2024, 1, 8), dt.date(2026, 3, 5))


def test_choices_of_another_product_are_not_offered(lot, manager):
    told(manager)

    assert choices("PU2") == choices("NONE")
    assert choices("PU2").kettles == ()
