"""The limits behind the points: each revision from its day on, and each lot by the one that it was registered under."""

import datetime as dt

import pytest

from lims.people.queries import person
from lims.products import actions as products
from lims.products import queries
from lims.products.models import Requirement
from lims.record import clock
from lims.trends import telling
from lims.trends.asked import Asked, Where
from lims.trends.limits import Held, held
from lims.trends.queries import trend
from tests.factories import charts, history, plant
from tests.factories.people import PASSWORD
from tests.factories.products import worked_line

WORKED = Asked("LX2", "worked-penetration")
BEGIN, CHANGE = dt.date(2025, 12, 1), dt.date(2026, 3, 20)


def revise(*, number="6", day="2026-03-20 09:00", lower="265", upper="291"):
    """Put another revision in force; without an upper limit, one without the line."""
    clock.set_to(plant.at(day))
    by = person("chem-1")
    draft = products.open_draft(product=queries.product("LX2"), number=number, by=by)
    if upper:
        line = worked_line(lower, upper)
        products.set_requirement(revision=draft, line=line, by=by)
    else:
        row = draft.requirements.get(
            characteristic__code="worked-penetration", kind=Requirement.Kind.LIMIT
        )
        products.remove_requirement(requirement=row, by=by)
    products.approve_revision(revision=draft, password=PASSWORD, by=person("qm-1"))


def spans():
    return [(it.revision, it.since, it.until, it.upper) for it in trend(WORKED).spans]


def test_the_limits_hold_from_the_day_of_their_revision(works):
    assert spans() == [("5", BEGIN, None, "295")]


def test_a_further_revision_ends_the_one_before(works):
    revise()

    assert spans() == [("5", BEGIN, CHANGE, "295"), ("6", CHANGE, None, "291")]


def test_a_revision_without_the_line_ends_the_limits(works):
    revise(upper="")

    assert spans() == [("5", BEGIN, CHANGE, "295")]


def test_of_two_revisions_of_one_day_the_later_one_stands(works):
    revise()
    revise(number="7", day="2026-03-20 15:00", upper="292")

    assert spans() == [("5", BEGIN, CHANGE, "295"), ("7", CHANGE, None, "292")]


def test_a_draft_is_no_limit(works):
    products.open_draft(product=queries.product("LX2"), number="6", by=person("chem-1"))

    assert spans() == [("5", BEGIN, None, "295")]


def test_a_lot_stays_beside_the_limits_that_it_was_registered_under(works):
    plant.play(plant.story(tests=plant.READY | {"worked": "292 294 293"}))
    revise()

    (point,) = trend(WORKED).points
    assert (point.value, point.beside) == ("293", "within")


def test_history_lies_beside_the_limits_of_its_day(works, manager):
    revise()
    clock.set_to(plant.at("2026-05-01 09:00"))
    days = (dt.date(2026, 3, 19), dt.date(2026, 3, 20))
    rows = [line for day in days for line in history.lines(["293"], first=day)]
    history.taken_in(rows, by=manager)

    assert [it.beside for it in trend(WORKED).points] == ["within", "beyond"]


def test_history_older_than_the_first_revision_lies_beside_the_first(works, manager):
    revise()
    history.taken_in(history.lines(["293", "300"]), by=manager)

    found = trend(WORKED)
    assert [it.beside for it in found.points] == ["within", "beyond"]
    assert found.notes == (telling.BEFORE.format("2 values are", "5"),)


def test_what_has_no_limit_lies_beside_none(lot):
    found = trend(Asked("LX2", "unworked-penetration"))

    assert (found.spans, found.points[0].beside) == ((), "")


def test_after_the_limits_have_ended_there_are_none(works, manager):
    revise(upper="")
    clock.set_to(plant.at("2026-05-01 09:00"))
    history.taken_in(history.lines(["300"], first=dt.date(2026, 4, 1)), by=manager)

    assert [it.beside for it in trend(WORKED).points] == [""]


def test_ratings_lie_beside_their_worst_mark(works, manager):
    rows = history.lines(["1a", "1b", "2a", "pass"], characteristic="copper-strip")
    history.taken_in(rows, by=manager)

    found = trend(Asked("LX2", "copper-strip"))
    assert [it.beside for it in found.points] == [
        *("within", "within", "beyond", "not known"),
    ]


def test_a_bound_on_the_open_side_is_not_known(works, manager):
    history.taken_in(history.lines([">270", ">300", "<260"]), by=manager)

    assert [it.beside for it in trend(WORKED).points] == [
        *("not known", "beyond", "beyond"),
    ]


@pytest.mark.parametrize(
    ("code", "where"),
    [
        ("worked-penetration", Where.AFTER_MILL),
        ("dropping-point-block", Where.KETTLE),
        ("unworked-penetration", Where.KETTLE),
    ],
)
def test_nothing_else_in_process_has_a_limit(works, code, where):
    of = charts.Characteristic.objects.get(code=code)

    assert held(queries.product("LX2"), [of], where)[code].spans == ()


def test_without_a_kettle_offset_the_kettle_has_no_target(works):
    product = queries.product("LX2")
    product.kettle_offset = ""
    of = charts.Characteristic.objects.get(code="worked-penetration")

    assert held(product, [of], Where.KETTLE)[of.code].spans == ()


def test_a_day_before_every_revision_is_known_as_such():
    before = Held(charts.PENETRATION, (charts.span(),))

    assert before.is_before(dt.date(2025, 12, 31))
    assert not before.is_before(dt.date(2026, 1, 1))
    assert not Held(charts.PENETRATION).is_before(dt.date(2026, 1, 1))
