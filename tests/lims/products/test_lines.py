"""What may stand in a requirement line, and what is refused."""

import pytest

from lims.products import actions, queries
from lims.record.refusals import BadInput
from tests.factories import products
from tests.factories.methods import edition


@pytest.fixture
def setting(technologist, lx2):
    draft = products.draft(lx2, by=technologist, lines=[])

    def set_line(line):
        return actions.set_requirement(revision=draft, line=line, by=technologist)

    return set_line


def refused_field(setting, line, sentence):
    with pytest.raises(BadInput, match=sentence) as refused:
        setting(line)
    draft = queries.draft_of(queries.product("LX2"))
    assert not draft.requirements.exists()
    return refused.value.field


def test_a_limit_stands_in_plain_form_with_its_decimals(setting):
    row = setting(products.worked_line(" 265,0 ", "+295.50"))

    assert (row.lower, row.upper) == ("265.0", "295.50")


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("comparing", {"comparing": ""}, "rounding or absolute: there is no default"),
        ("comparing", {"comparing": "by eye"}, "“by eye” is no comparing"),
        ("rule", {"rule": ""}, "one of simple acceptance; guarded"),
        ("rule", {"rule": "kindness"}, "Name the decision rule"),
        ("edition", {"edition": None}, "Name the method's edition"),
        ("upper", {"lower": "", "upper": ""}, "Enter a lower or an upper limit"),
        ("upper", {"lower": "296"}, "The lower limit 296 is above the upper, 295"),
        ("lower", {"lower": "about 265"}, "is no number"),
        ("upper", {"upper": "265-295"}, "looks like limits"),
        ("upper", {"upper": "<295"}, "is only a bound"),
        ("upper", {"upper": "2" * 21}, "shorten it to 20"),
        ("must", {"must": "soft"}, "not against words"),
        ("kind", {"kind": "wish"}, "“wish” is no kind"),
        ("scope", {"scope": "yearly"}, "“yearly” is no scope"),
        (
            "every_batches",
            {"scope": "periodic"},
            "Say how often a periodic test is due",
        ),
        ("every_months", {"every_months": 6}, "Only a periodic line says how often"),
        (
            "every_batches",
            {"scope": "periodic", "every_batches": 0},
            "Every 0 is no frequency",
        ),
        ("internal_lower", {"internal_lower": "x"}, "is no number"),
        (
            "internal_upper",
            {"internal_lower": "290", "internal_upper": "270"},
            "The internal band begins at 290, above its end at 270",
        ),
        (
            "internal_lower",
            {"internal_lower": "260"},
            "band reaches outside the limits",
        ),
        ("upper", {"internal_upper": "296"}, "band reaches outside the limits"),
        ("upper", {"internal_lower": "296"}, "band reaches outside the limits"),
        (
            "internal_upper",
            {"internal_upper": "264"},
            "band reaches outside the limits",
        ),
        ("typical", {"typical": "x" * 81}, "shorten it to 80"),
    ],
)
def test_a_number_limit_that_cannot_stand_is_refused(setting, field, change, sentence):
    line = products.worked_line(**change)

    assert refused_field(setting, line, sentence) == field


def test_an_edition_measures_the_characteristic_of_its_line(setting):
    line = products.worked_line(edition=edition("ASTM D942", "19"))

    field = refused_field(setting, line, "ASTM D942-19 does not measure “Worked")

    assert field == "edition"


def test_equal_limits_and_a_band_on_the_limits_stand(setting):
    row = setting(products.worked_line("280", "280.0", internal_lower="280"))

    assert row.limits == "280 to 280.0"


def test_a_rating_stands_as_the_scale_writes_it(setting):
    assert setting(products.copper_line("1B")).upper == "1b"


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("upper", {"upper": "5a"}, "“5a” is not on the scale: choose one of 1a, 1b"),
        ("upper", {"upper": ""}, "is not on the scale"),
        ("lower", {"lower": "1a"}, "A rating has one limit"),
        ("must", {"must": "bright"}, "A rating has one limit"),
        ("comparing", {"comparing": ""}, "there is no default"),
    ],
)
def test_a_rating_limit_that_cannot_stand_is_refused(setting, field, change, sentence):
    assert refused_field(setting, products.copper_line(**change), sentence) == field


def test_an_appearance_needs_words_and_no_edition(setting):
    row = setting(products.appearance_line())

    assert row.limits == "smooth, brown, free of lumps"


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("must", {"must": " "}, "Say in words what is to be seen"),
        ("upper", {"upper": "3"}, "has no number for a limit"),
        ("must", {"must": "x" * 121}, "shorten it to 120"),
    ],
)
def test_words_that_cannot_stand_are_refused(setting, field, change, sentence):
    assert refused_field(setting, products.appearance_line(**change), sentence) == field


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("upper", {"upper": "300"}),
        ("comparing", {"comparing": "rounding"}),
        ("rule", {"rule": "simple acceptance"}),
    ],
)
def test_what_is_reported_only_is_held_against_nothing(setting, field, change):
    line = products.unworked_line(**change)

    assert refused_field(setting, line, "report only is held against nothing") == field


def test_a_typical_line_has_its_value_and_needs_no_edition(setting):
    line = products.oxidation_line(
        upper="",
        comparing="",
        rule="",
        kind="typical",
        scope="per batch",
        every_batches=None,
        every_months=None,
        edition=None,
        typical="35 to 45 kPa",
    )

    assert setting(line).typical == "35 to 45 kPa"


def test_a_typical_line_without_a_value_is_refused(setting):
    line = products.unworked_line()
    typical = type(line)(characteristic=line.characteristic, kind="typical")

    assert refused_field(setting, typical, "Enter the typical value") == "typical"


def test_a_periodic_line_says_how_often(setting):
    row = setting(products.oxidation_line())

    assert (row.every_batches, row.every_months) == (20, 6)


@pytest.mark.parametrize("given", [{"every_batches": None}, {"every_months": None}])
def test_one_frequency_is_enough(setting, given):
    assert setting(products.oxidation_line(**given)).scope == "periodic"
