"""The method book as it is shipped: what each method asks, each figure with its source and standing."""

from decimal import Decimal

import pytest

from lims.methods import queries
from lims.methods.figure_rules import check_whole
from lims.methods.figures import What
from lims.methods.models import MethodEdition
from specs.judging.precision import read_expression
from specs.judging.steps import check_step
from specs.methods.catalogue import PROCEDURES
from specs.methods.outcome import setting
from tests.factories.methods import with_reference
from tests.lims.methods.book import (
    EDITIONS,
    PRECISIONS,
    ROWS,
    SHIPPED,
    Kind,
    kind_of,
    method,
    said,
)

EVERY_EDITION = pytest.mark.parametrize("name", sorted(EDITIONS))
EVERY_CHARACTERISTIC = pytest.mark.parametrize("code", list(ROWS))

ASKED_FOR = [
    ("ASTM D217", "worked-penetration"),
    ("ASTM D1403", "worked-penetration-half"),
    ("ASTM D1403", "worked-penetration-quarter"),
    ("ASTM D1831", "roll-stability"),
    ("ASTM D2265", "dropping-point-block"),
    ("ASTM D566", "dropping-point-bath"),
    ("ASTM D942", "oxidation-drop"),
    ("ASTM D5483", "oxidation-induction-180"),
    ("ASTM D1742", "oil-separation-storage"),
    ("ASTM D6184", "oil-separation"),
    ("IP 121", "oil-separation-static-42h"),
    ("DIN 51817", "oil-separation-static-18h"),
    ("ASTM D1264", "water-washout-79"),
    ("ASTM D4049", "water-spray-off"),
    ("ASTM D972", "evaporation-100"),
    ("ASTM D2595", "evaporation-177"),
    ("ASTM D2266", "four-ball-wear"),
    ("ASTM D2596", "four-ball-weld"),
    ("ASTM D2596", "load-wear-index"),
    ("ASTM D2509", "timken-ok-load"),
    ("ASTM D4170", "fretting-wear"),
    ("ASTM D1743", "rust-prevention"),
    ("ASTM D5969", "rust-prevention-sea-water"),
    ("ASTM D6138", "emcor-distilled-water"),
    ("ISO 11007", "emcor-salt-water"),
    ("ASTM D4048", "copper-strip"),
    ("ASTM D1478", "low-temperature-torque-start"),
    ("ASTM D4693", "wheel-bearing-torque-40"),
    ("DIN 51805", "flow-pressure-20"),
    ("ASTM D1263", "leakage-105"),
    ("ASTM D4290", "leakage-160"),
    ("ASTM D3527", "wheel-bearing-life"),
    ("ASTM D3336", "bearing-life"),
    ("DIN 51821", "fe9-life-140"),
    ("DIN 51777", "water-content"),
    ("ASTM D128", "free-alkali-lithium"),
    ("ASTM D128", "free-acid"),
    ("ASTM D4289", "elastomer-volume-cr"),
    ("ASTM D1092", "apparent-viscosity"),
    ("ISO 3104", "kinematic-viscosity-40"),
    ("ASTM D2270", "viscosity-index"),
]


@pytest.mark.parametrize(("designation", "code"), ASKED_FOR)
def test_each_of_these_methods_is_in_the_book(designation, code):
    assert code in method(designation)["characteristics"]


def test_there_are_thirty_methods_and_more_each_in_one_file():
    names = [it["designation"] for it in SHIPPED["methods"]]

    assert len(names) == len(set(names)) == 54
    assert len({designation for designation, _ in ASKED_FOR}) >= 30


@EVERY_EDITION
def test_what_a_method_measures_it_also_says_how(name):
    edition = EDITIONS[name]
    for code in edition["characteristics"]:
        for what in (What.DETERMINATIONS, What.COMBINING, What.BETTER):
            assert len(said(edition, code, what)) == 1, (code, what)
        ranged = [
            len(said(edition, code, what))
            for what in (What.PLAUSIBLE_FROM, What.PLAUSIBLE_TO)
        ]
        counted = kind_of(code) in (Kind.NUMBER, Kind.LADDER)
        assert ranged == ([1, 1] if counted else [0, 0]), code
        steps = said(edition, code, What.STEP)
        assert len(steps) == (1 if kind_of(code) == Kind.NUMBER else 0), code


@EVERY_EDITION
def test_each_figure_tells_its_source_and_its_standing(name):
    edition = EDITIONS[name]
    for row in (edition, *edition["figures"]):
        assert row["standing"] in MethodEdition.Standing.values
        assert 10 < len(row["source"]) <= 300
        if row["standing"] == "common practice":
            assert row["source"].startswith(("Common practice, no source", "House"))
        if row["standing"] == "published":
            assert "." in row["source"].split("(")[-1].split(")")[0], row["source"]
            assert "ecalled from" not in row["source"]


@EVERY_EDITION
def test_a_figure_from_memory_says_that_it_is_to_be_checked(name):
    remembered = [
        it for it in EDITIONS[name]["figures"] if it["standing"] == "from memory"
    ]

    assert all("the laboratory's own copy" in it["source"] for it in remembered)
    assert all("ecalled" in it["source"] for it in remembered)


@EVERY_EDITION
def test_the_step_is_that_of_the_characteristic(name):
    edition = EDITIONS[name]
    for code in edition["characteristics"]:
        for figure in said(edition, code, What.STEP):
            own = ROWS[code].get("parameters", {}).get("step", ROWS[code]["step"])
            check_step(figure["value"])
            assert figure["value"] == own, code
            assert own.startswith(ROWS[code]["step"]), code


@EVERY_EDITION
def test_a_mark_a_load_or_a_finding_is_never_averaged(name):
    edition = EDITIONS[name]
    for code in edition["characteristics"]:
        [way] = said(edition, code, What.COMBINING)
        if kind_of(code) == Kind.NUMBER:
            assert way["value"] == "mean"
        else:
            assert way["value"] in ("the worse", "two of three")
            assert not said(edition, code, What.SCHOOL)


@EVERY_EDITION
def test_a_precision_can_be_reckoned_and_is_above_nought(name):
    for figure in EDITIONS[name]["figures"]:
        if figure["what"] not in PRECISIONS:
            continue
        level = figure.get("level_from") or figure.get("level_to") or "1"
        assert read_expression(figure["value"]).at(Decimal(level)) > 0


@EVERY_EDITION
def test_a_repeat_rule_stands_only_where_repeatability_is_stated(name):
    edition = EDITIONS[name]
    for code in edition["characteristics"]:
        has_r = bool(said(edition, code, What.REPEATABILITY))
        schools = [it["value"] for it in said(edition, code, What.SCHOOL)]
        is_number = kind_of(code) == Kind.NUMBER
        assert schools == (["ISO 4259"] if has_r and is_number else []), code


@pytest.mark.django_db
def test_each_edition_could_have_been_written_on_screen():
    with_reference()
    known = {it.code: it for it in queries.characteristics()}
    for edition in MethodEdition.objects.select_related("method"):
        figures = queries.figures_of(queries.figures_in_force(edition))

        assert len(figures) == len(
            EDITIONS[f"{edition.method}-{edition.edition}"]["figures"]
        )
        check_whole(edition, figures, known)


@EVERY_CHARACTERISTIC
def test_a_procedure_carries_it_out_with_settings_that_it_knows(code):
    row = ROWS[code]
    procedure = PROCEDURES[row["procedure"]]
    parameters = row.get("parameters", {})
    known = {each.key: each for each in procedure.parameters}

    assert set(parameters) <= set(known)
    assert all(
        setting(parameters, known[key]) == text for key, text in parameters.items()
    )
    assert row["unit"] == parameters.get("unit", procedure.unit)
    assert kind_of(code) == (Kind.WORDS if code == "appearance" else procedure.kind)
    by_hand = procedure.slots(parameters) or procedure.conditions(parameters)
    assert by_hand or procedure.derive


@EVERY_CHARACTERISTIC
def test_some_edition_measures_it(code):
    assert any(code in edition["characteristics"] for edition in EDITIONS.values())


@EVERY_CHARACTERISTIC
def test_it_has_a_german_name_of_its_own(code):
    german = ROWS[code]["elsewhere"]["de"]

    assert german["name"]
    assert german["name"] != ROWS[code]["name"]
    assert bool(german["conditions"]) == bool(ROWS[code]["conditions"])


def test_no_two_characteristics_are_told_by_the_same_words():
    for words in (
        [(row["name"], row["conditions"]) for row in ROWS.values()],
        [(it["name"], it["conditions"]) for it in (r["elsewhere"]["de"] for r in ROWS.values())],
    ):  # fmt: skip
        assert len(set(words)) == len(words)
