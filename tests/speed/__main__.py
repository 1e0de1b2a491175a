"""How quick the laboratory's pages are with many fill lots.

    python -m tests.speed [--lots 2000] [--runs 30] [--look-into NAME] [--imports]

Run from the repository's root with the project's environment. It makes a database of its
own and deletes it at the end: an SQLite file in a temporary folder, or, with
DATABASE_URL=postgres://..., the database `kettlemark_speed` on that server. The demo's
database and files are never opened.

Printed for each thing measured: the median and the 95th percentile of its runs in
milliseconds at the server, of the round of three that other programs disturbed least, and
its queries with a tenth of the lots and with all of them, which must be the same number:
otherwise it ends with 1. Then 100 000 results more are loaded and a draft is held against
them, as its preview does. Last, a workbook and a text of 100 000 rows are brought in, step
by step, with time and memory; `--imports` does that alone. `--look-into NAME` prints instead where the time of one thing
goes, and its queries; NAME is a word of the first column, such as `bench`.
"""

import argparse
import os
import tempfile
from pathlib import Path


def main() -> int:
    parser = argparse.ArgumentParser(
        prog="python -m tests.speed",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--lots", type=int, default=2000, help="fill lots (2000)")
    parser.add_argument("--runs", type=int, default=30, help="runs of each (30)")
    parser.add_argument("--look-into", default="", metavar="NAME", help="look into one")
    parser.add_argument(
        "--imports", action="store_true", help="bring files in, no more"
    )
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="kettlemark-speed-") as folder:
        _point_at(Path(folder))
        from tests.speed import running  # needs the settings that were pointed

        return running.run(
            lots=asked.lots,
            runs=asked.runs,
            look_into=asked.look_into,
            imports=asked.imports,
            folder=Path(folder),
        )


def _point_at(folder: Path) -> None:
    """Before the settings are read: a file of our own unless a server is named."""
    if not os.environ.get("DATABASE_URL", "").startswith("postgres"):
        os.environ["DATABASE_URL"] = f"sqlite:///{folder / 'unused.sqlite3'}"
    os.environ["KETTLEMARK_MODE"] = "demo"  # its clock may be set
    os.environ["KETTLEMARK_FILES"] = str(folder / "files")
    os.environ["DJANGO_SETTINGS_MODULE"] = "lims.settings"


if __name__ == "__main__":
    raise SystemExit(main())
