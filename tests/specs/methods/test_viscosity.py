import math
from decimal import Decimal
from fractions import Fraction

import pytest
from chemicals.viscosity import VI_Hs, VI_Ls, VI_nus
from chemicals.viscosity import viscosity_index as public_index
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.catalogue import procedure
from specs.methods.viscosity import ViscosityRefused, basic_values, viscosity_index
from specs.methods.viscosity_table import POINTS
from specs.numbers import read
from tests.specs.methods.bench import bar_keys, carried_out

# ASTM D2270, Appendix X2: L = a Y² + b Y + c and H = d Y² + e Y + f between two Y
QUADRATICS = [
    ("2.0", "3.8", "1.14673", "1.7576", "-0.109", "0.84155", "1.5521", "-0.077"),
    ("3.8", "4.4", "3.38095", "-15.4952", "33.196", "0.78571", "1.7929", "-0.183"),
    ("4.4", "5.0", "2.5000", "-7.2143", "13.812", "0.82143", "1.5679", "0.119"),
    ("5.0", "6.4", "0.10100", "16.6350", "-45.469", "0.04985", "9.1613", "-18.557"),
    ("6.4", "7.0", "3.35714", "-23.5643", "78.466", "0.22619", "7.7369", "-16.656"),
    ("7.0", "7.7", "0.01191", "21.4750", "-72.870", "0.79762", "-0.7321", "14.610"),
    ("7.7", "9.0", "0.41858", "16.1558", "-56.040", "0.05794", "10.5156", "-28.240"),
    ("9.0", "12", "0.88779", "7.5527", "-16.600", "0.26665", "6.7015", "-10.810"),
    ("12", "15", "0.76720", "10.7972", "-38.180", "0.20073", "8.4658", "-22.490"),
    ("15", "18", "0.97305", "5.3135", "-2.200", "0.28889", "5.9741", "-4.930"),
    ("18", "22", "0.97256", "5.2500", "-0.980", "0.24504", "7.4160", "-16.730"),
    ("22", "28", "0.91413", "7.4759", "-21.820", "0.20323", "9.1267", "-34.230"),
    ("28", "40", "0.87031", "9.7157", "-50.770", "0.18411", "10.1015", "-46.750"),
    ("40", "55", "0.84703", "12.6752", "-133.310", "0.17029", "11.4866", "-80.620"),
    ("55", "70", "0.85921", "11.1009", "-83.190", "0.17130", "11.3680", "-76.940"),
]


def test_the_table_is_that_of_the_public_library_point_by_point():
    public = list(zip(VI_nus, VI_Ls, VI_Hs, strict=True))

    assert len(POINTS) == len(public) == 311
    for ours, theirs in zip(POINTS, public, strict=True):
        assert tuple(map(float, ours)) == theirs


@pytest.mark.parametrize("row", QUADRATICS, ids=lambda row: f"{row[0]} to {row[1]}")
def test_the_table_follows_the_quadratics_of_the_standard(row):
    low, high, a, b, c, d, e, f = map(Decimal, row)
    within = [point for point in POINTS if low <= point[0] <= high]

    assert len(within) >= 5
    for y, l_value, h_value in within:
        assert abs(a * y * y + b * y + c - l_value) <= l_value * Decimal("0.0012")
        assert abs(d * y * y + e * y + f - h_value) <= h_value * Decimal("0.0012")


@pytest.mark.parametrize(
    "kv100", [2, 2.05, 3.33, 5.05, 8.86, 11.1, 14.96, 33.3, 69.9, 75, 140]
)
@pytest.mark.parametrize("share", [0.4, 0.7, 0.95, 1.2, 1.7, 2.4])
def test_the_index_is_that_of_the_public_library(kv100, share):
    _, high = basic_values(Fraction(str(kv100)))
    kv40 = round(kv100 + (float(high) - kv100) * share, 3)

    found = viscosity_index(Decimal(str(kv40)), Decimal(str(kv100)))

    theirs = public_index(kv40 * 1e-6, kv100 * 1e-6)
    assert float(found.value) == pytest.approx(theirs, rel=1e-9, abs=1e-9)


def test_procedure_b_is_the_formula_in_floats():
    found = viscosity_index(Decimal("22.83"), Decimal("5.05"))
    power = math.log(28.975 / 22.83) / math.log(5.05)

    assert found.by == "B"
    assert float(found.value) == pytest.approx((10**power - 1) / 0.00715 + 100)


def test_l_and_h_are_not_rounded():
    low, high = basic_values(Fraction("5.05"))

    assert (low, high) == (Fraction("41.11"), Fraction("28.975"))


def test_at_70_the_table_holds_and_above_it_the_formulas():
    assert basic_values(Fraction(70)) == (4905, 1558)
    assert basic_values(Fraction("70.01"))[0] == (
        Fraction("0.8353") * Fraction("70.01") ** 2
        + Fraction("14.67") * Fraction("70.01")
        - 216
    )


@pytest.mark.parametrize(
    ("kv40", "by"), [("95.19", "A"), ("95.1901", "A"), ("95.1899", "B")]
)
def test_the_procedure_is_chosen_by_kv40_against_h(kv40, by):
    found = viscosity_index(Decimal(kv40), Decimal("11.0"))

    assert found.by == by
    assert abs(found.value - 100) < Decimal("0.001")


@pytest.mark.parametrize(
    ("kv40", "kv100", "words"),
    [
        (
            "6",
            "1.9",
            "1.9 mm²/s at 100 °C is below 2: there the viscosity index is not",
        ),
        ("6", "1.99999", "not defined"),
        ("6", "0", "not defined"),
        ("6", "-3", "not defined"),
        ("8.86", "8.86", "8.86 mm²/s at 40 °C is not above 8.86 mm²/s at 100 °C"),
        ("8.86", "73.3", "See whether the two are exchanged"),
    ],
)
def test_what_has_no_index_is_refused_in_words(kv40, kv100, words):
    with pytest.raises(ViscosityRefused) as refusal:
        viscosity_index(Decimal(kv40), Decimal(kv100))

    assert words in refusal.value.sentence


def test_two_at_100_degrees_is_just_enough():
    assert viscosity_index(Decimal("6.394"), Decimal(2)).reported == 100


@given(st.decimals("2", "100", places=2), st.decimals("0.01", "0.99", places=2))
def test_a_thinner_oil_at_40_has_the_higher_index(kv100, share):
    low, _ = basic_values(Fraction(kv100))
    thick = Decimal(int(low * 100)) / 100
    thin = (thick * share).quantize(Decimal("0.01"))
    if thin <= kv100:
        return

    assert viscosity_index(thin, kv100).value > viscosity_index(thick, kv100).value


def index_of(**values):
    typed = {role: read(text) for role, text in values.items()}
    return procedure("viscosity index").derive(typed, {})


def test_the_index_is_derived_from_both_viscosities():
    outcome = index_of(kv40="73.30", kv100="8.86")

    assert outcome.reported.canonical == "92"
    assert outcome.value.canonical.startswith("92.429647")
    assert outcome.can_count
    assert (
        outcome.says
        == "from 73.3 mm²/s at 40 °C and 8.86 mm²/s at 100 °C by procedure A"
    )
    assert outcome.parts == {"L": "119.94", "H": "69.48", "procedure": "A"}


@pytest.mark.parametrize(("missing", "degrees"), [("kv40", "40"), ("kv100", "100")])
def test_a_missing_viscosity_is_asked_for(missing, degrees):
    values = {"kv40": "73.30", "kv100": "8.86"}
    del values[missing]

    outcome = index_of(**values)

    assert not outcome.complete
    assert outcome.asks == (
        f"The kinematic viscosity at {degrees} °C is still to be measured.",
    )


@pytest.mark.parametrize(
    ("kv40", "kv100"), [("5", "1.9"), (">100", "8"), ("100", "<8"), ("8", "80")]
)
def test_without_an_index_nothing_counts(kv40, kv100):
    outcome = index_of(kv40=kv40, kv100=kv100)

    assert bar_keys(outcome) == ["index"]
    assert outcome.value is None
    assert not outcome.can_count


VISCOMETER = {"viscometer": "VIS-1"}


def measured(conditions=VISCOMETER, **readings):
    return carried_out("kinematic viscosity", readings, conditions=conditions)


def test_two_viscosities_are_averaged_and_reported_to_four_figures():
    outcome = measured(kv_1="73.28", kv_2="73.33")

    assert outcome.value.canonical == outcome.parts["mean"] == "73.305"
    assert outcome.reported.canonical == "73.30"
    assert outcome.says == "mean of 73.28 and 73.33"
    assert outcome.can_count


def test_one_viscosity_is_enough():
    outcome = measured(kv_1="8.8649")

    assert outcome.reported.canonical == "8.865"
    assert outcome.says == "one determination"


def test_a_missing_viscometer_is_asked_for():
    outcome = measured(conditions={}, kv_1="8.86")

    assert not outcome.complete
    assert outcome.asks == ("Viscometer is still to be given.",)


def test_a_second_without_a_first_is_no_viscosity_yet():
    assert not measured(kv_2="8.86").complete


@pytest.mark.parametrize("text", ["0", "-5", ">8", "<8"])
def test_a_viscosity_is_a_plain_number_above_nought(text):
    outcome = measured(kv_1="8.86", kv_2=text)

    assert bar_keys(outcome) == ["reading"]
    assert not outcome.can_count


def test_an_implausible_viscosity_is_questioned():
    assert "outside 1 to 5000" in measured(kv_1="0.886").asks[0]
    assert measured(kv_1="1").asks == measured(kv_1="5000").asks == ()
