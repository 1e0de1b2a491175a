"""A chart as it is drawn: every value in its place and shape, the limits as steps, the same in words."""

import datetime as dt
from itertools import pairwise

import pytest

from lims.drawing.trend import about, one_axis, title, trend_chart
from lims.trends.asked import Along, Source, Where
from tests.factories.charts import CHANGE, COPPER, point, span, trend
from tests.lims.drawing.looking import every, one, root, text

pytestmark = pytest.mark.django_db  # the zone of the site


def places(svg, kind):
    """Where the discs and rings of a kind stand, without the one in the key."""
    *found, _ = every(svg, "circle", kind)
    return [(float(it.get("cx")), float(it.get("cy"))) for it in found]


def words(svg):
    return [it.text for it in root(svg).iter("text")]


def test_every_value_is_a_point_in_order_from_left_to_right():
    svg = trend_chart(trend(*(point(str(270 + it), it * 5) for it in range(6))))

    found = places(svg, "released")
    assert len(found) == 6
    assert found == sorted(found)
    ups = [y for _, y in found]
    assert ups == sorted(ups, reverse=True)  # the greater stands higher


def test_each_source_has_its_own_shape():
    svg = trend_chart(
        trend(
            point("280", 0, Source.RELEASED),
            point("281", 1, Source.NOT_RELEASED),
            point("282", 2, Source.FIRST_VALUE),
            point("283", 3, Source.HISTORY),
        )
    )

    assert len(every(svg, "circle", "released")) == 2  # one of them in the key
    assert len(every(svg, "path", "not-released")) == 2
    assert len(every(svg, "rect", "first-value")) == 2
    assert len(every(svg, "circle", "history")) == 2


def test_the_key_says_what_the_shapes_are_and_how_many():
    svg = trend_chart(trend(point("280"), point("281", 1, Source.HISTORY)))

    assert {"released, 1", "unverified history, 1"} <= set(words(svg))


def test_each_point_leads_to_where_it_comes_from():
    charted = trend(point("280", batch="A&B"), point("281", 1, batch="C"))
    svg = trend_chart(charted, address=lambda it: f"/lots/?of={it.batch}&x=1")

    links = [
        it.get("href")
        for it in root(svg).iter()
        if it.tag.endswith("}a") or it.tag == "a"
    ]
    assert links == ["/lots/?of=A&B&x=1", "/lots/?of=C&x=1"]


def test_each_point_says_what_it_is():
    svg = trend_chart(trend(point("280", lot="Q1-26-0417 A")), address=lambda it: "/")

    (link,) = (it for it in root(svg).iter("a"))
    assert link.findtext("title") == (
        "Q1-26-0417 A, 5 January 2026: 280\u00a0×\u00a00.1\u00a0mm, released"
    )


def test_a_change_keeps_its_sign_at_its_point():
    found = trend(point("22", of=CHANGE), point("-3", 1, of=CHANGE), of=CHANGE)
    svg = trend_chart(found, address=lambda it: "/")

    rise, fall = (it.findtext("title") for it in root(svg).iter("a"))
    assert ": +22\u00a0" in rise
    assert ": −3\u00a0" in fall


def test_names_of_any_kind_stay_words():
    svg = trend_chart(
        trend(point("280", batch='<script>"&')), address=lambda it: '/"><script>'
    )

    assert "<script>" not in svg
    assert root(svg) is not None


def test_a_bound_has_an_arrow_to_the_side_of_the_true_value():
    svg = trend_chart(trend(point(">300"), point("<250", 1), point("280", 2)))

    up, down = (it.get("d") for it in every(svg, "path", "lies"))
    assert "v-13" in up
    assert "v13" in down


def test_the_limits_are_dashed_steps_of_their_revisions():
    first = span(until=dt.date(2026, 1, 20))
    second = span("270", "290", since=dt.date(2026, 1, 20), revision="6")
    svg = trend_chart(trend(point("280"), point("281", 30), spans=[first, second]))

    lines = every(svg, "path", "limit")
    assert len(lines) == 4
    assert all(it.get("stroke-dasharray") for it in lines)
    starts, ends = zip(*(_ends(it) for it in lines), strict=True)
    assert ends[0] == starts[2]  # the first ends where the second begins
    assert any(
        "265 to 295 (revision 5, since 1 January 2026)" in it for it in words(svg)
    )
    assert [it.text for it in every(svg, "text", "strong")] == ["270", "290"]


def _ends(path):
    start, rest = path.get("d")[1:].split(" ")
    return float(start), float(rest.split("H")[1])


def test_before_they_held_the_first_limits_are_dotted():
    svg = trend_chart(
        trend(point("280"), point("281", 30), spans=[span(since=dt.date(2026, 1, 20))])
    )

    assert len(every(svg, "path", "early")) == 2
    assert len(every(svg, "rect", "zone")) == 1


def test_limits_that_begin_after_everything_are_only_dotted():
    svg = trend_chart(
        trend(point("280"), point("281", 3), spans=[span(since=dt.date(2026, 6, 1))])
    )

    assert len(every(svg, "path", "limit")) == len(every(svg, "path", "early")) == 2
    assert every(svg, "rect", "zone") == []


def test_without_limits_there_is_no_zone():
    svg = trend_chart(trend(point("280"), spans=[]))

    assert every(svg, "path", "limit") == every(svg, "rect", "zone") == []


def test_limits_stand_on_the_paper_even_where_the_values_are_far():
    svg = trend_chart(trend(point("310"), spans=[span()]))

    assert [it.text for it in every(svg, "text", "strong")] == ["265", "295"]
    assert len(every(svg, "path", "limit")) == 2


def test_marks_stand_one_step_apart_and_the_limit_behind_the_last_allowed():
    svg = trend_chart(
        trend(
            point("1a", of=COPPER),
            point("1b", 1, of=COPPER),
            point("2a", 2, of=COPPER),
            of=COPPER,
            spans=[span("", "1b")],
        )
    )

    (_, a), (_, b), (_, c) = places(svg, "released")
    limit = float(one(svg, "path", "limit").get("d").split(" ")[1].split("H")[0])
    assert a - b == pytest.approx(b - c, abs=0.3)
    assert abs(limit - (b + c) / 2) < 0.1
    assert {"1a", "1b", "2a", "2b"} <= set(words(svg))


def test_what_has_no_place_is_not_drawn():
    found = trend(point("1a", of=COPPER), point("pass", 1, of=COPPER), of=COPPER)

    assert len(places(trend_chart(found), "released")) == 1
    assert trend_chart(trend(point("pass", of=COPPER), of=COPPER)) == ""


def test_an_empty_chart_is_not_drawn():
    assert trend_chart(trend()) == ""


def test_changes_have_signs_at_the_axis():
    svg = trend_chart(
        trend(point("22", of=CHANGE), point("-3", 1, of=CHANGE), of=CHANGE, spans=[])
    )

    assert {"+20", "0"} <= set(words(svg))


def test_one_value_alone_has_a_place():
    ((x, y),) = places(trend_chart(trend(point("280"), spans=[])), "released")

    assert 64 < x < 908
    assert 48 < y < 330


def test_batches_stand_equally_far_apart():
    found = [point("280"), point("281", 1), point("282", 100), point("283", 101)]
    svg = trend_chart(trend(*found, along=Along.BATCHES))

    xs = [x for x, _ in places(svg, "released")]
    steps = {round(b - a) for a, b in pairwise(xs)}
    assert len(steps) == 1
    assert "Q1-26-0400" in words(svg)


def test_two_values_of_a_batch_stand_one_above_the_other():
    found = [point("280", batch="X"), point("285", 2, batch="X"), point("281", 3)]
    svg = trend_chart(trend(*found, along=Along.BATCHES))

    xs = [x for x, _ in places(svg, "released")]
    assert xs[0] == xs[1] != xs[2]


def test_along_batches_limits_change_between_two_batches():
    first = span(until=dt.date(2026, 1, 8))
    second = span("270", "290", since=dt.date(2026, 1, 8), revision="6")
    svg = trend_chart(
        trend(
            *(point("280", it) for it in (0, 2, 4, 6)),
            along=Along.BATCHES,
            spans=[first, second],
        )
    )

    xs = [x for x, _ in places(svg, "released")]
    border = _ends(every(svg, "path", "limit")[0])[1]
    assert xs[1] < border < xs[2]


def test_two_charts_with_one_axis_place_equal_values_equally_high():
    one_, other = (
        trend(point("270"), point("280", 1)),
        trend(point("280"), point("300", 1)),
    )
    axis = one_axis(one_, other)
    heights = [
        [y for _, y in places(trend_chart(it, axis=axis, width=468), "released")]
        for it in (one_, other)
    ]

    assert heights[0][1] == heights[1][0]


def test_two_charts_beside_each_other_place_equal_days_equally_far():
    early = trend(point("280", 0), point("281", 10))
    late = trend(point("282", 10), point("283", 400))

    first = trend_chart(early, beside=(early, late))
    second = trend_chart(late, beside=(early, late))

    own, (middle, _) = places(first, "released"), places(second, "released")
    assert own[1][0] == middle[0]
    assert own[0][0] < middle[0]


def test_a_narrow_chart_keeps_its_words_apart():
    svg = trend_chart(trend(*(point("280", it) for it in range(0, 900, 30))), width=468)
    marks = [
        (float(it.get("x")), len(it.text))
        for it in root(svg).iter("text")
        if it.get("y") == "352"
    ]

    assert len(marks) > 1
    for (x, length), (later, its_length) in pairwise(marks):
        assert later - x > 3 * (length + its_length)


def test_it_is_told_in_words():
    found = trend(point("280", beside="within"), point("299", 9, beside="beyond"))

    assert (
        title(found) == "Worked penetration, 60 double strokes of LX2, finished product"
    )
    assert about(found) == (
        "2 values, 5 January 2026 to 14 January 2026. Limits today: 265 to 295\u00a0×\u00a0"
        "0.1\u00a0mm. Beyond the limits: 1. The table beneath has every value."
    )
    svg = trend_chart(found)
    assert (text(svg, "title"), text(svg, "desc")) == (title(found), about(found))


def test_the_title_says_where_it_was_taken():
    assert title(trend(point("284"), where=Where.KETTLE)).endswith("kettle samples")


def test_it_has_no_style_of_its_own():
    svg = trend_chart(trend(point("280")))

    assert "style=" not in svg
    assert "#" not in svg
