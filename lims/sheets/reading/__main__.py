"""The process that reads one file and prints it packed: see limited.py."""

import sys
from pathlib import Path

from lims.sheets.reading.found import How
from lims.sheets.reading.limited import OUT_OF_MEMORY, REFUSED
from lims.sheets.reading.packing import packed
from lims.sheets.reading.refusing import FileRefused
from lims.sheets.reading.whole import read


def bound(processor: int, memory: int) -> None:
    """Take only so much, write no file and leave no image of the memory behind."""
    try:
        import resource  # POSIX alone; elsewhere the clock bounds it
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_CPU, (processor, processor + 5))
    resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
    resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def main() -> int:
    path, name, encoding, delimiter, processor, memory = sys.argv[1:]
    bound(int(processor), int(memory))
    try:
        workbook = read(Path(path).read_bytes(), name, how=How(encoding, delimiter))
        told, code = packed(workbook), 0
    except FileRefused as refusal:
        told, code = str(refusal).encode("utf-8"), REFUSED
    except MemoryError:
        told, code = b"", OUT_OF_MEMORY
    sys.stdout.buffer.write(told)
    sys.stdout.buffer.flush()
    return code


if __name__ == "__main__":
    raise SystemExit(main())
