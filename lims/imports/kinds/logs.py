"""Logs of pressure or temperature: one compressed block a sensor, of a batch, a vessel or a test that runs."""

import datetime as dt
import hashlib
import zlib
from decimal import Decimal

from lims.bench.models import Test
from lims.imports.kinds.keeping import Mapped
from lims.imports.models import Import, Log
from lims.people.days import today
from lims.people.models import Person
from lims.people.queries import site_zone
from lims.record.refusals import BadInput
from specs.tables.checked import Checked, Row
from specs.tables.forms.log_checking import check_log
from specs.tables.forms.log_subjects import Around
from specs.tables.layout import Block
from specs.tables.saying import Answers, Choice, Fate
from specs.tables.sheet import Sheet

OF_TEST = "test "
MOST_POINTS = 1_000_000
TAKEN = (Fate.TAKEN, Fate.CONVERTED)
Points = tuple[tuple[Decimal, Decimal], ...]


def check(sheet: Sheet, block: Block, mapping: Mapped, answers: Answers) -> Checked:
    """What becomes of each cell, and what each log is of."""
    told = {
        letter: {"role": str(use.get("role", "")), "unit": str(use.get("unit", ""))}
        for letter, use in mapping.items()
    }
    subjects = tuple(Choice(f"{OF_TEST}{it.pk}", _named(it)) for it in _over_hours())
    return check_log(sheet, block, told, answers, Around(today(), subjects))


def _named(test: Test) -> str:
    return f"{test.sample}, {test.characteristic}"[:60]


def _over_hours() -> list[Test]:
    """The tests over hours that nobody has authorised yet, newest first: a logger's file often comes when the run has ended."""
    rows = Test.objects.filter(characteristic__parameters__has_key="hours")
    rows = rows.exclude(state=Test.State.AUTHORISED)
    return list(rows.select_related("sample", "characteristic").order_by("-pk")[:40])


def write(import_of: Import, table: Checked, by: Person) -> dict[str, int]:
    """Keep one log for each sensor that is not here yet."""
    counts = {"added": 0, "points": 0, "logs here already": 0}
    for row in table.rows:
        content, count = _content(table, row)
        log = _log(import_of, row, content, count)
        if _is_here(log):
            counts["logs here already"] += 1
            continue
        log.save()
        counts["added"] += 1
        counts["points"] += count
    return counts


def _content(table: Checked, row: Row) -> tuple[bytes, int]:
    """The readings of a sensor as lines of minutes and value. Raises BadInput where no curve comes of them."""
    times, values = table.said[row.values["time"]], table.said[row.values["letter"]]
    lines = [
        f"{time.value}\t{value.value}\n"
        for time, value in zip(times, values, strict=True)
        if time.fate in TAKEN and value.fate in TAKEN
    ]
    if not 2 <= len(lines) <= MOST_POINTS:
        raise BadInput(
            f"“{row.values['heading']}” has {len(lines)} readings with a time: a log has "
            f"from 2 to {MOST_POINTS}. Look at its columns, or leave this one out.",
            field="file",
        )
    return "".join(lines).encode(), len(lines)


def _log(import_of: Import, row: Row, content: bytes, count: int) -> Log:
    values = row.values
    choice = values["choice"]
    started_at = values["started_at"]
    return Log(
        import_of=import_of,
        heading=values["heading"][:60],
        measures=values["measures"],
        unit=values["unit"],
        started_at=_local(started_at) if started_at else None,
        count=count,
        block=zlib.compress(content, 9),
        sha256=hashlib.sha256(content).hexdigest(),
        subject=values["subject"],
        test_id=int(choice.removeprefix(OF_TEST))
        if choice.startswith(OF_TEST)
        else None,
    )


def _local(text: str) -> dt.datetime:
    """A time of the laboratory's clock; in the hour that it shows twice the first is meant."""
    return dt.datetime.fromisoformat(text).replace(tzinfo=site_zone())


def _is_here(log: Log) -> bool:
    return Log.objects.filter(
        import_of__state=Import.State.TAKEN_IN,
        sha256=log.sha256,
        subject=log.subject,
        started_at=log.started_at,
        unit=log.unit,
    ).exists()


def points_of(log: Log) -> Points:
    """The readings of a kept log: minutes since the first, and the value in the log's unit."""
    text = zlib.decompress(bytes(log.block)).decode()
    pairs = (line.split("\t") for line in text.splitlines())
    return tuple((Decimal(time), Decimal(value)) for time, value in pairs)
