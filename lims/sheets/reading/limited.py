"""Reading in a process of its own that may take only so much time and memory: what a file does to it, it does to nobody else."""

import os
import signal
import subprocess
import sys
from pathlib import Path

from lims.sheets.reading.found import AS_FOUND, How, Workbook
from lims.sheets.reading.packing import unpacked
from lims.sheets.reading.refusing import FileRefused, MiB

ROOT = Path(__file__).resolve().parents[3]
PROCESSOR = 60  # seconds
CLOCK = 120  # seconds, whatever the processor did
MEMORY = 1536 * MiB
REFUSED = 3  # the process's end when the file is refused: its sentence is printed
OUT_OF_MEMORY = 4
KEPT = ("PATH", "SYSTEMROOT", "TMPDIR", "LD_LIBRARY_PATH")  # no secret among them
SMALLER = "Copy the table into a new workbook, or save it as .csv, and bring that in."
TOO_LONG = f"Reading the file takes longer than {{seconds}} seconds. {SMALLER}"
TOO_MUCH = f"Reading the file takes more than {{memory}} MB of memory. {SMALLER}"
BROKE = f"The file cannot be read: reading it broke off. {SMALLER}"


def read_limited(
    path: Path | str,
    name: str,
    how: How = AS_FOUND,
    *,
    processor: int = PROCESSOR,
    clock: float = CLOCK,
    memory: int = MEMORY,
) -> Workbook:
    """As `read`, of a file on disk, in a process of its own with bounds of `processor` and `clock` in seconds and `memory` in bytes. Raises FileRefused, also where a bound was met."""
    bounds = (str(processor), str(memory))
    asked = [str(Path(path).resolve()), name, how.encoding, how.delimiter, *bounds]
    try:
        run = subprocess.run(  # noqa: S603 - this very interpreter
            [sys.executable, "-B", "-m", "lims.sheets.reading", *asked],
            cwd=ROOT,
            env={key: os.environ[key] for key in KEPT if key in os.environ},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            timeout=clock,
            check=False,
        )
    except subprocess.TimeoutExpired as why:
        raise FileRefused(TOO_LONG.format(seconds=f"{clock:g}")) from why
    if run.returncode == 0:
        return unpacked(run.stdout)
    raise FileRefused(_why(run, processor, memory))


def _why(run: subprocess.CompletedProcess[bytes], processor: int, memory: int) -> str:
    if run.returncode == REFUSED:
        return run.stdout.decode("utf-8")
    too_long = {-getattr(signal, name, 0) for name in ("SIGXCPU", "SIGKILL")} - {0}
    if run.returncode in too_long:
        return TOO_LONG.format(seconds=processor)
    aborted = -int(signal.SIGABRT)  # how a library ends that gets no memory
    if run.returncode in (OUT_OF_MEMORY, aborted):
        return TOO_MUCH.format(memory=memory // MiB)
    return BROKE
