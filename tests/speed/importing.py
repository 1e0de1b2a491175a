"""A workbook and a text of a hundred thousand rows of results, from the file to the preview and into the record: how long each step takes, on the clock and on the processor, and how much memory."""

import csv
import datetime as dt
import io
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from lims.imports import actions
from lims.imports.models import Import, Staging
from lims.people.queries import person
from lims.sheets import jobs, looking, reading
from lims.sheets.exports import Column, workbook
from lims.sheets.reading.limited import ROOT
from tests.factories.plant import ZONE

ROWS = 100_000
AIM = 10.0  # seconds to the preview
SPAN = 700  # days
LAST = dt.date(2026, 3, 1)
HEADS = (
    Column("Batch"),
    Column("Date"),
    Column("Product"),
    Column("Pen W60", "0.1 mm"),
    Column("Drop pt", "°C"),
    Column("Ox. 100h", "kPa"),
    Column("Cu strip"),
    Column("Remark"),
)
PREVIEW = "to the preview"
Given = TypeVar("Given")


def rows(count: int) -> Iterator[list[Any]]:
    """Results as a plant has them: values that differ, a few remarks, a batch a row."""
    for number in range(count):
        yield [
            f"Q1-H-{number:06}",
            LAST - dt.timedelta(days=SPAN - number * SPAN // count),
            "LX2",
            265 + number * 7919 % 31,
            190 + number * 104_729 % 40,
            25 + number * 15_485_863 % 20,
            ("1a", "1b")[number % 2],
            "second cup" if number % 50 == 0 else None,
        ]


def a_workbook(count: int) -> bytes:
    return workbook("history", HEADS, rows(count))


def a_text(count: int) -> bytes:
    """With semicolons, days as day.month.year and decimal commas, in Western European."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";")
    writer.writerow([it.head for it in HEADS])
    writer.writerow([it.unit for it in HEADS])
    for batch, day, code, *values in rows(count):
        writer.writerow([batch, f"{day:%d.%m.%Y}", code, *values])
    return out.getvalue().encode("cp1252")


@dataclass
class Steps:
    """What was timed of one file, in seconds, and the most memory, in MB."""

    name: str
    size: int
    seconds: dict[str, float] = field(default_factory=dict)
    worked: dict[str, float] = field(default_factory=dict)  # of them, on the processor
    memory: dict[str, float] = field(default_factory=dict)

    def time(self, what: str, act: Callable[[], Given]) -> Given:
        _forget_the_peak()
        began, worked = time.perf_counter(), _worked()
        given = act()
        self.seconds[what] = time.perf_counter() - began
        self.worked[what] = _worked() - worked
        self.memory[what] = _peak()
        return given

    @property
    def preview(self) -> float:
        """From the file that was received to the answers that are left."""
        return (
            self.seconds["received and looked at"] + self.seconds["mapped and checked"]
        )

    def lines(self) -> Iterator[str]:
        yield f"{self.name}, {self.size / 1e6:.1f} MB"
        for what, seconds in self.seconds.items():
            worked = f"(processor {self.worked[what]:5.2f} s)"
            memory = f"{self.memory[what]:6.0f} MB at most"
            yield f"  {what:34} {seconds:6.2f} s  {worked}  {memory}"
        over = "  over the aim" if self.preview > AIM else ""
        yield f"  {PREVIEW:34} {self.preview:6.2f} s  aim {AIM:.0f} s{over}"


def measured(folder: Path, count: int = ROWS) -> Iterator[Steps]:
    """Both files on their way; the text's results are those of the workbook, so that nothing of it is added."""
    from lims.record import clock

    clock.set_to(dt.datetime(2026, 3, 9, 11, 20, tzinfo=ZONE))
    for name, make in (("history.xlsx", a_workbook), ("history.csv", a_text)):
        content = make(count)
        steps = Steps(f"{name} of {count} rows x {len(HEADS)} columns", len(content))
        _read(steps, folder / name, content)
        _bring_in(steps, name, content)
        yield steps


def _read(steps: Steps, path: Path, content: bytes) -> None:
    path.write_bytes(content)
    found = steps.time("read at once", lambda: reading.read(content, path.name))
    kept = steps.time("packed", lambda: reading.packed(found))
    steps.time("unpacked", lambda: reading.unpacked(kept))
    steps.time(
        "read in a process of its own", lambda: reading.read_limited(path, path.name)
    )
    steps.memory["read in a process of its own"] = _peak_of_its_own(path)


def _peak_of_its_own(path: Path) -> float:
    """What that process takes: it says so itself, as the kernel's figure for children holds their parent's."""
    code = (
        "import sys; from pathlib import Path; from lims.sheets.reading import read, packed;"
        "packed(read(Path(sys.argv[1]).read_bytes(), 'a'));"
        "print(Path('/proc/self/status').read_text())"
    )
    run = subprocess.run(  # noqa: S603 - this very interpreter
        [sys.executable, "-c", code, str(path)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return _most(run.stdout)


def _bring_in(steps: Steps, name: str, content: bytes) -> None:
    by = person("mgr-1")
    row = steps.time("received and looked at", lambda: _received(name, content, by))
    steps.time("mapped and checked", lambda: _mapped(row, by))
    for _ in range(3):  # an answer may raise a question
        if _answered(row, by):
            steps.time("answered and checked again", lambda: jobs.look(row, here=True))
    steps.time("taken in", lambda: jobs.take(row, by=by, here=True))


def _received(name: str, content: bytes, by: Any) -> Import:
    row = actions.receive(name=name, content=content, kind="history", by=by)
    jobs.look(row, here=True)
    row.refresh_from_db()
    stage = Staging.objects.get(import_of=row)
    if stage.stage != Staging.Stage.LOOKED_AT:
        raise RuntimeError(f"{name}: {row.reason or stage.words}")
    return row


def _mapped(row: Import, by: Any) -> None:
    """The columns as they were proposed."""
    found = looking.looked(row)
    mapping = {it.block.key: it.uses for it in found.blocks}
    actions.map_columns(import_of=row, mapping=mapping, by=by)
    jobs.look(row, here=True)


def _answered(row: Import, by: Any) -> bool:
    """Whether something was asked; each question gets what it proposes, or its first choice."""
    found = looking.looked(row)
    choices = {
        it.block.key: {
            one.key: one.proposed or one.choices[0].key for one in it.questions
        }
        for it in found.blocks
        if it.questions
    }
    if choices:
        actions.answer(import_of=row, choices=choices, instead={}, by=by)
    return bool(choices)


def _worked() -> float:
    """What this process and its children did: other programs on the machine are no part of it."""
    return sum(os.times()[:4])


def _forget_the_peak() -> None:
    """From here on the kernel counts anew how much memory there was at most."""
    Path("/proc/self/clear_refs").write_text("5", encoding="ascii")


def _peak() -> float:
    return _most(Path("/proc/self/status").read_text(encoding="ascii"))


def _most(told: str) -> float:
    return next(int(it.split()[1]) for it in told.splitlines() if "VmHWM" in it) / 1024
