"""Published specifications: loaded once, named by a product, copied into a draft, checked by a person."""

import copy

import pytest

from lims.methods.queries import editions_for
from lims.products import actions, copying, queries, reference
from lims.products.actions import published
from lims.products.models import PublishedSpecification
from lims.record.gate import entry
from lims.record.models import Entry
from lims.record.refusals import (
    BadInput,
    ChangedSince,
    GateError,
    NotAllowed,
    WrongMove,
)
from tests.factories import methods, products
from tests.factories.meanwhile import meanwhile
from tests.factories.published import (
    BOTH,
    FIRST,
    MEMORY,
    SECOND,
    copied_into,
    line,
    one,
    told,
)


def limits_of(draft):
    return {row.characteristic.code: row.limits for row in draft.requirements.all()}


def test_each_row_is_loaded_once_with_its_source_and_standing(book):
    again = actions.load_published(data=[FIRST, SECOND, BOTH], by=None)

    rows = one("X1").lines.all()
    assert again == 0
    assert [row.line for row in rows] == [1, 2, 3, 4]
    assert (rows[1].source, rows[1].standing) == tuple(MEMORY.values())
    assert one("X1-X2").parts == ["X1", "X2"]
    assert Entry.objects.first().verb == "published_loaded"


def test_a_line_that_is_missing_is_added_and_what_stands_is_left(book):
    longer = copy.deepcopy(FIRST)
    longer["lines"].insert(0, line("dropping-point-bath", lower="130"))
    longer["lines"][1]["upper"] = "999"

    added = actions.load_published(data=[longer], by=None)

    rows = one("X1").lines.all()
    assert added == 1
    assert rows[4].characteristic.code == "dropping-point-bath"
    assert rows[0].upper == "340"


def test_a_line_that_was_added_before_the_entry_is_not_added_again(book, monkeypatch):
    longer, longest = copy.deepcopy(FIRST), copy.deepcopy(FIRST)
    longer["lines"].append(line("dropping-point-bath", lower="130"))
    longest["lines"] = [*longer["lines"], line("oxidation-drop", upper="70")]
    meanwhile(
        monkeypatch, published, lambda: actions.load_published(data=[longer], by=None)
    )

    assert actions.load_published(data=[longest], by=None) == 1
    codes = [row.characteristic.code for row in one("X1").lines.all()]
    assert len(codes) == len(set(codes)) == 6


def test_a_person_loads_them_only_with_the_permission(book, technician, technologist):
    with pytest.raises(NotAllowed):
        actions.load_published(data=[told("X9")], by=technician)

    assert actions.load_published(data=[told("X9")], by=technologist) == 1


def test_a_line_for_an_unknown_characteristic_is_refused_by_name(book):
    with pytest.raises(BadInput, match="X9 asks for “taste”, which is no character"):
        actions.load_published(data=[told("X9", line("taste", upper="1"))], by=None)

    assert not PublishedSpecification.objects.filter(code="X9").exists()


@pytest.mark.parametrize("of", [one, lambda code: one(code).lines.first()])
def test_what_is_published_is_never_changed(book, of):
    row = of("X1")
    row.source = "hearsay"

    with (
        pytest.raises(GateError, match="is never changed"),
        entry(by=None, verb="published_loaded", about=row),
    ):
        row.save()


def test_a_product_names_a_published_specification(book, technologist):
    row = products.product(by=technologist, code="LX3", published=one("X1"))

    assert queries.product("LX3").published == one("X1")
    assert "published" in str(Entry.objects.first().changes)
    assert row.published.code == "X1"


def test_lines_are_copied_with_their_origin_and_belong_to_the_draft(
    draft, technologist
):
    copied = copied_into(draft, "X1", by=technologist)

    assert limits_of(draft) == {
        "worked-penetration": "220 to 340",
        "oil-separation": "at most 10",
        "copper-strip": "at most 2a",
        "appearance": "uniform, soft",
    }
    row = draft.requirements.get(characteristic__code="oil-separation")
    assert row.origin == "X1, at most 10; the standard, a copy not at hand"
    assert row.origin_standing == "from memory"
    assert (row.comparing, row.rule) == ("rounding", "simple acceptance")
    assert row.edition.method.designation == "ASTM D6184"
    assert copied.left == ()
    assert [it.line for it in copied.lines] == [1, 2, 3, 4]
    assert Entry.objects.first().verb == "published_lines_copied"


def test_of_two_parts_the_stricter_limit_is_copied_as_it_is_written(
    draft, technologist
):
    copied_into(draft, "X1-X2", by=technologist)

    assert limits_of(draft) == {
        "worked-penetration": "220 to 330",
        "oil-separation": "at most 6.0",
        "copper-strip": "at most 1b",
        "appearance": "uniform, soft; black",
        "dropping-point-block": "at least 220",
    }
    row = draft.requirements.get(characteristic__code="oil-separation")
    assert row.origin_standing == "from memory"
    assert row.origin.startswith("X1, at most 10; X2, at most 6.0; ")


def test_a_limit_that_stands_stays_and_is_told(draft, technologist):
    actions.set_requirement(
        revision=draft, line=products.worked_line(number=3), by=technologist
    )

    copied = copied_into(draft, "X1", by=technologist)

    assert limits_of(draft)["worked-penetration"] == "265 to 295"
    assert [it.line for it in copied.lines] == [4, 5, 6]
    assert len(copied.left) == 1
    assert "has a limit already, line 3: it stays" in copied.left[0]


def test_what_the_plant_copied_it_changes_like_any_line(draft, technologist):
    copied_into(draft, "X1", by=technologist)

    row = actions.set_requirement(
        revision=draft, line=products.worked_line("265", "295"), by=technologist
    )

    assert (row.limits, row.line) == ("265 to 295", 1)
    assert row.origin.startswith("X1, 220 to 340 (ASTM D217)")


def test_a_line_that_no_edition_measures_is_left_and_told(draft, technologist):
    actions.load_published(
        data=[told("X3", line("dropping-point-bath", lower="130"), FIRST["lines"][0])],
        by=None,
    )
    for edition in methods_for("dropping-point-bath"):
        unmeasure(edition, "dropping-point-bath")

    copied = copied_into(draft, "X3", by=technologist)

    assert list(limits_of(draft)) == ["worked-penetration"]
    assert "is left out: Name the method's edition" in copied.left[0]


def methods_for(code):
    return editions_for(methods.characteristic(code))


def unmeasure(edition, code):
    """As if no edition of the book measured it."""
    with entry(by=None, verb="edition_added", about=edition):
        edition.characteristics = [it for it in edition.characteristics if it != code]
        edition.save()


def test_the_edition_of_the_method_that_the_standard_names_is_taken(draft):
    demand = copying.demands_of(one("X1"))[0]

    assert copying.edition_for(demand).method.designation == "ASTM D217"


def test_nothing_to_copy_is_refused_with_the_reasons(draft, technologist):
    copied_into(draft, "X1", by=technologist)
    before = Entry.objects.count()

    with pytest.raises(WrongMove, match="No line of X1 can be copied") as refused:
        copied_into(draft, "X1", by=technologist)

    assert "has a limit already, line 1" in str(refused.value)
    assert Entry.objects.count() == before


@pytest.mark.parametrize(
    ("given", "field", "sentence"),
    [
        ({"comparing": ""}, "comparing", "there is no default"),
        ({"comparing": "by eye"}, "comparing", "rounding or absolute"),
        ({"rule": ""}, "rule", "Name the decision rule"),
        ({"rule": "guarded acceptance"}, "rule", "each line needs its own uncert"),
    ],
)
def test_copying_names_a_procedure_and_a_rule_that_needs_nothing(
    draft, technologist, given, field, sentence
):
    with pytest.raises(BadInput, match=sentence) as refused:
        copied_into(draft, "X1", by=technologist, **given)

    assert refused.value.field == field
    assert not draft.requirements.exists()


def test_lines_are_copied_into_a_draft_only_and_by_who_may(
    draft, technologist, quality_manager, technician
):
    with pytest.raises(NotAllowed):
        copied_into(draft, "X1", by=technician)
    copied_into(draft, "X1", by=technologist)
    draft.refresh_from_db()
    actions.approve_revision(
        revision=draft, password=products.PASSWORD, by=quality_manager
    )

    with pytest.raises(WrongMove, match="is in force and cannot change"):
        copied_into(draft, "X2", by=technologist)


def test_a_draft_that_somebody_changed_is_not_copied_into(draft, technologist):
    seen = draft.version
    actions.set_requirement(
        revision=draft, line=products.dropping_line(), by=technologist
    )

    with pytest.raises(ChangedSince):
        actions.copy_published_lines(
            revision=draft,
            published=one("X1"),
            comparing="rounding",
            rule="simple acceptance",
            version=seen,
            by=technologist,
        )

    assert draft.requirements.count() == 1


def test_a_customers_draft_leaves_what_is_wider_than_the_products_own(
    draft, technologist, quality_manager, lx2, osprey
):
    lines = [products.worked_line(), products.dropping_line("190")]
    for it in lines:
        actions.set_requirement(revision=draft, line=it, by=technologist)
    draft.refresh_from_db()
    actions.approve_revision(
        revision=draft, password=products.PASSWORD, by=quality_manager
    )
    theirs = products.draft(lx2, by=technologist, customer=osprey, number="C", lines=[])

    copied = copied_into(theirs, "X2", by=technologist)

    assert "worked-penetration" not in limits_of(theirs)
    assert "is left out: Line 1, " in copied.left[0]
    assert "is wider than the product's own limits (265 to 295)" in copied.left[0]
    assert limits_of(theirs)["dropping-point-block"] == "at least 220"


@pytest.mark.parametrize("row", reference.shipped(), ids=lambda it: it["code"])
def test_every_shipped_line_can_be_copied_and_names_its_source(technologist, lx2, row):
    methods.with_reference()
    actions.load_published(data=reference.shipped(), by=None)
    draft = products.draft(lx2, by=technologist, lines=[])

    copied = copied_into(draft, row["code"], by=technologist)

    assert copied.left == ()
    assert copied.lines
    assert all(len(it.origin) < 300 for it in copied.lines)
    assert all(it.origin_standing for it in copied.lines)
