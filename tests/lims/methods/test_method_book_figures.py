"""The figures of the shipped method book: what is published, what rests on memory, what is missing."""

from decimal import Decimal

import pytest

from lims.methods.figures import What
from specs.units import convert
from tests.lims.methods.book import EDITIONS, PRECISIONS, ROWS, at, method, said, value
from tests.watch.files import ROOT


@pytest.mark.parametrize(
    ("designation", "code", "what", "level", "expected"),
    [
        ("ASTM D2509", "timken-ok-load", What.REPEATABILITY, "40", "9.2"),
        ("ASTM D2509", "timken-ok-load", What.REPRODUCIBILITY, "40", "23.6"),
        ("ASTM D3527", "wheel-bearing-life", What.REPEATABILITY, "80", "64"),
        ("ASTM D3527", "wheel-bearing-life", What.REPRODUCIBILITY, "80", "96"),
        ("ASTM D5483", "oxidation-induction-180", What.REPEATABILITY, "25", "2.10"),
        ("ASTM D5483", "oxidation-induction-180", What.REPRODUCIBILITY, "25", "3.55"),
        ("ASTM D5483", "oxidation-induction-180", What.DETERMINABILITY, "20.25", "2.655"),
        ("ASTM D2266", "four-ball-wear", What.REPEATABILITY, "0.5", "0.20"),
        ("ASTM D2266", "four-ball-wear", What.REPRODUCIBILITY, "0.5", "0.37"),
        ("ASTM D1831", "roll-stability", What.REPEATABILITY, "30", "11"),
        ("ASTM D1831", "roll-stability", What.REPRODUCIBILITY, "30", "45"),
        ("ASTM D566", "dropping-point-bath", What.REPEATABILITY, "190", "7"),
        ("ASTM D566", "dropping-point-bath", What.REPRODUCIBILITY, "190", "13"),
        ("ISO 3104", "kinematic-viscosity-40", What.DETERMINABILITY, "100", "0.20"),
        ("ISO 3104", "kinematic-viscosity-40", What.REPEATABILITY, "100", "0.11"),
        ("ISO 3104", "kinematic-viscosity-40", What.REPRODUCIBILITY, "100", "0.65"),
    ],
)  # fmt: skip
def test_published_precision_at_a_level(designation, code, what, level, expected):
    [figure] = said(method(designation), code, what)

    assert at(designation, code, what, level) == Decimal(expected)
    assert figure["standing"] == "published"


@pytest.mark.parametrize(
    ("code", "repeatability", "reproducibility"),
    [
        ("unworked-penetration", "8", "19"),
        ("worked-penetration", "7", "20"),
        ("prolonged-penetration-100000", "15", "27"),
        ("block-penetration", "7", "11"),
    ],
)
@pytest.mark.parametrize("designation", ["ASTM D217", "ISO 2137"])
def test_the_precision_of_the_cone_is_from_memory(
    designation, code, repeatability, reproducibility
):
    edition = method(designation)
    for what, expected in (
        (What.REPEATABILITY, repeatability),
        (What.REPRODUCIBILITY, reproducibility),
    ):
        [figure] = said(edition, code, what)
        assert (figure["value"], figure["standing"]) == (expected, "from memory")


def test_the_vessel_is_precise_in_kilopascals():
    [figure] = said(method("ASTM D942"), "oxidation-drop", What.REPEATABILITY)

    in_kpa = [
        round(convert(Decimal(psi), "psi", ROWS["oxidation-drop"]["unit"]), 1)
        for psi in (6, 11, 20)
    ]
    told = [figure[key] for key in ("value", "level_from", "level_to")]
    assert in_kpa == [Decimal(text) for text in told]
    assert figure["standing"] == "from memory"


@pytest.mark.parametrize(
    ("designation", "code"),
    [
        ("ASTM D217", "prolonged-penetration-10000"),
        ("ASTM D1403", "worked-penetration-quarter"),
        ("ASTM D972", "evaporation-100"),
        ("ASTM D2595", "evaporation-177"),
        ("ASTM D1264", "water-washout-79"),
        ("ASTM D6138", "emcor-distilled-water"),
        ("ASTM D4048", "copper-strip"),
        ("ASTM D2596", "four-ball-weld"),
        ("ASTM D3336", "bearing-life"),
        ("ISO 2176", "dropping-point-bath"),
    ],
)
def test_what_was_not_found_is_missing_and_never_nought(designation, code):
    edition = method(designation)

    assert code in edition["characteristics"]
    assert not any(said(edition, code, what) for what in PRECISIONS)


def test_every_address_is_written_out():
    paths = [*(ROOT / "fixtures" / "reference").rglob("*.json")]

    assert len(paths) > 5
    assert not [it.name for it in paths if "..." in it.read_text("utf-8")]


def test_figures_that_contradict_each_other_are_told_and_left_out():
    source = method("ASTM D972")["source"]

    assert "2.5 and 10 %" in source
    assert "5 and 20 %" in source


def test_two_determinations_are_asked_for_where_the_method_says_so():
    assert value("ASTM D5483", "oxidation-induction-180", What.DETERMINATIONS) == "2"
    assert value("ASTM D1264", "water-washout-79", What.DETERMINATIONS) == "2"
    assert value("ASTM D217", "worked-penetration", What.DETERMINATIONS) == "1"


def test_a_second_fill_after_a_rejected_set_is_a_house_rule_of_the_cone():
    fills = [
        (figure["characteristic"], figure["standing"])
        for edition in EDITIONS.values()
        for figure in edition["figures"]
        if figure["what"] == What.CONFIRM
    ]

    assert {standing for _, standing in fills} == {"common practice"}
    cones = {
        code for code, row in ROWS.items() if row["procedure"] == "cone penetration"
    }
    assert {code for code, _ in fills} == cones
