"""What a chart shows: each value once, in the series of where it comes from."""

import datetime as dt

import pytest

from lims.bench.actions import entering
from lims.imports import actions as imports
from lims.methods.models import Characteristic
from lims.people.queries import person
from lims.products.models import Product
from lims.trends.asked import Asked, Source, Where
from lims.trends.queries import trend
from tests.factories import bringing, history, plant
from tests.lims.trends.kettles import another

WORKED = Asked("LX2", "worked-penetration")
KETTLE = Asked("LX2", "worked-penetration", Where.KETTLE)


def values(asked=WORKED):
    return {it.source: [p.value for p in it.points] for it in trend(asked).series}


def correct(text):
    """The first cone of the lot's worked penetration, which was typed as 279."""
    test = plant.the_test("worked-penetration")
    entering.record_reading(
        test=test,
        slot="cone_1",
        text=text,
        reason="misread",
        determination=test.determinations.get(),
        by=person("tech-a"),
    )


def test_a_lot_that_awaits_its_decision_is_not_released(lot):
    assert values() == {Source.NOT_RELEASED: ["280"]}


def test_a_released_lot_is_in_a_series_of_its_own(released):
    assert values() == {Source.RELEASED: ["279"], Source.NOT_RELEASED: ["280"]}


def test_a_point_says_where_it_comes_from(lot):
    (point,) = trend(WORKED).points

    assert (point.batch, point.lot, point.lot_number) == (
        "Q1-26-0417",
        "Q1-26-0417 A",
        "Q1-26-0417-A",
    )
    assert (point.kettle, point.place, point.line_id) == ("K1", "pack", None)
    assert "PEN-01" in point.instrument.split(", ")
    assert point.person == person("tech-a").name
    assert point.at == plant.sample().taken_at


def test_a_corrected_reading_shows_what_stands_now(lot):
    correct("285")

    assert values() == {Source.NOT_RELEASED: ["282"]}


def test_a_withdrawn_value_is_not_on_it(lot):
    correct("295")  # 279 281 295: too wide to be a result

    assert values() == {}


def test_what_the_kettle_gave_first_stands_on_its_own_chart(kettle):
    assert values(KETTLE) == {Source.FIRST_VALUE: ["284"]}
    assert values() == {Source.NOT_RELEASED: ["280"]}
    assert values(Asked("LX2", "worked-penetration", Where.AFTER_MILL)) == {}


def test_a_later_sample_of_the_kettle_is_not_the_first_and_is_told(kettle):
    another(kettle.batch, "288 290 289")

    found = trend(KETTLE)
    assert [it.value for it in found.points] == ["284"]
    assert any("1 value of later samples" in note for note in found.notes)


def test_the_kettle_is_held_against_its_own_target(kettle):
    """The pack aims at 265 to 295; the kettle gives 4 more (offset −4)."""
    (span,) = trend(KETTLE).spans

    assert (span.lower, span.upper) == ("269", "299")
    assert trend(KETTLE).points[0].beside == "within"


def test_history_is_a_series_of_its_own_and_leads_to_its_line(lot, manager):
    taken = history.taken_in(history.lines(["281", ">300"]), by=manager)

    found = trend(WORKED)
    (of_history,) = (it for it in found.series if it.source == Source.HISTORY)
    assert [it.value for it in of_history.points] == ["281", ">300"]
    assert [it.line_id for it in of_history.points] == [
        it.pk for it in taken.lines.order_by("pk")
    ]
    assert [it.beside for it in of_history.points] == ["within", "beyond"]
    assert of_history.points[0].at.date() == dt.date(2024, 1, 8)


def test_history_can_be_left_out(lot, manager):
    history.taken_in(history.lines(["281"]), by=manager)

    asked = Asked("LX2", "worked-penetration", history=False)
    assert values(asked) == {Source.NOT_RELEASED: ["280"]}


def test_history_that_was_withdrawn_is_not_on_it(lot, manager):
    taken = history.taken_in(history.lines(["281"]), by=manager)
    imports.withdraw(import_of=taken, reason="of another plant", by=manager)

    assert values() == {Source.NOT_RELEASED: ["280"]}


def test_history_of_the_kettle_is_not_mixed_with_the_finished_product(works, manager):
    rows = [
        *history.lines(["280"], place=""),
        *history.lines(["281"], first=dt.date(2024, 3, 1), place="pack"),
        *history.lines(["286"], first=dt.date(2024, 4, 1), place="kettle"),
        *history.lines(["287"], first=dt.date(2024, 5, 1), place="after mill"),
    ]
    history.taken_in(rows, by=manager)

    assert values() == {Source.HISTORY: ["280", "281"]}
    assert values(KETTLE) == {Source.HISTORY: ["286"]}
    after = Asked("LX2", "worked-penetration", Where.AFTER_MILL)
    assert values(after) == {Source.HISTORY: ["287"]}


def test_of_a_line_with_many_values_only_its_own_is_shown(works, manager):
    row = bringing.line(
        values=(bringing.value("281"), bringing.value("275", "unworked-penetration"))
    )
    history.taken_in([row], by=manager)

    assert values() == {Source.HISTORY: ["281"]}


def test_points_stand_in_order_of_time(lot, manager):
    rows = [
        *history.lines(["281"], first=dt.date(2025, 3, 1)),
        *history.lines(["279"], first=dt.date(2024, 3, 1)),
    ]
    history.taken_in(rows, by=manager)

    assert [it.value for it in trend(WORKED).points] == ["279", "281", "280"]


def test_a_change_is_shown_with_its_sign(lot):
    (point,) = trend(Asked("LX2", "penetration-change-100000")).points

    assert (point.value, point.said) == ("22", "+22")


def test_words_are_told_to_be_off_the_chart(works, manager):
    row = bringing.line(values=(bringing.value("pass", "copper-strip", is_words=True),))
    history.taken_in([row], by=manager)

    found = trend(Asked("LX2", "copper-strip"))
    assert [it.value for it in found.points] == ["pass"]
    assert found.series[0].summary is None
    assert any("1 value is words" in note for note in found.notes)


def test_bounds_are_told_to_be_counted_and_not_averaged(works, manager):
    history.taken_in(history.lines(["281", ">300", "283"]), by=manager)

    found = trend(WORKED)
    assert found.series[0].summary.mean is None
    assert any("1 value is known only as a bound" in note for note in found.notes)


def test_another_products_values_are_not_on_it(lot, manager):
    history.taken_in(history.lines(["310"], product="PU2"), by=manager)

    assert values() == {Source.NOT_RELEASED: ["280"]}


def test_a_product_that_is_not_here_is_refused(works):
    with pytest.raises(Product.DoesNotExist):
        trend(Asked("NONE", "worked-penetration"))


def test_a_characteristic_that_is_not_here_is_refused(works):
    with pytest.raises(Characteristic.DoesNotExist):
        trend(Asked("LX2", "none"))


def test_a_product_without_values_has_an_empty_chart(works):
    found = trend(WORKED)

    assert (found.series, found.points) == ((), ())
    assert found.spans
