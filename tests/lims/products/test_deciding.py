"""The decision rule of a line: on what it rests, frozen with the line, and that it leaves something to accept."""

import pytest

from lims.products import actions, queries, signing
from lims.products.deciding import rule_in_words
from lims.products.models import Requirement
from lims.record.refusals import BadInput
from tests.factories import products

GUARDED = {
    "rule": "guarded acceptance",
    "basis": "own uncertainty",
    "uncertainty": "2.16",
    "confidence": "0.95",
}
BY_R = GUARDED | {"basis": "reproducibility", "uncertainty": "20"}
SUPPLIER = BY_R | {"rule": "bound of ISO 4259, supplier"}
RECIPIENT = BY_R | {"rule": "bound of ISO 4259, recipient"}


@pytest.fixture
def draft(technologist, lx2):
    return products.draft(lx2, by=technologist, lines=[])


@pytest.fixture
def setting(technologist, draft):
    def set_line(line):
        return actions.set_requirement(revision=draft, line=line, by=technologist)

    return set_line


def test_a_guarded_line_keeps_what_its_rule_rests_on_as_typed(setting):
    made = setting(products.worked_line(**GUARDED | {"uncertainty": " 2,160 "}))

    row = Requirement.objects.get(pk=made.pk)
    assert (row.rule, row.basis) == ("guarded acceptance", "own uncertainty")
    assert (row.uncertainty, row.confidence) == ("2.160", "0.95")


def test_a_rule_is_told_with_its_figures(setting):
    guarded = rule_in_words(setting(products.worked_line(**GUARDED)))
    simple = rule_in_words(setting(products.dropping_line("190")))

    assert "268.55 to 291.45" in guarded
    assert "u = 2.16" in guarded
    assert "95" in guarded
    assert (
        simple
        == "Simple acceptance, without a guard band: the limits themselves decide."
    )
    assert rule_in_words(setting(products.unworked_line())) == ""


@pytest.mark.parametrize(
    ("given", "zone"),
    [
        (BY_R, "276.87 to 283.13"),
        (SUPPLIER, "276.87 to 283.13"),
        (RECIPIENT, "253.13 to 306.87"),
        (GUARDED | {"confidence": "0.99"}, "270.02 to 289.98"),
        (GUARDED | {"confidence": "0.90"}, "267.77 to 292.23"),
    ],
)
def test_each_rule_accepts_its_own_zone(setting, given, zone):
    assert zone in rule_in_words(setting(products.worked_line(**given)))


@pytest.mark.parametrize("rule", [GUARDED["rule"], SUPPLIER["rule"]])
def test_a_rule_that_leaves_nothing_to_accept_cannot_be_saved(setting, draft, rule):
    line = products.worked_line("270", "290", **BY_R | {"rule": rule})

    with pytest.raises(BadInput) as refused:
        setting(line)

    assert refused.value.field == "rule"
    assert "270 to 290 leaves nothing to accept: with R = 20" in str(refused.value)
    assert "each limit moves in by 11.87" in str(refused.value)
    assert not draft.requirements.exists()


def test_the_same_limits_stand_by_the_laboratorys_own_uncertainty(setting):
    row = setting(products.worked_line("270", "290", **GUARDED))

    assert "273.55 to 286.45" in rule_in_words(row)


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("basis", {"basis": ""}, "Say what guarded acceptance rests on"),
        ("basis", {"basis": "habit"}, "“habit” is no basis"),
        (
            "basis",
            {"rule": SUPPLIER["rule"]},
            "supplier rests on: the method's reproducibility",
        ),
        ("uncertainty", {"uncertainty": ""}, "Enter u, in the unit of the limits"),
        ("uncertainty", {"uncertainty": "0"}, "u = 0 is none"),
        ("uncertainty", {"uncertainty": "-2"}, "u = -2 is none"),
        ("uncertainty", {"uncertainty": "small"}, "is no number"),
        ("uncertainty", {"uncertainty": "<2"}, "is only a bound"),
        (
            "uncertainty",
            {"uncertainty": "", "basis": "reproducibility"},
            "Enter R, in the unit",
        ),
        ("confidence", {"confidence": ""}, "one of 0.90, 0.95, 0.99: there is no"),
        ("confidence", {"confidence": "0.5"}, "one of 0.90, 0.95, 0.99"),
        ("basis", {"rule": "simple acceptance"}, "takes no part: leave this out"),
        ("rule", {"rule": "kindness"}, "Name the decision rule"),
    ],
)
def test_a_rule_that_is_not_stated_whole_is_refused(
    setting, draft, field, change, sentence
):
    with pytest.raises(BadInput, match=sentence) as refused:
        setting(products.worked_line(**GUARDED | change))

    assert refused.value.field == field
    assert not draft.requirements.exists()


@pytest.mark.parametrize("field", ["uncertainty", "confidence"])
def test_simple_acceptance_rests_on_nothing(setting, field):
    line = products.worked_line(**{field: GUARDED[field]})

    with pytest.raises(BadInput, match="takes no part") as refused:
        setting(line)

    assert refused.value.field == field


@pytest.mark.parametrize(
    ("line", "what"),
    [
        (products.copper_line, "is a rating"),
        (products.appearance_line, "is a finding in words"),
    ],
)
def test_only_a_plain_number_is_guarded(setting, line, what):
    with pytest.raises(BadInput, match=what) as refused:
        setting(line(**GUARDED))

    assert refused.value.field == "rule"
    assert "choose simple acceptance" in str(refused.value)


@pytest.mark.parametrize("field", ["basis", "uncertainty", "confidence"])
def test_a_line_that_is_only_reported_has_no_rule_to_rest_on_anything(setting, field):
    line = products.unworked_line(**{field: GUARDED[field]})

    with pytest.raises(BadInput, match="held against nothing") as refused:
        setting(line)

    assert refused.value.field == field


def test_the_next_draft_and_the_signature_carry_what_a_rule_rests_on(
    technologist, quality_manager, lx2
):
    lines = [products.worked_line(**GUARDED)]
    old = products.in_force(lx2, by=technologist, approver=quality_manager, lines=lines)

    draft = actions.open_draft(product=lx2, number="6", by=technologist)

    copied = draft.requirements.get()
    assert [getattr(copied, name) for name in GUARDED] == list(GUARDED.values())
    assert '"uncertainty":"2.16"' in old.signature.content
    assert '"confidence":"0.95"' in signing.content_of(draft, old.in_force_on)


def test_a_customers_line_may_be_judged_by_another_rule_inside_the_same_limits(
    technologist, quality_manager, lx2, osprey
):
    products.in_force(lx2, by=technologist, approver=quality_manager)

    products.in_force(
        lx2,
        by=technologist,
        approver=quality_manager,
        customer=osprey,
        number="C",
        lines=[products.worked_line(**RECIPIENT)],
    )

    assert queries.in_force(lx2, osprey).requirements.get().rule == RECIPIENT["rule"]
