"""The line of a log is broken where readings are missing: no slope is drawn that nobody measured."""

from lims.drawing.logs import logged, stretches


def drawn(points):
    return logged(title="P of vessel 3", about="falls", points=points, unit="kPa")


def test_a_gap_breaks_the_line():
    points = [(float(it), 758.0 - it) for it in range(20)]
    after = [(float(it), 700.0 + it) for it in range(200, 220)]

    assert drawn(points).count("<polyline") == 1
    assert drawn([*points, *after]).count("<polyline") == 2
    assert stretches([*points, *after]) == [points, after]


def test_a_reading_alone_between_gaps_is_seen():
    points = [(float(it), 758.0 - it) for it in range(20)]
    svg = drawn([*points, (300.0, 740.0), (600.0, 730.0)])

    assert svg.count("<polyline") == 3
    lone = svg.rsplit('points="', 1)[1].split('"')[0].split()
    assert len(lone) == 2


def test_times_that_differ_a_little_are_no_gap():
    points = [(it * 1.0 + (it % 3) * 0.2, 700.0) for it in range(50)]

    assert len(stretches(points)) == 1


def test_no_peak_is_lost_in_any_stretch():
    first = [(float(it), 758.0) for it in range(3000)]
    second = [(float(it), 758.0) for it in range(9000, 12000)]
    second[1234] = (second[1234][0], 900.0)
    svg = drawn([*first, *second])

    highest = min(
        float(it.split(",")[1])
        for part in svg.split('points="')[1:]
        for it in part.split('"')[0].split()
    )
    assert highest < 60
