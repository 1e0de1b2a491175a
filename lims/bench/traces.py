"""The curve of a run as a file: packed for keeping, unpacked to points, one stored block a run."""

import hashlib
import zlib
from collections.abc import Iterable

from lims.bench.models import Condition, Trace
from lims.record.refusals import BadInput
from specs.methods import traces
from specs.methods.traces import Points

LARGEST = 4_000_000  # bytes; a run of ten hours at ten points a second stays below it
FIELD = "trace"
ENCODINGS = ("utf-8-sig", "cp1252")
PRINT = 40  # hexadecimal digits of a picture's print


def check_size(count: int) -> None:
    """Refuse a file that no run gives; asked before it is read."""
    if count > LARGEST:
        raise BadInput(
            f"The file holds {count} bytes, more than {LARGEST}. Export the curve "
            "with fewer points a minute.",
            field=FIELD,
        )


def text_of(content: bytes) -> str:
    """The text of a file from an instrument. Raises BadInput for what is no text."""
    check_size(len(content))
    if not content.strip():
        raise BadInput(
            "The file is empty. Export the curve again and choose that file.",
            field=FIELD,
        )
    if b"\0" in content:
        raise BadInput(
            "The file is no text. Export the curve as two columns: CSV, time in minutes "
            "and signal.",
            field=FIELD,
        )
    for encoding in ENCODINGS:
        try:
            return content.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise BadInput(
        "The file holds signs that no text has. Export the curve as CSV again.",
        field=FIELD,
    )


def read(content: bytes) -> Points:
    """The points of a file. Raises BadInput naming the line that cannot be read."""
    try:
        points = traces.read_trace(text_of(content)).points
    except traces.TraceRefused as refused:
        raise BadInput(refused.sentence, field=FIELD) from refused
    if float(points[-1][0]) <= float(points[0][0]):
        raise BadInput(
            f"The file has {len(points)} point{'s' * (len(points) > 1)} at one time: no "
            "curve can be drawn. Choose the file of a whole run, its times in minutes.",
            field=FIELD,
        )
    return points


def packed(content: bytes) -> bytes:
    return zlib.compress(content, 9)


def unpacked(trace: Trace) -> bytes:
    """The file as it was received, byte for byte."""
    return zlib.decompress(bytes(trace.block))


def print_of(content: bytes) -> str:
    """SHA-256 of the file, as hexadecimal digits."""
    return hashlib.sha256(content).hexdigest()


def points_of(trace: Trace | None) -> Points:
    """The points of a kept curve; none where there is no curve."""
    return () if trace is None else traces.read_trace(text_of(unpacked(trace))).points


def picture(trace: Trace | None, numbers: Iterable[Condition]) -> str:
    """The print of a curve with the numbers that its lines are drawn from; empty without a curve."""
    if trace is None:
        return ""
    drawn = [trace.sha256, *sorted(f"{it.key} {it.value}" for it in numbers)]
    return print_of("\n".join(drawn).encode())[:PRINT]
