"""The calculations of curves, structure and viscosity that known-answer cases may name."""

from collections.abc import Mapping
from decimal import Decimal

from specs.calculations.given import (
    Answers,
    Calculation,
    Given,
    list_of,
    numbers,
    optional_number,
    plain_number,
)
from specs.comparing import CaseRefused, Kind, number
from specs.methods.onset import onset
from specs.methods.structure import R_PROLONGED, structure
from specs.methods.viscosity import viscosity_index
from specs.numbers import Refused


def _oxidation_onset(given: Given) -> Answers:
    minutes, signal = _column(given, "minutes"), _column(given, "signal")
    if len(minutes) != len(signal):
        raise Refused(
            f"There are {len(minutes)} times but {len(signal)} signals: "
            "each point has one of both."
        )
    baseline = numbers(given["baseline"], "baseline")
    if len(baseline) != 2:
        raise CaseRefused("The “baseline” is two times: from and to, in minutes.")
    found = onset(list(zip(minutes, signal, strict=True)), (baseline[0], baseline[1]))
    return {"onset": found.minutes}


def _column(given: Given, key: str) -> list[Decimal]:
    """Numbers as an instrument writes them, with more digits than one types."""
    found = [number(value, key) for value in list_of(given, key)]
    if any(it.is_censored for it in found):
        raise Refused(f"“{key}” holds a bound: a plain number is needed.")
    return [it.value for it in found]


def _structure_recovery(given: Given) -> Answers:
    repeatability = optional_number(given, "r")
    found = structure(
        plain_number(given, "worked"),
        plain_number(given, "prolonged"),
        plain_number(given, "rested"),
        optional_number(given, "reworked"),
        R_PROLONGED if repeatability is None else repeatability,
    )
    return {
        "softening": found.softening,
        "recovery_percent": found.recovery_percent,
        "permanent_softening": found.permanent_softening,
        "retained_percent": found.retained_percent,
        "meaningful": found.is_meaningful,
    }


def _viscosity_index(given: Given) -> Answers:
    found = viscosity_index(plain_number(given, "kv40"), plain_number(given, "kv100"))
    return {"vi": found.value, "reported": found.reported}


METHODS: Mapping[str, Calculation] = {
    "oxidation_onset": Calculation(
        _oxidation_onset,
        "ASTM D5483: crossing of the baseline and the tangent at the steepest rise",
        ("minutes", "signal", "baseline"),
        {"onset": Kind.NUMBER},
    ),
    "structure_recovery": Calculation(
        _structure_recovery,
        "common practice with polyurea greases, from penetrations by ASTM D217",
        ("worked", "prolonged", "rested"),
        {
            "softening": Kind.NUMBER,
            "recovery_percent": Kind.NUMBER,
            "permanent_softening": Kind.NUMBER,
            "retained_percent": Kind.NUMBER,
            "meaningful": Kind.FLAG,
        },
        ("reworked", "r"),
    ),
    "viscosity_index": Calculation(
        _viscosity_index,
        "ASTM D2270, procedures A and B; ISO 2909",
        ("kv40", "kv100"),
        {"vi": Kind.NUMBER, "reported": Kind.ROUNDED},
    ),
}
