"""Adding a characteristic: the boxes follow from its procedure."""

import pytest

from lims.methods import queries
from tests.lims.screens.methods.conftest import address, text_of


def test_a_characteristic_is_added_with_the_settings_of_its_procedure(as_):
    client = as_("mgr-1")
    there = f"{address('characteristic-new')}?procedure=cone+penetration"
    form = client.get(there).context["form"]

    answered = client.post(
        there,
        {
            "code": "quarter-worked",
            "name": "Worked penetration",
            "conditions": "quarter cone",
            "unit": "0.1 mm",
            "step": "1",
            "place": "25",
            "set-scale": "quarter",
        },
    )

    made = queries.characteristic("quarter-worked")
    assert "House figure" in form.fields["set-spread_limit"].help_text
    assert answered["Location"] == address("characteristic", "quarter-worked")
    assert made.parameters == {"scale": "quarter"}


def test_a_derived_characteristic_asks_what_it_is_derived_from(as_):
    client = as_("mgr-1")
    there = f"{address('characteristic-new')}?procedure=penetration+change"
    sent = {
        "code": "another-change",
        "name": "Change",
        "unit": "0.1 mm",
        "step": "1",
        "is_signed": "on",
        "place": "45",
    }

    refused = client.post(there, sent)
    answered = client.post(
        there,
        sent
        | {
            "from-worked": "worked-penetration",
            "from-prolonged": "prolonged-penetration-10000",
        },
    )

    assert refused.status_code == 422
    assert "Choose what it is derived from." in text_of(refused)
    assert answered.status_code == 303
    assert queries.characteristic("another-change").is_signed


def test_a_rating_is_added_without_unit_or_step(as_):
    client = as_("mgr-1")
    there = f"{address('characteristic-new')}?procedure=copper+strip"

    answered = client.post(
        there,
        {"code": "copper-120", "name": "Copper", "kind": "rating", "place": "71"},
    )

    assert answered.status_code == 303
    assert queries.characteristic("copper-120").kind == "rating"


def test_an_unknown_procedure_is_asked_for_again(as_):
    page = as_("mgr-1").get(address("characteristic-new"), {"procedure": "guessing"})

    assert page.status_code == 200
    assert page.context["form"].errors["procedure"]


@pytest.mark.parametrize(
    ("procedure", "kind", "boxes"),
    [
        ("load of a ladder", "ladder", {"unit"}),
        ("majority of three bearings", "pass or fail", set()),
        ("pair of rated bearings", "", {"kind"}),
        ("number as read", "number", {"unit", "step", "span", "is_signed"}),
    ],
)
def test_the_boxes_follow_the_kind_that_the_procedure_finds(
    procedure, kind, boxes, as_
):
    client = as_("chem-1")
    there = f"{address('characteristic-new')}?procedure={procedure.replace(' ', '+')}"

    form = client.get(there).context["form"]
    sent = {"code": "made-here", "name": "Made here", "place": "90", "step": "1"}
    answered = client.post(there, sent | {"kind": kind or "rating"})

    every = {"unit", "step", "span", "is_signed", "kind"}
    assert set(form.fields) & every == boxes
    assert answered.status_code == 303, answered.context["form"].errors
    assert queries.characteristic("made-here").kind == (kind or "rating")


def test_the_procedures_are_offered_with_their_kind(as_):
    page = text_of(as_("chem-1").get(address("characteristic-new")))

    assert "load of a ladder (ladder)" in page
    assert "majority of three bearings (pass or fail)" in page


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("ladder", "A load of a ladder, never averaged, found by"),
        ("rating", "A mark of an ordered scale, never averaged, found by"),
        ("pass or fail", "Pass or fail, never averaged, found by"),
        ("words", "Words, found by"),
    ],
)
def test_a_page_tells_the_kind_and_its_scale(kind, words, as_):
    row = queries.characteristics().filter(kind=kind).first()

    text = text_of(as_("chem-1").get(address("characteristic", row.code)))

    assert words in text
    assert f"Kind {kind}" in text
    assert ("Scale, best first" in text) == (kind in {"rating", "pass or fail"})
    assert "Own uncertainty" not in text


def test_what_the_characteristic_says_is_not_asked_again_of_its_procedure(as_):
    client = as_("chem-1")
    there = f"{address('characteristic-new')}?procedure=mean+of+equal+readings"

    form = client.get(there).context["form"]
    answered = client.post(
        there,
        {
            "code": "scar",
            "name": "Scar",
            "unit": "mm",
            "step": "0.01",
            "place": "7",
            "set-count": "3",
            "set-asked": "hours, temperature 74 to 76",
        },
    )

    assert not {"set-unit", "set-step"} & form.fields.keys()
    assert "such as hours, temperature 51 to 53" in form.fields["set-asked"].help_text
    assert answered.status_code == 303
    assert queries.characteristic("scar").parameters == {
        "count": "3",
        "asked": "hours, temperature 74 to 76",
        "unit": "mm",
        "step": "0.01",
    }


def test_a_step_with_choices_of_its_own_is_asked(as_):
    there = f"{address('characteristic-new')}?procedure=oil+separation,+cone+sieve"

    form = as_("chem-1").get(there).context["form"]

    assert [key for key, _ in form.fields["set-step"].choices] == [
        "",
        "1",
        "0.1",
        "0.01",
    ]


def test_an_empty_box_says_what_to_do(as_):
    there = f"{address('characteristic-new')}?procedure=number+as+read"

    page = text_of(as_("chem-1").post(there, {}))

    assert "Name: It is missing: fill it in." in page
    assert "This field is required" not in page


def test_a_setting_that_its_procedure_cannot_use_is_refused_beside_its_box(as_):
    there = f"{address('characteristic-new')}?procedure=number+as+read"

    answered = as_("chem-1").post(
        there,
        {
            "code": "scar",
            "name": "Scar",
            "step": "1",
            "place": "7",
            "set-asked": "humidity",
        },
    )

    assert answered.status_code == 422
    assert (
        "“humidity” is no condition" in answered.context["form"].errors["set-asked"][0]
    )
