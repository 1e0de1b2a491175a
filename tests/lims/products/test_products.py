"""Sampling plans and products: adding, changing, and what is refused."""

import pytest

from lims.products import actions, queries
from lims.products.models import Product, SamplingPlan
from lims.record.models import Entry
from lims.record.refusals import BadInput, ChangedSince, NotAllowed
from tests.factories import products

PLAN = {"code": "SP-09", "words": "From the tote", "places": ["tote"]}


def as_it_stands(row):
    names = (
        "name family sampling_plan base_oil nlgi_aim designation pack_target "
        "kettle_offset published safety_sheet shelf_life_months"
    )
    return {name: getattr(row, name) for name in names.split()}


def test_a_plan_counts_from_twelve_hours_after_filling(technologist):
    row = actions.add_sampling_plan(**PLAN, by=technologist)

    assert (row.places, row.hours_after_filling) == (["tote"], 12)
    assert Entry.objects.first().verb == "sampling_plan_added"


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("places", {"places": []}, "Say where the samples are taken"),
        ("places", {"places": ["kettle"]}, "A sample from the kettle counts for no"),
        ("hours_after_filling", {"hours_after_filling": -1}, "Enter 0 to 1000 hours"),
        ("hours_after_filling", {"hours_after_filling": 1001}, "Enter 0 to 1000 hours"),
        ("code", {"code": ""}, "The code is missing"),
        ("words", {"words": " "}, "missing: enter it"),
    ],
)
def test_a_plan_that_cannot_stand_is_refused(technologist, field, change, sentence):
    with pytest.raises(BadInput, match=sentence) as refused:
        actions.add_sampling_plan(**(PLAN | change), by=technologist)

    assert refused.value.field == field
    assert not SamplingPlan.objects.exists()


def test_a_plan_is_named_once(technologist):
    actions.add_sampling_plan(**PLAN, by=technologist)

    with pytest.raises(BadInput, match="The sampling plan SP-09 stands here already"):
        actions.add_sampling_plan(**PLAN, by=technologist)


def test_a_product_is_added_with_its_numbers_in_plain_form(technologist):
    row = products.product(by=technologist, pack_target="280", kettle_offset="−4,0")

    assert (row.pack_target, row.kettle_offset) == ("280", "-4.0")
    assert queries.product("LX2") == row
    assert Entry.objects.first().verb == "product_added"


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("code", {"code": ""}, "The code is missing"),
        ("name", {"name": "x" * 101}, "shorten it to 100"),
        ("family", {"family": "butter"}, "“butter” is no family: choose one of"),
        ("pack_target", {"pack_target": "soft"}, "is no number"),
        ("pack_target", {"pack_target": ""}, "needs the target that it is taken from"),
        ("kettle_offset", {"kettle_offset": "<4"}, "is only a bound"),
        ("shelf_life_months", {"shelf_life_months": 0}, "Enter 1 to 600 months"),
    ],
)
def test_a_product_that_cannot_stand_is_refused(technologist, field, change, sentence):
    with pytest.raises(BadInput, match=sentence) as refused:
        products.product(by=technologist, **change)

    assert refused.value.field == field
    assert not Product.objects.exists()


def test_a_product_code_is_used_once(technologist, lx2):
    with pytest.raises(BadInput, match="The product LX2 stands here already"):
        products.product(by=technologist)


def test_a_product_changes_all_but_its_code(technologist, lx2):
    changed = as_it_stands(lx2) | {"shelf_life_months": 36}

    actions.change_product(product=lx2, **changed, by=technologist)

    assert queries.product("LX2").shelf_life_months == 36
    assert Entry.objects.first().verb == "product_changed"


def test_a_change_that_cannot_stand_is_refused(technologist, lx2):
    changed = as_it_stands(lx2) | {"family": "butter"}

    with pytest.raises(BadInput):
        actions.change_product(product=lx2, **changed, by=technologist)

    assert queries.product("LX2").family == "lithium soap"


def test_a_product_that_somebody_changed_is_not_changed_over(technologist, lx2):
    seen = lx2.version
    changed = as_it_stands(lx2)
    actions.change_product(
        product=queries.product("LX2"),
        **(changed | {"name": "new name"}),
        by=technologist,
    )

    with pytest.raises(ChangedSince):
        actions.change_product(
            product=queries.product("LX2"),
            **(changed | {"name": "other name"}),
            version=seen,
            by=technologist,
        )

    assert queries.product("LX2").name == "new name"


def test_a_technician_writes_no_product(technician, lx2):
    with pytest.raises(NotAllowed):
        actions.add_sampling_plan(**PLAN, by=technician)
    with pytest.raises(NotAllowed):
        actions.add_product(
            code="X",
            name="X",
            family="clay",
            sampling_plan=lx2.sampling_plan,
            by=technician,
        )
    with pytest.raises(NotAllowed):
        actions.change_product(product=lx2, **as_it_stands(lx2), by=technician)
