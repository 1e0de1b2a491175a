"""What a column is proposed to be, by its head, else by what stands in it."""

import json
from pathlib import Path

import pytest

from specs.tables.finding.headings import fitting_unit, proposed
from specs.tables.finding.tables import blocks_of
from specs.tables.known import Measured, Role, Use
from specs.tables.sheet import DAY
from tests.specs.tables.typed import known_of, measured, sheet_of

FIXTURES = Path(__file__).parents[4] / "fixtures" / "reference"
ALL = [
    Measured(it["code"], it["name"], it["conditions"], it["unit"])
    for it in json.loads((FIXTURES / "characteristics.json").read_text("utf-8"))
]
KNOWN = known_of(*ALL, products=["LX2", "PU2"])


def uses_of(text, known=KNOWN, **more):
    sheet = sheet_of(text, **more)
    (block,) = blocks_of(sheet)
    return proposed(block, sheet, known)


def use_of(heading, known=KNOWN):
    return uses_of(f"Batch;{heading}\nQ1-25-0377;1", known)["B"]


@pytest.mark.parametrize(
    ("heading", "code"),
    [
        ("Pen W60", "worked-penetration"), ("Worked penetration", "worked-penetration"),
        ("Walkpenetration", "worked-penetration"), ("Pen", "worked-penetration"),
        ("Penetration 60 x", "worked-penetration"), ("P60", "worked-penetration"),
        ("Pen 100k", "prolonged-penetration-100000"), ("Pen. 100 000 strokes", "prolonged-penetration-100000"),
        ("Penetration 100.000 DH", "prolonged-penetration-100000"), ("Pen 10k", "prolonged-penetration-10000"),
        ("Pen change 100k", "penetration-change-100000"), ("Δ Pen 10 000", "penetration-change-10000"),
        ("Ruhpenetration", "unworked-penetration"), ("Unworked pen", "unworked-penetration"),
        ("Pen 1/2 cone", "worked-penetration-half"), ("Block pen", "block-penetration"),
        ("Drop pt", "dropping-point-block"), ("Dropping point", "dropping-point-block"),
        ("Tropfpunkt [°C]", "dropping-point-block"), ("DP", "dropping-point-block"), ("Drop pt D566", "dropping-point-block"),
        ("Dropping point 566", "dropping-point-bath"), ("Ox. 100h", "oxidation-drop"), ("Oxidation kPa", "oxidation-drop"),
        ("Oxidation, pressure drop", "oxidation-drop"), ("PDSC 180 °C", "oxidation-induction-180"),
        ("Cu strip", "copper-strip"), ("Kupferstreifen", "copper-strip"), ("oil sep", "oil-separation"),
        ("Ölabscheidung %", "oil-separation"), ("Oil bleed 18h/40", "oil-separation-static-18h"),
        ("Water washout 79", "water-washout-79"), ("Wash-out 38 °C", "water-washout-38"), ("Spray-off", "water-spray-off"),
        ("EMCOR", "emcor-distilled-water"), ("EMCOR salt", "emcor-salt-water"), ("Rust", "rust-prevention"),
        ("4-ball weld", "four-ball-weld"), ("VKA Schweißlast", "four-ball-weld"), ("Wear scar mm", "four-ball-wear"),
        ("LWI", "load-wear-index"), ("Timken", "timken-ok-load"), ("KV40", "kinematic-viscosity-40"),
        ("KV 100 °C", "kinematic-viscosity-100"), ("VI", "viscosity-index"), ("Water ppm", ""), ("Wasser", "water-content"),
        ("Fließdruck -30", "flow-pressure-30"), ("Roll stability", "roll-stability"), ("Aussehen", "appearance"),
        ("Evaporation 22h 100°C", "evaporation-100"), ("copper-strip", "copper-strip"),
    ],
)  # fmt: skip
def test_the_words_of_the_trade_name_a_characteristic(heading, code):
    use = use_of(heading)

    wanted = Use(Role.RESULT, code, use.unit) if code else Use(Role.LEFT_OUT)
    assert use == wanted


@pytest.mark.parametrize(
    "heading",
    ["Weather", "Oil", "Washout", "Evaporation", "Viscosity", "Pen after 24 h rest", "", "Speed 60", "Torque"],
)  # fmt: skip
def test_what_no_word_decides_is_left_to_the_person(heading):
    assert use_of(heading) == Use(Role.LEFT_OUT)


@pytest.mark.parametrize(
    ("heading", "role"),
    [
        ("Datum", Role.DAY), ("Test date", Role.DAY), ("Prüfdatum", Role.DAY), ("Produkt", Role.PRODUCT),
        ("Grease", Role.PRODUCT), ("Kettle", Role.KETTLE), ("Kessel-Nr.", Role.KETTLE), ("Where", Role.PLACE),
        ("Stelle", Role.PLACE), ("Analyst", Role.PERSON), ("Laborant", Role.PERSON), ("Tested by", Role.PERSON),
        ("Instrument", Role.INSTRUMENT), ("Gerät", Role.INSTRUMENT), ("Penetrometer", Role.INSTRUMENT),
        ("Remark", Role.REMARK), ("Bemerkungen", Role.REMARK), ("Fill lot", Role.PACK), ("Gebinde", Role.PACK),
    ],
)  # fmt: skip
def test_the_words_of_the_trade_name_a_role(heading, role):
    assert use_of(heading) == Use(role)


@pytest.mark.parametrize(
    "heading",
    [
        "Batch",
        "Batch No.",
        "BATCH #",
        "Lot",
        "Charge",
        "Chargen-Nr.",
        "Charge Nr",
        "Partie",
    ],
)
def test_batches_have_many_names(heading):
    uses = uses_of(f"{heading};Pen\nQ1-25-0377;280")

    assert uses["A"] == Use(Role.BATCH)


@pytest.mark.parametrize(
    ("heading", "unit"),
    [
        ("Pen W60 (0,1 mm)", "0.1 mm"), ("Pen W60 [mm]", "mm"), ("Pen W60", ""), ("Pen W60, 1/10 mm", "0.1 mm"),
        ("Ox. 100h (kPa)", "kPa"), ("Ox. 100h / bar", "bar"), ("Ox. 100h psi", "psi"), ("Ox. 100h", ""),
        ("Ox. 100 h", ""), ("Drop pt in °F", "°F"), ("Drop pt (C)", "°C"), ("Oil sep %", "mass %"),
        ("Oil sep (100 °C)", ""), ("Oil sep 30 h, 100 °C", ""), ("Oil sep [Gew.-%]", "mass %"), ("Oil sep (kPa)", ""),
    ],
)  # fmt: skip
def test_units_in_the_head_are_heeded_and_conditions_are_none(heading, unit):
    use = use_of(heading)

    assert use.role is Role.RESULT
    assert use.unit == unit


def test_the_laboratorys_own_name_goes_before_the_words_of_the_trade():
    known = known_of(
        measured("house-pen", "Pen W60"),
        measured("worked-penetration", "Worked penetration"),
    )

    assert use_of("Pen W60", known).characteristic == "house-pen"


def test_a_name_that_several_have_decides_nothing():
    known = known_of(
        measured("a", "Torque", "", "start"), measured("b", "Torque", "", "run")
    )

    assert use_of("Torque", known) == Use(Role.LEFT_OUT)
    assert use_of("Torque start", known).characteristic == "a"


def test_only_what_the_laboratory_measures_is_proposed():
    assert use_of("Pen W60", known_of()) == Use(Role.LEFT_OUT)
    bath = known_of(measured("dropping-point-bath", "Dropping point"))
    assert use_of("Drop pt", bath).characteristic == "dropping-point-bath"


def test_each_is_proposed_once_and_remarks_as_often_as_they_come():
    uses = uses_of(
        "Batch;Date;Datum;Pen;Pen W60;Remark;Note\nQ1-25-0377;2025-12-03;2025-12-04;1;2;a;b"
    )

    roles = [it.role for it in uses.values()]
    assert roles.count(Role.DAY) == 1
    assert roles.count(Role.RESULT) == 1
    assert roles.count(Role.REMARK) == 2
    assert uses["C"] == Use(Role.LEFT_OUT)


def test_products_days_and_batches_are_told_by_what_stands_there():
    uses = uses_of(
        "Q1-25-0377;03.12.2025;LX2;280\nQ1-25-0378;04.12.2025;PU2;281\nQ1-25-0379;05.12.2025;LX2;281"
    )

    assert [it.role for it in uses.values()] == [
        Role.BATCH, Role.DAY, Role.PRODUCT, Role.LEFT_OUT,
    ]  # fmt: skip


def test_a_few_cells_do_not_speak_for_a_column():
    rows = ["LX2;3.12.2025;A-1001", *["high;low;fine"] * 3]

    assert {it.role for it in uses_of("\n".join(rows)).values()} == {Role.LEFT_OUT}


def test_typed_days_are_days_and_plain_numbers_are_none():
    days = uses_of("2025-12-03;46009\n2025-12-04;46010", kinds={"A1": DAY, "A2": DAY})

    assert [it.role for it in days.values()] == [Role.DAY, Role.LEFT_OUT]


def test_every_column_has_a_use_whatever_stands_in_it():
    assert uses_of("x;y\n;\n1;2") == {"A": Use(Role.LEFT_OUT), "B": Use(Role.LEFT_OUT)}


@pytest.mark.parametrize(
    ("stated", "wanted", "unit"),
    [("%", "mass %", "mass %"), ("%", "kPa", ""), ("psi", "kPa", "psi"), ("mm", "kPa", ""), ("", "kPa", ""), ("mN·m", "mN·m", "mN·m"), ("", "", "")],
)  # fmt: skip
def test_a_unit_counts_only_for_what_it_measures(stated, wanted, unit):
    assert fitting_unit(stated, wanted) == unit
