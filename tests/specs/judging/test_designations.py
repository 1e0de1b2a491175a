import itertools

import pytest

from specs.judging.designations import DesignationRefused, decode, differences
from specs.judging.grades import NLGI
from specs.judging.letters import (
    DIN,
    DIN_ADDITIVES,
    DIN_LOWER,
    DIN_UPPER,
    DIN_USES,
    DIN_WATER,
    FROM_MEMORY,
    ISO,
    ISO_LOAD,
    ISO_LOWER,
    ISO_UPPER,
    ISO_WATER,
    PUBLISHED,
    Heat,
)


def meanings(text):
    return {part.sign: part.meaning for part in decode(text).parts}


def test_a_symbol_of_din_51502_is_told_letter_by_letter():
    decoded = decode("KPF2K-30")

    assert [part.sign for part in decoded.parts] == [*"KPF2KK", "-30"]
    assert decoded.sentence == (
        "KPF2K-30 (DIN 51502): for rolling and plain bearings and sliding surfaces; "
        "additives against wear and for extreme pressure; a solid lubricant; NLGI "
        "number 2; upper temperature 120 °C; water rating 0-90 or 1-90; lower "
        "temperature −30 °C."
    )


def test_a_code_of_iso_6743_9_is_told_letter_by_letter():
    """GB 7324-1994: greases for -20 to 120 °C are coded L-XBCHA."""
    decoded = decode("ISO-L-XBCHA 2")

    assert [part.sign for part in decoded.parts] == [*"BCHA2"]
    assert decoded.sentence == (
        "ISO-L-XBCHA 2 (ISO 6743-9): lower temperature −20 °C; upper temperature "
        "120 °C; water washing, protection against rust in fresh water; no extreme "
        "pressure; NLGI number 2."
    )


@pytest.mark.parametrize("number", ["1", "2", "3"])
def test_the_codes_of_gb_7324_are_read(number):
    decoded = decode(f"L-XBCHA {number}")

    assert (decoded.number, decoded.is_ep) == (number, False)
    assert (decoded.lower, decoded.upper) == (Heat(-20), Heat(120))
    assert [part.meaning.standing for part in decoded.parts] == [
        PUBLISHED, PUBLISHED, FROM_MEMORY, FROM_MEMORY, PUBLISHED,
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text", ["ISO-L-XBCHA 2", "iso l xbcha 2", "L-XBCHA2", "XBCHA-2", "ISO-L-X-BCHA 2"]
)
def test_spaces_and_small_letters_do_not_matter(text):
    assert decode(text).parts == decode("ISO-L-XBCHA 2").parts
    assert decode(" kpf 2 k –30").parts == decode("KPF2K-30").parts
    assert decode("KPF2K−30").symbol == "KPF2K-30"


@pytest.mark.parametrize(
    ("text", "letters"),
    [
        ("K2K-20", ["K"]),
        ("KHC2N-40", ["K", "HC"]),
        ("KPHC2N-40", ["K", "P", "HC"]),
        ("KPH2N-40", ["K", "PH"]),
        ("KPPH2N-40", ["K", "P", "PH"]),
        ("KPG2K-20", ["K", "PG"]),
        ("MFK2U-20", ["M", "FK"]),
        ("KFFK2U-20", ["K", "F", "FK"]),
        ("KSI3R-30", ["K", "SI"]),
        ("KXE1K-30", ["K", "X", "E"]),
        ("G00E-20", ["G"]),
        ("OG0C-10", ["OG"]),
        ("OGP0C-10", ["OG", "P"]),
    ],
)
def test_letters_of_use_additives_and_oil_are_told_apart(text, letters):
    signs = [part.sign for part in decode(text).parts]

    assert signs[: len(letters)] == letters
    assert signs[len(letters)].isdigit()


@pytest.mark.parametrize(
    ("text", "is_ep"),
    [("KP2K-30", True), ("KPF2K-30", True), ("K2K-30", False), ("KPG2K-30", False),
     ("KPH2K-30", False), ("KPHC2K-30", True), ("L-XBCHB 2", True), ("L-XBCHA 2", False)],
)  # fmt: skip
def test_extreme_pressure_is_p_or_b(text, is_ep):
    assert decode(text).is_ep is is_ep


def test_every_letter_of_din_51502_has_its_meaning():
    heats = dict(zip("CDEFGHKMNPRST", (60, 60, 80, 80, 100, 100, 120, 120, 140, 160, 180, 200, 220), strict=True))  # fmt: skip

    for letter, lower, (number, _, _) in itertools.product(DIN_UPPER, DIN_LOWER, NLGI):
        decoded = decode(f"K{number}{letter}{lower}")
        assert decoded.standard == DIN
        assert decoded.number == number
        assert decoded.upper == (
            Heat(heats[letter]) if letter in heats else Heat(220, is_beyond=True)
        )
        assert decoded.lower == Heat(int(lower))


def test_every_letter_of_iso_6743_9_has_its_meaning():
    lowers = {"A": 0, "B": -20, "C": -30, "D": -40}
    uppers = {"A": 60, "B": 90, "C": 120, "D": 140, "E": 160, "F": 180}

    for lower, upper, water, load in itertools.product(
        ISO_LOWER, ISO_UPPER, ISO_WATER, ISO_LOAD
    ):
        decoded = decode(f"L-X{lower}{upper}{water}{load} 2")
        assert decoded.standard == ISO
        assert decoded.lower == (
            Heat(lowers[lower]) if lower in lowers else Heat(-40, is_beyond=True)
        )
        assert decoded.upper == (
            Heat(uppers[upper]) if upper in uppers else Heat(180, is_beyond=True)
        )
        assert decoded.is_ep is (load == "B")


def test_the_third_letter_of_iso_6743_9_walks_through_surroundings_and_rust():
    pairs = [*itertools.product("LMH", repeat=2)]

    assert list(ISO_WATER.items()) == [*zip("ABCDEFGHI", pairs, strict=True)]


def test_each_meaning_stands_somewhere():
    told = [part.meaning for part in decode("KPF2K-30").parts]
    told += [*DIN_USES.values(), *DIN_ADDITIVES.values(), *DIN_WATER.values()]
    told += [part.meaning for part in decode("L-XEGIB 2").parts]

    assert all(meaning.says and len(meaning.source) > 10 for meaning in told)
    assert {meaning.standing for meaning in told} == {PUBLISHED, FROM_MEMORY}


def test_what_stands_on_memory_is_told():
    letters = {
        letter: [part.meaning.standing for part in decode(f"K2{letter}-20").parts[2:4]]
        for letter in DIN_UPPER
    }

    assert letters["K"] == [PUBLISHED, FROM_MEMORY]
    assert letters["T"] == [PUBLISHED, FROM_MEMORY]
    assert letters["C"] == letters["H"] == [PUBLISHED, PUBLISHED]
    assert letters["M"] == letters["N"] == letters["U"] == [FROM_MEMORY, FROM_MEMORY]
    assert meanings("K2K-20")["-20"].standing == FROM_MEMORY


def test_what_was_checked_against_a_national_standard_is_told():
    notes = {
        letter: decode(f"L-XBC{letter}A 2").parts[2].meaning.note
        for letter in ISO_WATER
    }

    assert "agrees with GB 7324-1994" in notes.pop("H")
    assert set(notes.values()) == {""}


@pytest.mark.parametrize("letter", "GH")
def test_a_conflict_between_sources_is_told(letter):
    (upper, water) = decode(f"K2{letter}-20").parts[2:4]

    assert upper.meaning.says == "upper temperature 100 °C"
    assert upper.meaning.note == ""
    assert "-40" in water.meaning.says
    assert "published at 40 °C" in water.meaning.note
    assert "from memory at 90 °C" in water.meaning.note


@pytest.mark.parametrize("letter", sorted(set(DIN_UPPER) - {*"GH"}))
def test_no_other_letter_of_din_51502_is_in_conflict(letter):
    assert all(part.meaning.note == "" for part in decode(f"K2{letter}-20").parts)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Q2K-30", "“Q” in “Q2K-30” is no letter of use"),
        ("KQ2K-30", "“Q” in “KQ2K-30” is no letter of additives or oil"),
        ("KPHQ2K-30", "“Q” in “KPHQ2K-30” is no letter of additives"),
        ("KC2K-30", "“C” in “KC2K-30” is no letter of additives"),
        ("KS2K-30", "“S” in “KS2K-30” is no letter of additives"),
        ("KPP2K-30", "“P” stands twice"),
        ("KP7K-30", "“7” in “KP7K-30” is no NLGI number"),
        ("KP0000K-30", "“0000” in “KP0000K-30” is no NLGI number"),
        ("KP2L-30", "“L” in “KP2L-30” is no letter of the upper temperature"),
        ("KP2K-35", "“-35” in “KP2K-35” is no lower temperature"),
        ("KP2K-70", "“-70” in “KP2K-70” is no lower temperature"),
        ("KP2K-030", "“-030” in “KP2K-030” is no lower temperature"),
        ("KP2K", "has not the form of DIN 51502"),
        ("KPK-30", "has not the form of DIN 51502"),
        ("O2K-30", "“O” in “O2K-30” is no letter of use"),
        ("", "“” has not the form"),
        ("2", "has not the form of DIN 51502"),
        ("ISO-L-XBCHA", "has not the form of ISO 6743-9"),
        ("ISO-L-XBCH 2", "four letters"),
        ("ISO-L-XBCHAA 2", "four letters"),
        ("ISO-L-XFCHA 2", "“F” in “ISO-L-XFCHA 2” is no letter of the lower temperature"),
        ("ISO-L-XBHHA 2", "“H” in “ISO-L-XBHHA 2” is no letter of the upper temperature"),
        ("ISO-L-XBCJA 2", "“J” in “ISO-L-XBCJA 2” is no letter of water and rust"),
        ("ISO-L-XBCHC 2", "“C” in “ISO-L-XBCHC 2” is no letter of load"),
        ("ISO-L-XBCHA 0000", "“0000” in “ISO-L-XBCHA 0000” is no NLGI number"),
    ],
)  # fmt: skip
def test_what_a_standard_does_not_have_is_refused_by_name(text, words):
    with pytest.raises(DesignationRefused, match=words):
        decode(text)


def test_a_refusal_says_what_there_is():
    with pytest.raises(DesignationRefused, match="it has 000, 00, 0, 1, 2, 3, 4, 5, 6"):
        decode("KP0000K-30")
    with pytest.raises(DesignationRefused, match="such as KP2K-30"):
        decode("KP2K")


def test_a_cross_reference_in_the_wild_is_wrong_in_three_letters():
    """A list in a public repository gives KP2N-30 as equal to ISO-L-XBCHA 2."""
    found = differences(decode("KP2N-30"), decode("ISO-L-XBCHA 2"))

    assert found == (
        "lower temperature: KP2N-30 says −30 °C, ISO-L-XBCHA 2 says −20 °C.",
        "upper temperature: KP2N-30 says 140 °C, ISO-L-XBCHA 2 says 120 °C.",
        "extreme pressure: KP2N-30 says yes, ISO-L-XBCHA 2 says no.",
    )


@pytest.mark.parametrize("water", [*ISO_WATER])
def test_the_right_code_does_not_contradict_whatever_its_letter_of_water(water):
    assert differences(decode("KP2N-30"), decode(f"ISO-L-XCD{water}B 2")) == ()


def test_another_number_is_a_difference():
    found = differences(decode("KP1N-30"), decode("ISO-L-XCDHB 2"))

    assert found == ("NLGI number: KP1N-30 says 1, ISO-L-XCDHB 2 says 2.",)


@pytest.mark.parametrize(
    ("one", "other", "agrees"),
    [
        (Heat(120), Heat(120), True),
        (Heat(120), Heat(140), False),
        (Heat(180, is_beyond=True), Heat(200), True),
        (Heat(180, is_beyond=True), Heat(180), False),
        (Heat(180, is_beyond=True), Heat(220, is_beyond=True), True),
        (Heat(-40, is_beyond=True), Heat(-50), True),
        (Heat(-40, is_beyond=True), Heat(-40), False),
        (Heat(-40, is_beyond=True), Heat(-30), False),
    ],
)
def test_a_temperature_beyond_agrees_with_what_lies_beyond(one, other, agrees):
    assert one.agrees_with(other) is agrees
    assert other.agrees_with(one) is agrees


def test_a_temperature_beyond_is_told():
    assert str(Heat(180, is_beyond=True)) == "above 180 °C"
    assert str(Heat(-40, is_beyond=True)) == "below −40 °C"
    assert str(Heat(0)) == "0 °C"
