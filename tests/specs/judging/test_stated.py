from decimal import Decimal

import pytest

from specs.judging.stated import Stated


def test_the_code_is_known_by_whole_words():
    assert Stated("emcor-salt-water").is_of(("salt",))
    assert not Stated("emcor-saltless").is_of(("salt",))
    assert Stated("emcor-salt-water").is_of(("sea-water", "salt-water"))
    assert not Stated("thrust-bearing").is_of(("rust",))


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        (
            Stated("worked-penetration", "265", "295", "60 double strokes, 25 °C"),
            "worked-penetration, 60 double strokes, 25 °C: 265 to 295",
        ),
        (
            Stated("four-ball-weld", lower="200", name="Weld load"),
            "Weld load: at least 200",
        ),
        (
            Stated("water-washout-79", upper="5", conditions="79 °C"),
            "water-washout-79, 79 °C: at most 5",
        ),
        (Stated("rust-prevention", name="Rust"), "Rust"),
    ],
)
def test_a_requirement_is_told_with_its_limits(stated, told):
    assert str(stated) == told


def test_the_last_temperature_of_the_conditions_is_meant():
    assert Stated("fe9", conditions="25 °C, then 140°C").degrees == 140
    assert Stated("fe9", conditions="6000 /min").degrees is None


@pytest.mark.parametrize(
    ("text", "number"),
    [("265", 265), ("0,5", Decimal("0.5")), ("", None), ("pass", None), ("<2", None)],
)
def test_a_limit_is_a_number_or_none(text, number):
    stated = Stated("any", text, text)

    assert (stated.least, stated.most) == (number, number)
