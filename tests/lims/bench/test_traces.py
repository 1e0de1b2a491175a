"""The file of a curve: read as text, kept byte for byte, refused in words."""

from decimal import Decimal

import pytest

from lims.bench import traces
from lims.bench.models import Condition, Trace
from lims.record.refusals import BadInput

CONTENT = b"min;mW\r\n0;0,5\r\n0,1;0,6\r\n"


def row(content=CONTENT, **more):
    return Trace(block=traces.packed(content), sha256=traces.print_of(content), **more)


def test_the_points_of_a_file():
    assert traces.read(CONTENT) == (
        (Decimal(0), Decimal("0.5")),
        (Decimal("0.1"), Decimal("0.6")),
    )


def test_the_points_of_a_kept_curve_are_those_of_its_file():
    assert traces.points_of(row()) == traces.read(CONTENT)
    assert traces.points_of(None) == ()


def test_a_kept_file_comes_back_byte_for_byte():
    assert traces.unpacked(row()) == CONTENT


def test_a_curve_is_packed_smaller_than_it_came():
    long = b"".join(b"%d,0.5\n" % it for it in range(5000))

    assert len(traces.packed(long)) < len(long) / 3


def test_the_print_is_that_of_the_file_as_received():
    """The SHA-256 of no bytes at all is widely published (FIPS 180-4)."""
    assert traces.print_of(b"").startswith("e3b0c44298fc1c149afbf4c8996fb924")
    assert traces.print_of(CONTENT) != traces.print_of(CONTENT.replace(b"\r", b""))


@pytest.mark.parametrize("content", [b"\xef\xbb\xbf0,1\n1,2\n", b"0,1\n1,2\n"])
def test_a_mark_before_the_text_is_no_part_of_it(content):
    assert traces.read(content)[0] == (0, 1)


def test_an_older_encoding_is_read_too():
    assert traces.text_of("Zeit;Wärmestrom µW".encode("cp1252")) == "Zeit;Wärmestrom µW"


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "The file is empty. Export the curve again"),
        (b" \r\n\t", "The file is empty"),
        (b"0,1\n\x001,2\n", "The file is no text"),
        (b"min,mW\n0,1\n1,\x81\n", "signs that no text has"),
        (b"min,mW\n", "holds no points"),
        (b"min,mW\n0,1\n1,x\n", "Line 3: “x” is no number"),
        (b"0,1\n1,2,3\n", "Line 2 has 3 columns, not 2"),
        (b"0,1\n0,2\n", "Line 2: the time 0 does not come after 0"),
        (b"0,1\n", "The file has 1 point at one time"),
        (b"1e14,1\n100000000000000.001,2\n", "The file has 2 points at one time"),
    ],
)
def test_what_is_no_curve_is_refused_naming_what_is_wrong(content, words):
    with pytest.raises(BadInput, match="(?s)" + words) as refused:
        traces.read(content)

    assert refused.value.field == "trace"


def test_a_file_of_the_largest_size_is_read_and_one_byte_more_is_not():
    traces.check_size(traces.LARGEST)

    with pytest.raises(BadInput, match=r"holds 4000001 bytes, more than 4000000"):
        traces.check_size(traces.LARGEST + 1)


def test_the_size_is_asked_before_the_text():
    with pytest.raises(BadInput, match="bytes, more than"):
        traces.text_of(b"\0" * (traces.LARGEST + 1))


# ---- The print of a picture


def number(key, value):
    return Condition(key=key, value=value)


FROM, TO = number("baseline_from", "7"), number("baseline_to", "15")


def test_a_picture_without_a_curve_has_no_print():
    assert traces.picture(None, [FROM, TO]) == ""


def test_the_print_of_a_picture_is_short_enough_to_be_kept():
    room = Condition._meta.get_field("value").max_length

    assert 0 < len(traces.picture(row(), [FROM, TO])) <= room


def test_the_same_picture_has_the_same_print_in_any_order():
    assert traces.picture(row(), [FROM, TO]) == traces.picture(row(), [TO, FROM])


@pytest.mark.parametrize(
    ("curve", "numbers"),
    [
        (row(CONTENT + b"0,2;0,7\r\n"), [FROM, TO]),
        (row(), [FROM, number("baseline_to", "14")]),
        (row(), [FROM]),
        (row(), [number("baseline_from", "15"), number("baseline_to", "7")]),
    ],
)
def test_another_picture_has_another_print(curve, numbers):
    assert traces.picture(curve, numbers) != traces.picture(row(), [FROM, TO])
