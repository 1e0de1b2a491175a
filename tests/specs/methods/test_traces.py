from decimal import Decimal

import pytest

from specs.methods import traces
from specs.methods.traces import TraceRefused, read_trace

POINTS = ((Decimal("0.5"), Decimal("1.25")), (Decimal("1.0"), Decimal("-2")))


@pytest.mark.parametrize(
    "text",
    [
        "0.5,1.25\n1.0,-2\n",
        "0.5;1.25\n1.0;-2",
        "0,5;1,25\n1,0;-2",
        "0.5\t1.25\r\n1.0\t-2\r\n",
        "0,5\t1,25\n1,0\t-2",
        "\ufeff0.5 , 1.25\n\n1.0 , -2\n\n",
        '"0.5","1.25"\n"1.0","-2"',
        "0.5,1.25,\n1.0,-2,\n",
        "0.5,12.5e-1\n1.0,-2.0E0\n",
        "+0.5,1.25\n1.0,-2",
    ],
)
def test_two_columns_are_read_however_they_are_parted(text):
    trace = read_trace(text)

    assert trace.points == POINTS
    assert trace.headings is None


def test_a_line_of_headings_may_come_first():
    trace = read_trace("Time, min;Signal, mW\n0,5;1,25\n1,0;-2\n")

    assert trace.points == POINTS
    assert trace.headings == ("Time, min", "Signal, mW")


def test_numbers_are_kept_as_they_are_written():
    ((minutes, signal),) = read_trace("0.10,1.2500000000000000001").points

    assert (str(minutes), str(signal)) == ("0.10", "1.2500000000000000001")


@pytest.mark.parametrize("text", ["", "  \n\n", "\ufeff", "Time;Signal\n"])
def test_a_text_without_points_is_refused(text):
    with pytest.raises(TraceRefused, match="holds no points: it needs two columns"):
        read_trace(text)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("0;1\n1;x\n", "Line 2: “x” is no number"),
        ("0;1\n\n1;\n", "Line 3: “” is no number"),
        ("0;1\n1\n", "Line 2 has 1 column, not 2"),
        ("0;1;2\n", "Line 1 has 3 columns, not 2: keep time and signal alone."),
        ("0,5,1,25\n", "the columns are parted by a semicolon or a tab"),
        ("Time\n0\n1\n", "Line 1 has 1 column"),
        ("Time;Signal\nmin;mW\n0;1\n", "Line 2: “min” is no number"),
        ("0;1.234,5\n", "Line 1: “1.234,5” is no number"),
        ("0;nan\n", "Line 1: “nan” is no number"),
        ("0;1\n1;inf\n", "Line 2: “inf” is no number"),
        ("0;1e15\n", "Line 1: “1e15” is no number"),
        ("0;1e9999\n", "Line 1: “1e9999” is no number"),
        ("0;٣\n", "Line 1: “٣” is no number"),
        ("0;1\x00\n", "Line 1: “1?” is no number"),
        ("0;1\n2;1\n\n2;3\n", "Line 4: the time 2 does not come after 2"),
        ("0;1\n2;1\n1.5;3\n", "Line 3: the time 1.5 does not come after 2"),
    ],
)
def test_what_is_no_curve_is_refused_with_its_line(text, words):
    with pytest.raises(TraceRefused) as refusal:
        read_trace(text)

    assert words in refusal.value.sentence
    assert refusal.value.sentence.endswith(".")
    assert refusal.value.sentence.isprintable()


def test_a_hint_at_decimal_commas_only_helps_where_commas_part():
    with pytest.raises(TraceRefused) as refusal:
        read_trace("0;1;2\n")

    assert "decimal commas" not in refusal.value.sentence


def test_the_longest_number_is_bounded_before_the_decimal_mark():
    assert read_trace("0;999999999999999\n").points[0][1] == 999999999999999
    assert read_trace("0;0\n").points[0][1] == 0


def test_a_first_line_of_noughts_is_a_point_and_no_heading():
    assert read_trace("0,0\n1,0\n").points == ((0, 0), (1, 0))


def test_a_curve_of_too_many_points_is_refused(monkeypatch):
    monkeypatch.setattr(traces, "MOST_POINTS", 2)

    assert len(read_trace("0;1\n1;1\n").points) == 2
    with pytest.raises(TraceRefused, match="has 3 points, more than 2"):
        read_trace("0;1\n1;1\n2;1\n")
