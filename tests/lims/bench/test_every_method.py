"""Every method of the shipped book at the bench: what it asks for, and what it makes of the usual readings."""

import re
from decimal import Decimal

import pytest

from lims.bench import evaluation, typed
from lims.bench.evaluation import Held
from lims.bench.models import Condition, Reading
from lims.methods import reference
from lims.methods.models import Characteristic
from lims.record.clock import now
from specs.methods.circumstances import read_asked

pytestmark = pytest.mark.django_db

ROWS = {row["code"]: row for row in reference.shipped()["characteristics"]}
UPRIGHT = {
    "four-ball-wear": (["0.52", "0.56", "0.55"], {}, "0.54"),
    "four-ball-weld": ([">800"], {}, ">800"),
    "load-wear-index": (["42.26"], {}, "42.3"),
    "timken-ok-load": (["45"], {}, "45"),
    "fretting-wear": (["6.1", "6.4"], {}, "6.2"),
    "rust-prevention": (["pass", "fail", "pass"], {"temperature": "52"}, "pass"),
    "emcor-distilled-water": (["0", "1"], {"water": "distilled water"}, "0/1"),
    "low-temperature-torque-start": (["150"], {"temperature": "-40"}, "95.6"),
    "water-washout-79": (
        ["102.520", "106.520", "106.100"],
        {"temperature": "79", "drying": "77"},
        "10.5",
    ),
    "evaporation-150": (["25.000", "24.850"], {"temperature": "150"}, "0.60"),
    "oil-separation-storage": (["20.00", "0.37"], {"temperature": "25"}, "1.8"),
    "elastomer-volume-cr": (["4.01", "4.12", "4.10"], {"temperature": "100"}, "4.08"),
    "elastomer-hardness-nbr-l": (["-4", "-5", "-5"], {"temperature": "150"}, "-5"),
    "flow-pressure-20": (["620"], {"temperature": "-20"}, "620"),
    "wheel-bearing-life": ([">160"], {}, ">160"),
    "water-content": (["<50"], {}, "<50"),
    "free-alkali-lithium": (["0.08"], {}, "0.08"),
    "corrosion-on-metals": (["pass"], {}, "pass"),
}


def characteristic(code):
    return Characteristic(**ROWS[code])


def held(row, texts, conditions):
    """What stands on a set after these texts were typed in the order of its places."""
    slots = evaluation.slots_of(row)
    asked = {it.key: it for it in evaluation.conditions_of(row)}
    kept = {key: typed.condition_of(asked[key], it) for key, it in conditions.items()}
    return Held(
        readings={
            slot.key: Reading(
                slot=slot.key,
                text=text,
                value=typed.value_of(slot, text),
                read_at=now(),
            )
            for slot, text in zip(slots, texts, strict=False)
        },
        conditions={
            key: Condition(key=key, text=it.text, value=it.value)
            for key, it in kept.items()
        },
    )


@pytest.mark.parametrize("code", list(ROWS))
def test_with_nothing_typed_no_method_has_a_result(code):
    outcome = evaluation.outcome_of(characteristic(code), Held({}, {}))

    assert not outcome.can_count
    assert outcome.value is None
    assert outcome.mark == ""


@pytest.mark.parametrize("code", list(UPRIGHT))
def test_usual_readings_give_a_result_that_counts(code):
    texts, conditions, reported = UPRIGHT[code]
    row = characteristic(code)

    outcome = evaluation.outcome_of(row, held(row, texts, conditions))

    assert outcome.can_count, (outcome.asks, outcome.bars)
    shown = outcome.reported.canonical if outcome.reported else outcome.mark
    assert shown == reported


STATED = re.compile(r"(−?[0-9]+) °C")


@pytest.mark.parametrize(
    "code",
    [
        code
        for code, row in ROWS.items()
        if "temperature" in row.get("parameters", {}).get("asked", "")
        and STATED.search(row["conditions"])
    ],
)
def test_the_window_of_a_temperature_holds_the_one_that_the_characteristic_names(code):
    row = ROWS[code]
    [stated] = STATED.findall(row["conditions"])
    [asked] = [
        it
        for it in read_asked(row["parameters"]["asked"])
        if it.condition.key == "temperature"
    ]

    low, high = asked.window
    assert low < Decimal(stated.replace("−", "-")) < high
    assert asked.aim is None or f"{asked.aim}" == stated.replace("−", "-")


def test_a_run_of_another_temperature_is_kept_and_cannot_count():
    row = characteristic("evaporation-177")

    outcome = evaluation.outcome_of(
        row, held(row, ["25.000", "24.850"], {"temperature": "150"})
    )

    assert "this characteristic is at 177 °C" in outcome.bars[0].sentence
    assert not outcome.can_count


@pytest.mark.parametrize(
    ("code", "text"), [("four-ball-weld", "230"), ("timken-ok-load", "32")]
)
def test_a_load_between_two_steps_is_kept_and_cannot_count(code, text):
    row = characteristic(code)

    outcome = evaluation.outcome_of(row, held(row, [text], {}))

    assert "it lies between" in outcome.bars[0].sentence
    assert not outcome.can_count
