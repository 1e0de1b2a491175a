"""Timing at the server: runs after a warm-up, in milliseconds, and queries counted apart from the clock."""

import cProfile
import gc
import pstats
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass, field

from django.db import connection
from django.test.utils import CaptureQueriesContext

ROUNDS = 3
Act = Callable[[], object]


@dataclass
class Measured:
    """One thing measured."""

    name: str
    aim: float  # milliseconds
    times: list[float] = field(default_factory=list)
    queries: list[int] = field(default_factory=list)  # with few lots, then with all

    @property
    def median(self) -> float:
        return statistics.median(self.times)

    @property
    def high(self) -> float:
        """The 95th percentile."""
        return sorted(self.times)[max(0, -(-len(self.times) * 95 // 100) - 1)]

    @property
    def is_constant(self) -> bool:
        return len(set(self.queries)) <= 1

    def line(self) -> str:
        few, *rest = [str(count) for count in self.queries] or ["-", "-"]
        times = (
            f"{self.median:8.1f} {self.high:8.1f} {self.aim:7.0f}"
            if self.times
            else f"{'-':>8} {'-':>8} {self.aim:7.0f}"
        )
        mark = "" if self.is_constant else "  not constant"
        slow = "  over the aim" if self.times and self.median > self.aim else ""
        return f"{self.name:34} {times} {few:>6} {''.join(rest):>6}{mark}{slow}"


HEAD = f"{'':34} {'median':>8} {'95 %':>8} {'aim ms':>7} {'few':>6} {'all':>6}"


def count_queries(act: Act) -> int:
    act()  # what is looked up once a process is no part of it
    with CaptureQueriesContext(connection) as captured:
        act()
    return len(captured)


def times_of(act: Act, runs: int, rounds: int = ROUNDS) -> list[float]:
    """Warm once, then run some rounds; the quickest round is the one least disturbed by other programs. As in the server, the collector passes over what stood before."""
    act()
    gc.collect()
    gc.freeze()
    found = [[_time(act) for _ in range(runs)] for _ in range(rounds)]
    return min(found, key=statistics.median)


def _time(act: Act) -> float:
    start = time.perf_counter()
    act()
    return (time.perf_counter() - start) * 1000


def look_into(act: Act, *, runs: int = 5) -> None:
    """Print the queries of one run and where the time of some runs goes."""
    act()
    with CaptureQueriesContext(connection) as captured:
        act()
    for query in captured.captured_queries:
        print(f"{float(query['time']) * 1000:7.1f} ms  {query['sql'][:260]}")
    print(f"{len(captured)} queries\n")
    profile = cProfile.Profile()
    profile.enable()
    for _ in range(runs):
        act()
    profile.disable()
    pstats.Stats(profile).sort_stats("cumulative").print_stats(60)
