from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.catalogue import procedure
from specs.methods.outcome import ParametersRefused
from specs.methods.penetration import from_cones
from specs.methods.structure import signed, structure
from specs.numbers import Number, read, to_decimal

WORKED, PROLONGED = "281", "327"
CONES = st.lists(
    st.integers(85, 475).map(lambda half: Decimal(half) / 2), min_size=3, max_size=3
)


def derived(name, parameters=None, **values):
    typed = {role: read(text) for role, text in values.items()}
    return procedure(name).derive(typed, parameters or {})


def test_recovery_after_a_day_of_undisturbed_rest():
    outcome = derived(
        "structure recovery",
        {"rest": "24"},
        worked="281",
        prolonged="327",
        rested="296",
    )

    assert outcome.reported.canonical == "67.4"
    assert outcome.can_count
    assert outcome.says == "+31 of the softening +46 taken back by 24 h of rest"
    assert outcome.parts["softening"] == "+46"


def test_recovery_after_a_week_is_another_result():
    outcome = derived(
        "structure recovery",
        {"rest": "168"},
        worked="281",
        prolonged="327",
        rested="289",
    )

    assert outcome.reported.canonical == "82.6"
    assert outcome.says.endswith("by 168 h of rest")


def test_retained_recovery_is_named_apart_from_structure_recovery():
    outcome = derived(
        "retained recovery",
        {"rest": "24"},
        worked="281",
        prolonged="327",
        reworked="309",
    )

    assert outcome.reported.canonical == "39.1"
    assert outcome.says == (
        "+18 of the softening +46 taken back by 24 h of rest and 60 strokes"
    )


@pytest.mark.parametrize(
    ("reworked", "text", "canonical"),
    [
        ("309", "+28", "28"),
        ("281", "0", "0"),
        ("270", "-11", "-11"),
        ("281.5", "0", "0"),
    ],
)
def test_permanent_softening_is_signed(reworked, text, canonical):
    outcome = derived("permanent softening", worked="281", reworked=reworked)

    assert outcome.reported.text == outcome.parts["signed"] == text
    assert outcome.reported.canonical == canonical
    assert outcome.can_count


def test_permanent_softening_says_where_it_came_from():
    outcome = derived(
        "permanent softening", {"rest": "24"}, worked="281", reworked="309"
    )

    assert outcome.says == (
        "309 after 24 h of rest and 60 strokes less worked 281 is +28"
    )


@pytest.mark.parametrize(
    ("name", "last"),
    [("structure recovery", "rested"), ("retained recovery", "reworked")],
)
def test_a_softening_within_the_repeatability_has_no_recovery(name, last):
    outcome = derived(name, worked="281", prolonged="290", **{last: "285"})

    assert (outcome.value, outcome.reported, outcome.mark) == (None, None, "")
    assert not outcome.can_count
    assert outcome.says == (
        "not meaningful: softening +9 is within the repeatability 15"
    )
    assert [bar.key for bar in outcome.bars] == ["not_meaningful"]
    assert outcome.bars[0].sentence.startswith("Not meaningful: softening +9")
    assert outcome.parts["softening"] == "+9"


@pytest.mark.parametrize(
    ("prolonged", "is_meaningful"),
    [("296", True), ("295.9", False), ("296.1", True), ("281", False), ("266", False)],
)
def test_a_softening_at_the_repeatability_is_meaningful(prolonged, is_meaningful):
    outcome = derived(
        "structure recovery", worked="281", prolonged=prolonged, rested="288"
    )

    assert outcome.can_count is is_meaningful
    assert (outcome.value is not None) is is_meaningful


def test_the_repeatability_is_a_setting():
    values = {"worked": "281", "prolonged": "290", "rested": "285"}

    assert derived("structure recovery", {"repeatability": "9"}, **values).can_count
    assert not derived(
        "structure recovery", {"repeatability": "9.1"}, **values
    ).can_count


def test_a_repeatability_handed_over_with_all_its_digits_is_taken():
    values = {"worked": "281", "prolonged": "297", "rested": "285"}
    five_percent = "16.33333333333333333333333333"  # of 326.67

    outcome = derived("structure recovery", {"repeatability": five_percent}, **values)

    assert not outcome.can_count
    assert "softening +16 is within the repeatability 16.3333" in outcome.says


@pytest.mark.parametrize("text", ["0", "-3", ">15", "much"])
def test_a_repeatability_that_is_no_number_above_nought_is_refused(text):
    with pytest.raises(
        ParametersRefused, match="Repeatability after prolonged working"
    ):
        derived(
            "structure recovery",
            {"repeatability": text},
            worked="281",
            prolonged="327",
            rested="296",
        )


def test_a_grease_that_hardened_has_nothing_to_recover():
    outcome = derived("structure recovery", worked="300", prolonged="280", rested="290")

    assert outcome.says == "not meaningful: prolonged working hardened the grease (-20)"
    assert not outcome.can_count


@pytest.mark.parametrize(
    ("prolonged", "words"), [("285.1", "is within"), ("285", "hardened")]
)
def test_hardening_within_the_repeatability_is_called_so(prolonged, words):
    outcome = derived(
        "structure recovery", worked="300", prolonged=prolonged, rested="290"
    )

    assert words in outcome.bars[0].sentence


def test_the_share_is_reported_to_the_step_that_is_set():
    values = {"worked": "281", "prolonged": "327", "rested": "296"}

    whole = derived("structure recovery", {"step": "1"}, **values)

    assert whole.reported.canonical == "67"
    assert whole.value.canonical.startswith("67.391304347826")


@pytest.mark.parametrize(
    ("name", "roles"),
    [
        ("structure recovery", ("worked", "prolonged", "rested")),
        ("retained recovery", ("worked", "prolonged", "reworked")),
        ("permanent softening", ("worked", "reworked")),
    ],
)
def test_each_missing_penetration_is_asked_for(name, roles):
    values = dict.fromkeys(roles, "300")

    assert procedure(name).derived_from == roles
    for role in roles:
        outcome = derived(
            name, **{it: text for it, text in values.items() if it != role}
        )
        assert (outcome.complete, outcome.can_count) == (False, False)
        assert len(outcome.asks) == 1
        assert outcome.asks[0].endswith("is still to be read.")


@pytest.mark.parametrize("role", ["worked", "prolonged", "rested"])
def test_a_bound_gives_no_recovery(role):
    values = {"worked": "281", "prolonged": "327", "rested": "296", role: ">475"}

    outcome = derived("structure recovery", **values)

    assert [bar.key for bar in outcome.bars] == ["bound"]
    assert not outcome.can_count


def test_a_bound_gives_no_permanent_softening():
    assert not derived("permanent softening", worked="281", reworked=">475").can_count


@given(CONES, CONES, CONES)
def test_the_recovery_is_that_of_the_exact_means(worked, prolonged, rested):
    w, p, r = (from_cones(each).mean for each in (worked, prolonged, rested))
    kept = [to_decimal(it) for it in (w, p, r)]

    found = structure(*kept)

    assert abs(found.softening - (p - w)) <= Fraction(1, 10**19)
    assert found.is_meaningful is (p - w >= 15)
    if p - w >= 15:
        exact = (p - r) * 100 / (p - w)
        assert abs(found.recovery_percent - exact) <= Fraction(1, 10**14)
        assert round(found.recovery_percent * 10) == round(exact * 10)


def test_thirds_of_different_length_still_reach_the_repeatability():
    worked, prolonged = Fraction(3199, 30), Fraction(3199, 30) + 15

    found = structure(to_decimal(worked), to_decimal(prolonged), Decimal(110))

    assert found.is_meaningful


def test_without_any_softening_there_is_no_share_even_where_none_is_asked():
    found = structure(
        Decimal(280), Decimal(280), Decimal(280), repeatability=Decimal(0)
    )

    assert (found.is_meaningful, found.recovery_percent) == (False, None)


def test_what_was_not_read_has_no_answer():
    found = structure(Decimal(281), Decimal(327))

    assert found.softening == 46
    assert found.recovery_percent is None
    assert found.permanent_softening is None
    assert found.retained_percent is None


@pytest.mark.parametrize(
    ("value", "text"),
    [("9", "+9"), ("-4.666", "-4.67"), ("0", "0"), ("-0.001", "0"), ("0.001", "0")],
)
def test_a_change_in_a_sentence_has_its_sign(value, text):
    assert signed(Decimal(value)) == text


def test_values_of_the_exact_means_are_stored_as_numbers():
    outcome = derived("permanent softening", worked="281", reworked="309")

    assert Number.stored(outcome.value.canonical).value == 28


def test_the_story_of_a_diurea_grease_from_its_cones():
    sets = {
        "worked": "280 282 281",
        "prolonged": "326 328 327",
        "rested": "295 297 296",
        "reworked": "308 310 309",
        "week": "288 290 289",
    }
    means = {
        role: Number.of(to_decimal(from_cones([*map(Decimal, texts.split())]).mean))
        for role, texts in sets.items()
    }

    def reported(name, **roles):
        values = {role: means[read_as] for role, read_as in roles.items()}
        return procedure(name).derive(values, {}).reported.text

    both = {"worked": "worked", "prolonged": "prolonged"}
    assert reported("penetration change", **both) == "+46"
    assert reported("structure recovery", **both, rested="rested") == "67.4"
    assert reported("structure recovery", **both, rested="week") == "82.6"
    assert reported("retained recovery", **both, reworked="reworked") == "39.1"
    assert (
        reported("permanent softening", worked="worked", reworked="reworked") == "+28"
    )
