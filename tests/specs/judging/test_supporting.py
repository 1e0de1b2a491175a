import json
from pathlib import Path

import pytest

from specs.judging import supporting
from specs.judging.letters import DIN, FROM_MEMORY, ISO, PUBLISHED
from specs.judging.stated import Stated
from specs.judging.supporting import supported

WORKED = Stated("worked-penetration", "265", "295", "60 double strokes, 25 °C")
WELD = Stated("four-ball-weld", lower="200", name="Weld load")
COLD = Stated("flow-pressure-30", upper="1400", conditions="−30 °C")
WASHOUT = Stated("water-washout-79", upper="5", conditions="79 °C")
RUST = Stated("rust-prevention", name="Rust")


def life(degrees, hours="100"):
    return Stated(f"fe9-life-{degrees}", lower=hours, conditions=f"F50, {degrees} °C")


def water(rating, degrees):
    return Stated(
        f"water-resistance-{degrees}", upper=rating, conditions=f"3 h, {degrees} °C"
    )


def signs(standard, place, *stated):
    (found,) = [it for it in supported(stated).of(standard) if it.place == place]
    return found.signs


def support(standard, place, *stated):
    (found,) = [it for it in supported(stated).of(standard) if it.place == place]
    return found


def test_each_place_of_both_symbols_is_told_in_its_order():
    found = supported([])

    assert [it.place for it in found.of(DIN)] == [
        "use", "additives", "NLGI number", "upper temperature and water", "lower temperature",
    ]  # fmt: skip
    assert [it.place for it in found.of(ISO)] == [
        "lower temperature", "upper temperature", "water and rust", "load", "NLGI number",
    ]  # fmt: skip


def test_nothing_supports_more_than_the_absence_of_a_demand():
    told = {
        (it.standard, it.place): it.signs for it in supported([]).letters if it.signs
    }

    assert told == {(ISO, "water and rust"): ("A",), (ISO, "load"): ("A",)}
    assert all(it.by for it in supported([]).letters)


def test_a_whole_specification_supports_a_whole_symbol_but_its_use():
    stated = (WORKED, WELD, COLD, WASHOUT, RUST, life(120), water("1", 90))
    found = supported(stated)

    assert found.aim.grade == "2"
    assert [it.signs for it in found.of(DIN)] == [(), ("P",), ("2",), ("K",), ("-30",)]
    assert [it.signs for it in found.of(ISO)] == [
        ("C",),
        ("C",),
        ("H",),
        ("B",),
        ("2",),
    ]


def test_each_letter_names_its_requirement():
    stated = (WORKED, WELD, COLD, WASHOUT, RUST, life(120), water("1", 90))
    by = {(it.standard, it.place): it.by for it in supported(stated).letters}

    assert by[DIN, "additives"] == "Weld load: at least 200"
    assert by[DIN, "lower temperature"] == "flow-pressure-30, −30 °C: at most 1400"
    assert by[DIN, "upper temperature and water"] == (
        "fe9-life-120, F50, 120 °C: at least 100; water-resistance-90, 3 h, 90 °C: at most 1"
    )
    assert by[ISO, "water and rust"] == "water-washout-79, 79 °C: at most 5; Rust"
    assert by[ISO, "NLGI number"] == "265 to 295 lies in NLGI 2, 265 to 295"


def test_what_rests_on_memory_is_told():
    standings = {
        it.place: it.standing for it in supported([WORKED, WELD, COLD]).letters
    }

    assert standings["NLGI number"] == standings["use"] == PUBLISHED
    assert {it for place, it in standings.items() if place not in ("use", "NLGI number")} == {FROM_MEMORY}  # fmt: skip
    assert "laboratory's own copy" in support(DIN, "additives", WELD).note


@pytest.mark.parametrize(
    ("stated", "words"),
    [
        ((), "no limits of worked penetration are stated"),
        ((Stated("unworked-penetration", "265", "295"),), "no limits of worked"),
        ((Stated("worked-penetration", "265"),), "at least 265; a number needs both ends"),
        ((Stated("worked-penetration", "", "295"),), "at most 295; a number needs both"),
        ((Stated("worked-penetration", "265", ">295"),), "a number needs both ends"),
        ((Stated("worked-penetration", "220", "340"),), "reaches into NLGI 1, 2, 3"),
    ],
)  # fmt: skip
def test_limits_that_aim_at_no_number_say_why(stated, words):
    found = supported(stated)

    assert found.aim.grade is None
    assert words in found.aim.says
    assert (
        signs(DIN, "NLGI number", *stated) == signs(ISO, "NLGI number", *stated) == ()
    )


@pytest.mark.parametrize(
    ("stated", "din", "iso"),
    [
        (WELD, ("P",), ("B",)),
        (Stated("load-wear-index", lower="30"), ("P",), ("B",)),
        (Stated("four-ball-weld", upper="200"), (), ("A",)),
        (Stated("four-ball-wear", lower="0.6"), (), ("A",)),
    ],
)
def test_a_least_load_supports_extreme_pressure(stated, din, iso):
    assert signs(DIN, "additives", stated) == din
    assert signs(ISO, "load", stated) == iso


@pytest.mark.parametrize(
    ("degrees", "pressure", "din", "iso"),
    [
        ("0", "1400", (), ("A",)),
        ("-10", "1400", ("-10",), ("A",)),
        ("-20", "1400", ("-20",), ("B",)),
        ("−25", "1400", ("-20",), ("B",)),
        ("–30", "1400", ("-30",), ("C",)),
        ("-40", "1400", ("-40",), ("D",)),
        ("-41", "1400", ("-40",), ("E",)),
        ("-60", "1400", ("-60",), ("E",)),
        ("-73", "1400", ("-60",), ("E",)),
        ("20", "1400", (), ()),
        ("-30", "1401", (), ()),
        ("-30", "", (), ()),
        ("-30", "1000", ("-30",), ("C",)),
    ],
)
def test_a_flow_pressure_supports_the_lower_temperature(degrees, pressure, din, iso):
    stated = Stated("flow-pressure", upper=pressure, conditions=f"{degrees} °C")

    assert signs(DIN, "lower temperature", stated) == din
    assert signs(ISO, "lower temperature", stated) == iso


def test_the_coldest_and_the_hottest_count():
    warmer = Stated("flow-pressure-20", upper="1400", conditions="-20 °C")

    assert signs(DIN, "lower temperature", warmer, COLD) == ("-30",)
    assert signs(DIN, "lower temperature", COLD, warmer) == ("-30",)
    assert signs(ISO, "upper temperature", life(120), life(140)) == ("D",)
    assert signs(ISO, "upper temperature", life(140), life(120)) == ("D",)


@pytest.mark.parametrize(
    ("degrees", "din", "iso"),
    [
        (59, (), ()),
        (60, ("C", "D"), ("A",)),
        (80, ("E", "F"), ("A",)),
        (90, ("E", "F"), ("B",)),
        (100, ("G", "H"), ("B",)),
        (120, ("K", "M"), ("C",)),
        (130, ("K", "M"), ("C",)),
        (140, ("N",), ("D",)),
        (160, ("P",), ("E",)),
        (180, ("R",), ("F",)),
        (181, ("R",), ("G",)),
        (200, ("S",), ("G",)),
        (220, ("T",), ("G",)),
        (221, ("U",), ("G",)),
    ],
)
def test_a_bearing_life_supports_the_upper_temperature(degrees, din, iso):
    assert signs(DIN, "upper temperature and water", life(degrees)) == din
    assert signs(ISO, "upper temperature", life(degrees)) == iso


@pytest.mark.parametrize("hours", ["", "99", "many"])
def test_too_short_a_life_supports_nothing(hours):
    assert signs(ISO, "upper temperature", life(140, hours)) == ()
    found = support(ISO, "upper temperature", Stated("fe9", lower="100"))
    assert found.signs == ()
    assert "a dropping point does not stand for it" in found.by


def test_a_dropping_point_supports_no_letter():
    stated = Stated("dropping-point-block", lower="260", conditions="aluminium block")

    assert supported([stated]) == supported([])


@pytest.mark.parametrize(
    ("degrees", "rating", "at", "letters"),
    [
        (120, "0", 90, ("K",)),
        (120, "1", 90, ("K",)),
        (120, "2", 90, ("M",)),
        (120, "1", 40, ("K", "M")),
        (80, "1", 40, ("E",)),
        (80, "2", 40, ("F",)),
        (80, "1", 90, ("E", "F")),
        (80, "", 40, ("E", "F")),
        (140, "1", 90, ("N",)),
    ],
)
def test_a_water_rating_decides_between_two_letters(degrees, rating, at, letters):
    found = support(
        DIN, "upper temperature and water", life(degrees), water(rating, at)
    )

    assert found.signs == letters
    assert ("decides between the two" in found.by) is (len(letters) == 2)


@pytest.mark.parametrize(("rating", "letter"), [("1", "G"), ("3", "H")])
def test_the_conflict_about_100_degrees_is_told(rating, letter):
    place = "upper temperature and water"

    decided = support(DIN, place, life(100), water(rating, 40))
    open_ = support(DIN, place, life(100))

    assert decided.signs == (letter,)
    assert open_.signs == ("G", "H")
    for found in (decided, open_):
        assert "published at 40 °C" in found.note
    assert support(DIN, place, life(120)).note == ""


@pytest.mark.parametrize(
    ("stated", "letter"),
    [
        ((), "A"),
        ((RUST,), "B"),
        ((Stated("emcor-distilled-water", upper="1"),), "B"),
        ((Stated("emcor-distilled-water", upper="2"),), "A"),
        ((Stated("emcor-distilled-water"),), "A"),
        ((Stated("emcor-salt-water", upper="1"),), "C"),
        ((water("1", 40),), "D"),
        ((water("2", 40),), "A"),
        ((water("1", 40), RUST), "E"),
        ((water("1", 40), RUST, Stated("emcor-sea-water", upper="0")), "F"),
        ((WASHOUT,), "G"),
        ((Stated("water-washout-79", lower="5"),), "A"),
        ((WASHOUT, RUST, water("1", 40)), "H"),
        ((WASHOUT, Stated("emcor-salt-water", upper="1")), "I"),
    ],
)
def test_water_and_rust_make_one_letter_of_iso_6743_9(stated, letter):
    assert signs(ISO, "water and rust", *stated) == (letter,)


def test_the_life_of_a_wheel_bearing_is_another_test():
    stated = Stated("wheel-bearing-life", lower="100", conditions="160 °C")

    assert supported([stated]) == supported([])


def test_the_method_book_has_a_characteristic_for_each_word():
    path = Path(__file__).parents[3] / "fixtures" / "reference" / "characteristics.json"
    codes = [Stated(row["code"]) for row in json.loads(path.read_text("utf-8"))]

    for word in (
        *supporting._LOADS,
        *supporting._FLOW,
        *supporting._LIFE,
        *supporting._WATER,
        *supporting._WASHOUT,
        *supporting._RUST_FINDING,
        *supporting._RUST_RATING,
        *supporting._SALT,
        supporting._WORKED,
    ):
        assert any(code.is_of([word]) for code in codes), word
