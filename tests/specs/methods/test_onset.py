import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.onset import Line, OnsetRefused, onset

BASE = (Decimal(2), Decimal(20))
KNEE = [
    1,
    1,
    1,
    1,
    1,
    1,
    3,
    5,
    7,
    9,
    11,
    13,
]  # level at 1, then 2 a minute from minute 5
KNEE_BASE = (Decimal(0), Decimal(4))


def curve(height, count=601, step=Decimal("0.1")):
    return [(step * it, Decimal(repr(height(float(step * it))))) for it in range(count)]


def of(signals, start=0):
    return [(Decimal(start + it), Decimal(str(y))) for it, y in enumerate(signals)]


def logistic(t, *, tm=30.0, tau=1.0, b0=0.1, b1=0.0, h=5.0):
    return b0 + b1 * t + h / (1 + math.exp(-(t - tm) / tau))


def five_point_onset(tm, tau, step):
    """The tangent through five points of a logistic rise about its middle, by hand."""
    half = [1 / (1 + math.exp(-k * step / tau)) - 0.5 for k in (1, 2)]
    slope = (2 * half[0] + 4 * half[1]) / (10 * step)
    return tm - 0.5 / slope


@pytest.mark.parametrize("slope", [0.0, 0.01, -0.01])
def test_a_logistic_rise_has_its_onset_two_time_constants_before_its_middle(slope):
    found = onset(curve(lambda t: logistic(t, b1=slope)), BASE)

    assert abs(found.minutes - 28) < Decimal("0.006")
    assert found.minutes.quantize(Decimal("0.0001")) == Decimal("27.9944")


@given(
    st.integers(280, 400),
    st.sampled_from([0.5, 0.8, 1.0]),
    st.floats(-5, 5),
    st.floats(-0.1, 0.1),
    st.floats(1, 50),
)
def test_neither_baseline_nor_height_moves_the_onset(middle, tau, b0, b1, h):
    points = curve(lambda t: logistic(t, tm=middle / 10, tau=tau, b0=b0, b1=b1, h=h))

    found = onset(points, (Decimal(2), Decimal(12)))

    assert float(found.minutes) == pytest.approx(
        five_point_onset(middle / 10, tau, 0.1), abs=2e-4
    )


def test_a_ramp_has_its_onset_where_it_leaves_the_baseline():
    points = curve(lambda t: 0.1 + 0.002 * t + max(0.0, 0.8 * (t - 25)))

    found = onset(points, BASE)

    assert found.minutes == Decimal("25.000000")
    assert found.baseline.slope == pytest.approx(0.002)
    assert found.baseline.intercept == pytest.approx(0.1)
    assert found.tangent.slope == pytest.approx(0.802)
    assert found.five[0][0] == Decimal("25.0")


def test_it_answers_with_both_lines_the_five_points_and_their_crossing():
    found = onset(of(KNEE), KNEE_BASE)

    assert found.minutes == Decimal("5.000000")
    assert found.baseline == Line(0.0, 1.0)
    assert found.tangent == Line(2.0, -9.0)
    assert found.five == tuple(of(KNEE)[5:10])
    assert found.baseline.at(5) == found.tangent.at(5) == 1.0


def test_a_threshold_would_find_another_time():
    points = curve(logistic)
    first = next(time for time, y in points if y >= Decimal("0.1") + Decimal("0.25"))

    assert first < Decimal("27.2")
    assert onset(points, BASE).minutes > Decimal("27.9")


def test_time_counts_as_the_curve_does():
    found = onset(of(KNEE, start=100), (Decimal(100), Decimal(104)))

    assert found.minutes == Decimal("105.000000")


def test_a_curve_that_points_down_is_read_so_and_drawn_as_it_is():
    found = onset(of([-y for y in KNEE]), KNEE_BASE, falls=True)

    assert found.minutes == Decimal("5.000000")
    assert (found.baseline, found.tangent) == (Line(-0.0, -1.0), Line(-2.0, 9.0))


def test_uneven_times_are_allowed():
    points = [(t, y) for t, y in of(KNEE) if t not in (1, 3)]

    assert onset(points, KNEE_BASE).minutes == Decimal("5.000000")


def test_a_later_and_steeper_rise_is_the_one_that_counts():
    signals = [1, 1, 1, 1, 1, 2, 3, 4, 5, 6, 10, 14, 18, 22, 26]

    found = onset(of(signals), KNEE_BASE)

    assert found.five[0][0] == 9
    assert found.minutes == Decimal("7.750000")


@pytest.mark.parametrize(
    ("signals", "baseline", "words"),
    [
        (KNEE[:6], (0, 4), "The curve has 6 points: an onset needs 2 for the baseline"),
        ([], (0, 4), "The curve has 0 points"),
        (KNEE, (4, 4), "from 4 to 4 min ends where it begins or before"),
        (KNEE, (4, 0), "from 4 to 0 min ends where it begins or before"),
        (
            KNEE,
            (-1, 4),
            "from -1 to 4 min lies outside the curve, which goes from 0 to 11",
        ),
        (KNEE, (0, 12), "from 0 to 12 min lies outside the curve"),
        (KNEE, ("0", "0.9"), "holds 1 of the points, a line needs 2"),
        (KNEE, ("0.1", "0.9"), "holds 0 of the points"),
        (KNEE, (0, 7), "leaves 4 points after it, a tangent needs 5"),
        (KNEE, (0, 6), "The lines cross at"),
        ([1] * 12, (0, 4), "beyond 4 min the curve stands nowhere above it"),
        ([0] * 12, (0, 4), "There is no rise after the baseline"),
        ([-y for y in KNEE], (0, 4), "There is no rise after the baseline"),
        ([1, 2] * 6, (0, 4), "which its own scatter explains"),
    ],
)
def test_what_has_no_onset_is_refused_in_words(signals, baseline, words):
    begin, end = map(Decimal, baseline)

    with pytest.raises(OnsetRefused) as refusal:
        onset(of(signals), (begin, end))

    assert words in refusal.value.sentence
    assert refusal.value.sentence.endswith(".")


def test_a_baseline_that_just_leaves_five_points_is_enough():
    assert onset(of(KNEE[:11]), (Decimal(0), Decimal(5))).five == tuple(of(KNEE)[6:11])


def test_seven_points_are_enough():
    signals = [1, 1, 3, 5, 7, 9, 11]

    assert onset(of(signals), (Decimal(0), Decimal(1))).minutes > 0.9


@pytest.mark.parametrize("again", ["3", "4"])
def test_times_that_do_not_rise_are_refused(again):
    points = of(KNEE)
    points[5] = (Decimal(again), points[5][1])

    with pytest.raises(OnsetRefused, match=f"{again} min does not come after 4 min"):
        onset(points, KNEE_BASE)


def test_a_rise_from_below_the_baseline_is_no_onset():
    signals = [1, 1, 1, 1, 1, -90, -70, -50, -30, -10, 1, 1.5, 1.6]

    with pytest.raises(OnsetRefused, match="lies below the baseline"):
        onset(of(signals), KNEE_BASE)


def test_a_rise_is_told_from_scatter():
    quiet = [1, 1.1, 1, 1.1, 1, 1.1]

    assert onset(of([*quiet, 2, 3, 4, 5, 6]), KNEE_BASE).minutes > 4
    with pytest.raises(OnsetRefused, match="scatter"):
        onset(of([*quiet, 1, 1.1, 1.2, 1.1, 1.2]), KNEE_BASE)


@pytest.mark.parametrize(
    "after",
    [[5] * 19, [30 - it for it in range(19)], [5] + [0] * 18],
    ids=["a step", "a fall after a step", "a spike"],
)
def test_a_jump_between_two_points_has_no_tangent(after):
    with pytest.raises(
        OnsetRefused, match=r"no five points in a row rise: by 1[12] min"
    ):
        onset(of([0] * 11 + after), (Decimal(0), Decimal(10)))


def test_times_that_no_arithmetic_tells_apart_are_refused():
    late = Decimal("1E13")
    points = [(late + Decimal(it) / 10000, Decimal(it)) for it in range(30)]

    with pytest.raises(OnsetRefused, match="cannot be told apart"):
        onset(points, (late, late + Decimal("0.001")))
