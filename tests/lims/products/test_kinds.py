"""Limits of what is no plain number: a load of a ladder, pass or fail, a pair of ratings."""

import pytest

from lims.methods.models import Characteristic, Method, MethodEdition
from lims.products import actions, widths
from lims.products.lines import Line
from lims.record.gate import entry
from lims.record.refusals import BadInput
from tests.factories import products

KINDS = {
    "weld": ("ladder", "load of a ladder"),
    "rust": ("pass or fail", "pass or fail as found"),
    "bearings": ("rating", "pair of rated bearings"),
}


@pytest.fixture
def edition(lx2):
    """An edition that measures all three."""
    method = Method(designation="ASTM D0000", title="three kinds")
    row = MethodEdition(
        method=method,
        edition="26",
        characteristics=list(KINDS),
        source="made for a test",
        standing="common practice",
    )
    with entry(by=None, verb="reference_loaded", about=method):
        method.save()
        row.save()
        for code, (kind, procedure) in KINDS.items():
            Characteristic(
                code=code, name=code.capitalize(), kind=kind, procedure=procedure
            ).save()
    return row


@pytest.fixture
def setting(edition, technologist, lx2):
    draft = products.draft(lx2, by=technologist, lines=[])

    def set_line(code, **given):
        line = Line(
            characteristic=Characteristic.objects.get(code=code),
            edition=edition,
            **{"comparing": "absolute", "rule": "simple acceptance"} | given,
        )
        return actions.set_requirement(revision=draft, line=line, by=technologist)

    return set_line


def test_a_limit_of_a_ladder_is_one_of_its_loads(setting):
    row = setting("weld", lower=" 400 ")

    assert row.limits == "at least 400"


def test_what_must_pass_says_so(setting):
    row = setting("rust", must="Pass")

    assert (row.must, row.limits) == ("pass", "pass")


def test_a_pair_of_ratings_has_the_worst_mark_allowed(setting):
    row = setting("bearings", upper="1")

    assert row.limits == "at most 1"


@pytest.mark.parametrize(
    ("code", "given", "field", "sentence"),
    [
        ("weld", {"lower": "390"}, "lower", "it lies between 315 and 400"),
        ("weld", {"upper": "900"}, "upper", "it lies above the last, 800"),
        ("weld", {}, "upper", "Enter a lower or an upper limit"),
        ("weld", {"lower": "400", "must": "400"}, "must", "not against words"),
        ("weld", {"lower": "400", "upper": "250"}, "upper", "is above the upper, 250"),
        (
            "weld",
            {"lower": "250", "internal_lower": "400"},
            "internal_lower",
            "has no internal band",
        ),
        (
            "weld",
            {"lower": "400", "rule": "guarded acceptance"},
            "rule",
            "“Weld” is a load of a ladder",
        ),
        ("rust", {"must": "fail"}, "must", "“fail” is no requirement here: it must"),
        ("rust", {"must": ""}, "must", "it must pass"),
        ("rust", {"must": "pass", "upper": "1"}, "upper", "no number for a limit"),
        (
            "rust",
            {"must": "pass", "rule": "bound of ISO 4259, supplier"},
            "rule",
            "“Rust” is a finding, pass or fail",
        ),
        ("bearings", {"upper": "6"}, "upper", "choose one of 0, 1, 2, 3, 4, 5"),
        ("bearings", {"upper": "0/1"}, "upper", "“0/1” is not on the scale"),
        (
            "bearings",
            {"upper": "1", "rule": "guarded acceptance"},
            "rule",
            "“Bearings” is a rating",
        ),
    ],
)
def test_a_limit_that_could_not_be_held_against_is_refused(
    setting, code, given, field, sentence
):
    with pytest.raises(BadInput, match=sentence) as refused:
        setting(code, **given)

    assert refused.value.field == field


@pytest.mark.parametrize(
    ("code", "own", "theirs", "wider"),
    [
        ("weld", {"lower": "250"}, {"lower": "200"}, True),
        ("weld", {"lower": "250"}, {"lower": "400"}, False),
        ("rust", {"must": "pass"}, {"must": "pass"}, False),
        ("bearings", {"upper": "1"}, {"upper": "2"}, True),
        ("bearings", {"upper": "1"}, {"upper": "0"}, False),
    ],
)
def test_a_customers_line_of_each_kind_is_held_against_the_products_own(
    setting, code, own, theirs, wider
):
    own_line = setting(code, **own)
    line = setting(code, **theirs)

    assert widths.is_wider(line, own_line) is wider
