"""One measurement from an empty database to the printed table."""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import django
from django.conf import settings
from django.db import connection
from django.test import override_settings

from tests.speed import measuring
from tests.speed.measuring import Act, Measured

if TYPE_CHECKING:
    from lims.certificates.models import CertificateRevision

HASHERS = ["tests.hashers.QuickArgon2"]
SHARE_OF_FEW = 10
RESULTS = 100_000
REJUDGED = "a draft held against stored results"
CERTIFICATES = 400
READING = "a reading saved, with its verdict"
COLD, WARM = "a certificate printed, cold", "a certificate printed, warm"


def run(*, lots: int, runs: int, look_into: str, imports: bool, folder: Path) -> int:
    """Load, measure, print; 1 where a number of queries differs between few lots and all."""
    is_server = settings.DATABASES["default"]["ENGINE"].endswith("postgresql")
    settings.DATABASES["default"]["TEST"] = {
        "NAME": "kettlemark_speed" if is_server else str(folder / "speed.sqlite3")
    }
    django.setup()
    with _database(), override_settings(PASSWORD_HASHERS=HASHERS):
        measurement = Measurement(lots, runs)
        if imports:
            measurement.imports(folder)
            return 0
        if look_into:
            return measurement.look_into(look_into)
        code = measurement.whole()
        measurement.imports(folder)
        return code


@contextmanager
def _database() -> Iterator[None]:
    named = connection.settings_dict["NAME"]
    connection.creation.create_test_db(verbosity=0, autoclobber=True)
    try:
        yield
    finally:
        connection.creation.destroy_test_db(named, verbosity=0)


def _machine() -> str:
    busy = os.getloadavg()[0]  # above the number of cores, others slow this down
    return f"{os.cpu_count()} cores, load {busy:.1f}"


class Measurement:
    """The plant, loaded twice, and what was found with few lots and with all."""

    def __init__(self, lots: int, runs: int) -> None:
        # These need the settings.
        from lims.decisions.rejudging import preview_of
        from tests.speed import pages, patterns, results
        from tests.speed.copying import Loader

        self.pages, self.runs, self.lots = pages, runs, lots
        self.results, self.preview_of = results, preview_of
        self.few = max(lots // SHARE_OF_FEW, 100)
        self.found: dict[str, Measured] = {}
        began = time.perf_counter()
        made = patterns.make(self._print_first)
        self.pattern = made.released
        self.loader = Loader(made, certificates=CERTIFICATES, lots=lots)
        self._said(began, "The plant is founded")

    def whole(self) -> int:
        self._load(self.few)
        self._count()
        self._load(self.lots)
        self._count()
        self._time()
        print(f"\n{self._where()}\n{measuring.HEAD}")
        for each in self.found.values():
            print(each.line())
        print(f"\n{self.rejudged(RESULTS)}")
        return 0 if all(each.is_constant for each in self.found.values()) else 1

    def rejudged(self, count: int) -> str:
        """The results are loaded last, so that they slow no page down; the best of three runs."""
        from lims.people.queries import person

        began = time.perf_counter()
        loaded = self.results.load_results(self.pattern, count, by=person("adm-1"))
        self._said(began, f"{loaded} results more stand")
        revision = self.results.draft()
        queries = measuring.count_queries(lambda: self.preview_of(revision))
        times = []
        for _ in range(measuring.ROUNDS):
            began = time.perf_counter()
            preview = self.preview_of(revision)
            times.append((time.perf_counter() - began) * 1000)
        return (
            f"a draft held against {preview.total} stored results: {min(times):.0f} ms, "
            f"aim {self.results.AIM:.0f}, {queries} queries\n{self.results.told(preview)}"
        )

    def imports(self, folder: Path) -> None:
        """Files brought in from end to end."""
        from tests.speed import importing

        print(f"\nfiles brought in: {connection.vendor}, {_machine()}")
        for steps in importing.measured(folder):
            print(*steps.lines(), sep="\n", flush=True)

    def look_into(self, name: str) -> int:
        if name in REJUDGED:
            print(self.rejudged(RESULTS))
            revision = self.results.draft_again()
            measuring.look_into(lambda: self.preview_of(revision), runs=1)
            return 0
        self._load(self.lots)
        for what, act in self._acts():
            if name in what:
                print(f"\n{what}\n")
                measuring.look_into(act)
        return 0

    def _print_first(self, issued: "CertificateRevision") -> None:
        """The first paper of a process loads the fonts, and is kept with its file."""
        from lims.documents.printing import print_one

        began = time.perf_counter()
        print_one(issued)
        milliseconds = (time.perf_counter() - began) * 1000
        self.cold = Measured(COLD, self.pages.PAPER, times=[milliseconds])

    def _acts(self) -> Iterator[tuple[str, Act]]:
        yield READING, self.pages.third_readings()
        yield from self.pages.pages()
        yield WARM, self.pages.printing()

    def _load(self, count: int) -> None:
        from lims.people.queries import person

        began = time.perf_counter()
        self.loader.load_up_to(count, by=person("adm-1"))
        self._said(began, f"{count} fill lots stand")

    def _count(self) -> None:
        self._of(READING, self.pages.READING).queries.append(
            measuring.count_queries(self.pages.third_readings())
        )
        for name, act in self.pages.pages():
            self._of(name, self.pages.PAGE).queries.append(measuring.count_queries(act))

    def _time(self) -> None:
        for name, act in self.pages.pages():
            self.found[name].times = measuring.times_of(act, self.runs)
        # Each of these needs a lot of its own: one is for warming up.
        there = self.pages.how_many_third_readings() - 1
        runs = min(self.runs, there)
        self.found[READING].times = measuring.times_of(
            self.pages.third_readings(),
            runs,
            rounds=min(there // runs, measuring.ROUNDS),
        )
        self.found[COLD] = self.cold
        self._of(WARM, self.pages.PAPER).times = measuring.times_of(
            self.pages.printing(), self.runs
        )

    def _of(self, name: str, aim: float) -> Measured:
        return self.found.setdefault(name, Measured(name, aim))

    def _where(self) -> str:
        return (
            f"{connection.vendor}, {self.lots} fill lots, {self.runs} runs each, "
            f"{_machine()}"
        )

    def _said(self, began: float, what: str) -> None:
        print(f"{what} ({time.perf_counter() - began:.1f} s)", flush=True)
