"""The calculations that a laboratory's own cases may name: names and keys are a promise and do not change."""

import pytest

from specs.calculations import CALCULATIONS

# name: keys that must be given, keys that may be, keys that can be expected
PROMISED = {
    "round": ("value step tie", "", "rounded"),
    "judge": ("value", "lower upper procedure tie step", "verdict compared"),
    "critical_range_factor": ("n", "", "factor"),
    "repeat": (
        "school r results",
        "route",
        "outcome value statistic set_aside more",
    ),
    "single_result_bound": ("limit side R party", "confidence", "bound"),
    "mean_reproducibility": (
        "R r results_per_laboratory",
        "",
        "reproducibility half_width",
    ),
    "assigned_value": ("R first", "retest referee", "value basis"),
    "acceptance_bound": ("limit side R probability", "laboratories", "bound"),
    "interlaboratory": ("laboratories", "", "mean s_r s_R r R"),
    "probability_of_conformity": ("value u", "lower upper", "probability"),
    "acceptance_zone": ("", "lower upper u R confidence", "lower upper empty"),
    "grubbs": ("alpha sides", "values n tail", "statistic critical suspect outlying"),
    "cochran": ("p n alpha", "", "critical"),
    "summary": (
        "values",
        "",
        "count censored mean s minimum lower_quartile median upper_quartile maximum",
    ),
    "two_groups": (
        "first second",
        "confidence",
        "difference lower upper freedom medians ratio ratio_lower ratio_upper",
    ),
    "straight_line": (
        "x y",
        "at confidence",
        (
            "intercept slope slope_lower slope_upper s r_squared mean mean_lower "
            "mean_upper one_lower one_upper"
        ),
    ),
    "moving": (
        "y",
        "x confidence",
        "S variance z p slope slope_lower slope_upper",
    ),
    "penetration": ("readings", "scale spread_limit", "mean reported spread accepted"),
    "nlgi": ("worked", "", "grade between"),
    "strokes_time": ("strokes per_minute", "", "seconds"),
    "dropping_point": ("method pairs", "", "determinations mean reported"),
    "pressure_drop": (
        "unit log hours",
        "reference_c atmosphere",
        "start drop drop_kPa reported corrected_drop",
    ),
    "oxidation_onset": ("minutes signal baseline", "", "onset"),
    "mass_percent": ("taken", "found remaining", "percent"),
    "structure_recovery": (
        "worked prolonged rested",
        "reworked r",
        "softening recovery_percent permanent_softening retained_percent meaningful",
    ),
    "viscosity_index": ("kv40 kv100", "", "vi reported"),
    "record_chain": ("records", "", "heads"),
}


def test_there_are_just_these():
    assert set(CALCULATIONS) == set(PROMISED)


@pytest.mark.parametrize("name", PROMISED)
def test_its_keys_are_these(name):
    given, optional, gives = (set(words.split()) for words in PROMISED[name])
    it = CALCULATIONS[name]

    assert set(it.required) == given
    assert set(it.optional) - {"constants"} == optional
    assert set(it.gives) == gives


@pytest.mark.parametrize("name", PROMISED)
def test_it_names_the_source_of_its_formula(name):
    assert len(CALCULATIONS[name].source) > 10
