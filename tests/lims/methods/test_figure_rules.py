"""What may stand as a figure, and the sentence that refuses what may not."""

import pytest

from lims.methods.figure_rules import check_figure, check_whole, settled
from lims.methods.figure_values import NUMBERS
from lims.methods.figures import WORDS, Figure, What
from lims.methods.models import Characteristic, Method, MethodEdition
from lims.record.refusals import BadInput, WrongMove
from tests.factories.methods import figure

KINDS = {
    "worked-penetration": "number",
    "weld": "ladder",
    "copper-strip": "rating",
    "rust": "pass or fail",
    "appearance": "words",
}
KNOWN = {
    code: Characteristic(code=code, name=code.capitalize(), kind=kind)
    for code, kind in {**KINDS, "elsewhere": "number"}.items()
}
EDITION = MethodEdition(
    method=Method(designation="ASTM D217"),
    edition="21a",
    characteristics=list(KINDS),
)
ROUTED = [figure("repeat rule", "ISO 5725-6"), figure("route", "two more")]


def check(it, *others):
    check_figure(settled(it), EDITION, KNOWN, others)


@pytest.mark.parametrize(
    "it",
    [
        figure("determinations a result", "3"),
        figure("how they combine", "mean"),
        figure("reporting step", "0.1"),
        figure("reporting step", "0.01, 3 digits"),
        figure("direction", "nearer nought"),
        figure("plausible from", "85"),
        figure("plausible to", "500"),
        figure("repeat rule", "ISO 4259"),
        figure("constants", "printed"),
        figure("after a rejected set", "second fill"),
        figure("determinability", "0.59 √m", level_from="9.0", level_to="45.3"),
        figure("repeatability", "23 %"),
        figure("reproducibility", "2 + 5 %", level_from="130"),
        figure("how they combine", "the worse", characteristic="copper-strip"),
        figure("how they combine", "two of three", characteristic="rust"),
        figure("plausible to", "800", characteristic="weld"),
        figure("repeatability", "1", characteristic="weld"),
    ],
)
def test_a_figure_that_can_stand_is_taken(it):
    check(it)


def test_a_route_stands_beside_its_rule():
    check(ROUTED[1], ROUTED[0])
    check_whole(EDITION, ROUTED, KNOWN)


@pytest.mark.parametrize(
    ("it", "field", "sentence"),
    [
        (figure("colour", "red"), "what", "A figure does not say “colour”"),
        (figure(characteristic="x"), "characteristic", "no characteristic “x”"),
        (
            figure(characteristic="elsewhere"),
            "characteristic",
            "ASTM D217-21a does not measure “Elsewhere”",
        ),
        (figure(value=" "), "value", "The value is missing: enter it"),
        (figure(source=""), "source", "The source is missing: enter it"),
        (figure(source="x" * 301), "source", "301 characters long: shorten it to 300"),
        (figure(source="a\x00b"), "source", "holds a sign that cannot be printed"),
        (figure(level_from="x" * 21), "level_from", "is no number"),
        (figure(standing="sure"), "standing", "“sure” is no standing: choose one of"),
        (
            figure("determinations a result", "0"),
            "value",
            "“0” is no number of determinations: write a whole number",
        ),
        (figure("determinations a result", "2.5"), "value", "“2.5” is no number of"),
        (figure("determinations a result", "١"), "value", "is no number of"),
        (figure("how they combine", "product"), "value", "“product” is no how they"),
        (figure("reporting step", "0"), "value", "“0” is no step to report to"),
        (figure("reporting step", "-1"), "value", "“-1” is no step"),
        (figure("reporting step", "often"), "value", "“often” is no step"),
        (figure("reporting step", "<1"), "value", "“<1” is no step"),
        (figure("direction", "sideways"), "value", "“sideways” is no direction"),
        (figure("plausible from", "<85"), "value", "is only a bound"),
        (figure("repeat rule", "ISO 9000"), "value", "“ISO 9000” is no repeat rule"),
        (figure("constants", "rounded"), "value", "“rounded” is no constants"),
        (figure("repeatability", "0"), "value", "states a precision of zero"),
        (figure("repeatability", "some"), "value", "some"),
        (figure("repeatability", "-7"), "value", "-7"),
        (
            figure(level_from="475", level_to="130"),
            "level_to",
            "ends at 130, not above its beginning at 475",
        ),
        (figure(level_from="130", level_to="130"), "level_to", "not above its begin"),
        (
            figure("reporting step", "1", level_from="130"),
            "level_from",
            "The reporting step holds at every level: leave the levels out",
        ),
        (figure("direction", "lower", level_to="9"), "level_to", "leave the levels"),
        (
            figure("how they combine", "mean", characteristic="weld"),
            "value",
            "“Weld” is of the kind ladder and is never averaged: choose one of the worse",
        ),
        (
            figure("how they combine", "median", characteristic="copper-strip"),
            "value",
            "kind rating and is never averaged",
        ),
        (
            figure("how they combine", "mean", characteristic="rust"),
            "value",
            "kind pass or fail and is never averaged",
        ),
        (
            figure("reporting step", "1", characteristic="copper-strip"),
            "what",
            "kind rating and has no reporting step: leave it out",
        ),
        (
            figure("repeatability", "1", characteristic="rust"),
            "what",
            "kind pass or fail and has no repeatability in figures: leave it out",
        ),
        (figure("route", "two more"), "what", "A route belongs to ISO 5725-6"),
    ],
)  # fmt: skip
def test_a_figure_that_cannot_stand_is_refused_beside_its_box(it, field, sentence):
    with pytest.raises(BadInput, match=sentence) as refused:
        check(it)

    assert refused.value.field == field


@pytest.mark.parametrize(
    ("it", "other", "field", "sentence"),
    [
        (
            figure(level_from="100", level_to="200"),
            figure(value="9", level_from="150", level_to="300"),
            "level_from",
            "The repeatability from 150 to 300 is 9 already",
        ),
        (figure(), figure(value="9", level_from="150"), "level_from", "from 150 is 9"),
        (figure(), figure(value="9", level_to="150"), "level_from", "to 150 is 9"),
        (
            figure(level_from="9"),
            figure(value="8"),
            "level_from",
            "at every level is 8",
        ),
        (
            figure("direction", "lower"),
            figure("direction", "higher"),
            "what",
            "The direction at every level is higher already",
        ),
        (
            figure("plausible from", "500"),
            figure("plausible to", "85"),
            "value",
            "The plausible range would go from 500 to 85",
        ),
        (
            figure("plausible to", "85"),
            figure("plausible from", "85"),
            "value",
            "The plausible range would go from 85 to 85",
        ),
        (
            figure("route", "two more"),
            figure("repeat rule", "ISO 4259"),
            "what",
            "A route belongs to ISO 5725-6: state that as the repeat rule first",
        ),
        (
            figure("repeat rule", "ISO 4259"),
            figure("route", "one more"),
            "value",
            "The route “one more” belongs to ISO 5725-6: take the route out first",
        ),
    ],
)
def test_a_figure_that_contradicts_another_is_refused(it, other, field, sentence):
    with pytest.raises(BadInput, match=sentence) as refused:
        check(it, other)

    assert refused.value.field == field


def test_ranges_may_touch_and_other_characteristics_do_not_matter():
    check(
        figure(level_from="116", level_to="221"),
        figure(level_to="116"),
        figure(level_from="221"),
        figure("reproducibility", "20", level_from="120"),
        figure(characteristic="weld", level_from="120"),
    )


@pytest.mark.parametrize(
    ("figures", "sentence"),
    [
        (
            [figure("reporting step", "0")],
            "Worked-penetration, reporting step: “0” is no step",
        ),
        ([figure(characteristic="x")], "x, repeatability: There is no characteristic"),
        (
            [figure(), figure(value="8")],
            "Worked-penetration, repeatability: The repeat",
        ),
        (
            [figure("repeat rule", "ISO 5725-6")],
            "ISO 5725-6 knows several routes: state the route, one of two more; one more",
        ),
        (
            [figure("plausible from", "85")],
            "the plausible range has one end only: state “plausible from” and",
        ),
        ([figure("plausible to", "85")], "the plausible range has one end only"),
    ],
)
def test_a_list_with_one_figure_that_cannot_stand_is_refused_by_name(figures, sentence):
    with pytest.raises(WrongMove, match=sentence):
        check_whole(EDITION, figures, KNOWN)


def test_a_list_that_can_stand_is_taken():
    check_whole(
        EDITION,
        [
            *ROUTED,
            figure("plausible from", "85"),
            figure("plausible to", "500"),
            figure("direction", "lower", characteristic="weld"),
        ],
        KNOWN,
    )


def test_each_kind_of_figure_is_tried_by_a_rule():
    words_or_numbers = {*WORDS, *NUMBERS, What.DETERMINATIONS, What.STEP}
    precisions = {it for it in What if Figure("", it, "", "", "").is_precision}

    assert words_or_numbers | precisions == set(What)
