"""Kinds of instrument with what is checked, how often to begin with, and what a failed check touches."""

from dataclasses import dataclass

SOURCE = "common practice, no source"


@dataclass(frozen=True)
class Kind:
    """A kind of instrument; `days` is the interval to start from, zero where the place's own rule holds."""

    words: str
    checks: str
    days: int
    interval: str
    failing: str


KINDS = (
    Kind(
        "penetrometer",
        "zero, free fall, release time of 5.0 s, level, clean shaft, depth by blocks; a reference grease between",
        91,
        "release time and depth every three months, outside calibration every year",
        "out of service, and every result since the last good check is looked at again",
    ),
    Kind(
        "cone",
        "mass of the cone and of all that moves, tip and angle under a lens, straight shaft, surface",
        182,
        "every six to twelve months, and after every fall",
        "the cone is scrapped",
    ),
    Kind(
        "grease worker",
        "holes of the plate, clearance of the plate, stroke, counter, 50 to 70 strokes a minute",
        365,
        "every year, by eye every month",
        "results since the last good check are looked at again",
    ),
    Kind(
        "thermometer",
        "ice point or two points against a reference",
        182,
        "every six to twelve months",
        "results of the baths and dropping points measured with it are looked at again",
    ),
    Kind(
        "oven",
        "temperature at the shelf against a reference",
        182,
        "every six to twelve months",
        "results from it since the last good check are looked at again",
    ),
    Kind(
        "viscometer",
        "its own check standard",
        0,
        "by its own check standard",
        "viscosities since the last good check are looked at again",
    ),
    Kind(
        "bath",
        "temperature at several places, and a log that runs",
        1,
        "every day",
        "tests of that period do not count",
    ),
    Kind(
        "dropping point apparatus",
        "set temperatures, probe; cups by the gauge rods, their plating",
        91,
        "every three months; a cup before each use",
        "dropping points since the last good check are looked at again",
    ),
    Kind(
        "oxygen vessel",
        "tightness overnight before each run, seal, proof test by a competent person",
        0,
        "each run; the proof test by the rule of the place",
        "no run is started",
    ),
    Kind(
        "pressure gauge",
        "against a reference gauge",
        182,
        "every six to twelve months",
        "no run is started, and pressures since the last good check are looked at again",
    ),
    Kind(
        "balance",
        "a known mass every day, outside calibration every year",
        365,
        "a known mass every day, outside every year",
        "charges and weighed portions since the last good check are looked at again",
    ),
)


def kind_of(words: str) -> Kind | None:
    """The kind that an instrument's own words name; None for one that is not listed."""
    said = words.strip().casefold()
    return next((kind for kind in KINDS if kind.words == said), None)
