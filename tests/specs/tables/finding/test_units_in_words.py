"""Units as people write them in heads and beneath them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.tables.finding.unit_words import unit_in, unit_of


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("kPa", "kPa"), ("[kPa]", "kPa"), ("( °C )", "°C"), ("ºC", "°C"), ("degC", "°C"), ("0,1 mm", "0.1 mm"),
        ("0.1mm", "0.1 mm"), ("1/10 mm", "0.1 mm"), ("dmm", "0.1 mm"), ("%", "%"), ("% (m/m)", "mass %"),
        ("wt %", "mass %"), ("Gew.-%", "mass %"), ("PSI", "psi"), ("psi", "psi"), ("mm2/s", "mm²/s"), ("cSt", "cSt"),
        ("MPa", "MPa"), ("mPa", ""), ("mPa·s", "mPa·s"), ("Nm", "N·m"), ("nm", ""), ("kp/cm²", "kgf/cm²"), ("kgf/cm2", "kgf/cm²"),
        ("h", "h"), ("", ""), ("-", ""), ("units", ""), ("C", ""), ("x" * 30, ""), ("1b", ""), ("ok", ""),
    ],
)  # fmt: skip
def test_what_a_text_names(text, unit):
    assert unit_of(text) == unit


@pytest.mark.parametrize(
    ("heading", "unit"),
    [
        ("Drop (kPa)", "kPa"), ("Pen [0,1 mm]", "0.1 mm"), ("Pen, 0,1 mm", "0.1 mm"), ("T / °C", "°C"),
        ("T in °C", "°C"), ("Loss %", "%"), ("Loss % (m/m)", "mass %"), ("Ox 100 h", ""), ("Cu strip (24 h, 100 °C)", ""),
        ("KV 40 °C", ""), ("KV 40  °C", ""), ("KV40 mm²/s", "mm²/s"), ("KV 40 °C (mm²/s)", "mm²/s"), ("Analyst K", ""),
        ("(60) (kPa)", "kPa"), ("", ""), ("kPa", ""),
    ],
)  # fmt: skip
def test_what_a_heading_states_beside_its_words(heading, unit):
    assert unit_in(heading) == unit


@given(st.text(max_size=200))
def test_any_text_is_looked_at(text):
    assert isinstance(unit_in(text), str)
    assert isinstance(unit_of(text), str)
