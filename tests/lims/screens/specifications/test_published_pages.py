"""Published specifications on screen: read with source and standing, copied into a draft, checked by a person; symbols decoded."""

import pytest
from django.urls import reverse

from lims.people.queries import person
from lims.products import actions, queries
from lims.products.models import PublishedSpecification, Revision
from tests.lims.screens.specifications.conftest import address, text_of

BOTH = "ASTM D4950 GC-LB"


def one(code):
    return PublishedSpecification.objects.get(code=code)


def sent_for(draft, **given):
    return {
        "published": "GOST 20421-75",
        "comparing": "rounding",
        "rule": "simple acceptance",
        "version": Revision.objects.get(pk=draft.pk).version,
    } | given


def test_the_list_gives_each_with_its_standing_and_source(as_):
    page = text_of(as_("tech-a").get(address("published-list")))

    assert "26 published specifications to start from" in page
    assert "NLGI 2" in page
    assert "from memory" in page
    assert "docs.cntd.ru/document/1200008576" in page
    assert "as ASTM D4950 GC and ASTM D4950 LB" in page
    assert page.count("quoted from memory; the list of tests") == 1


def test_one_shows_the_stricter_of_its_parts_with_conditions_and_standing(as_):
    page = text_of(as_("tech-a").get(address("published", BOTH)))

    assert "must be at most 0.6 mm" in page
    assert "ASTM D4950 GC, at most 0.9 (ASTM D2266)" in page
    assert "ASTM D1264 at 80 °C; the method itself says 79 °C" in page
    assert "must pass" in page
    assert "the stricter stands" in page
    assert "from memory, not checked" in page


def test_an_unknown_one_is_not_found(as_):
    assert as_("tech-a").get(address("published", "NLGI 12")).status_code == 404


def test_a_symbol_that_is_published_is_decoded_on_its_page(as_):
    page = text_of(as_("tech-a").get(address("published", "ISO-L-XBCHA 2")))

    assert "lower temperature −20 °C" in page
    assert "no extreme pressure" in page


def test_a_draft_started_from_one_goes_on_to_copying_it(as_):
    client = as_("chem-1")
    page = client.get(address("published", "NLGI 2"))
    opens = f"{address('open-draft', 'LX2')}?published=NLGI%202"

    answered = client.post(opens, {"customer": "", "number": "6", "note": ""})
    copying = client.get(answered["Location"])

    draft = queries.draft_of(queries.product("LX2"))
    assert opens in page.content.decode()
    assert answered["Location"].startswith(address("published-copy", draft.pk))
    assert copying.context["form"]["published"].value() == "NLGI 2"


def test_copying_begins_with_what_the_product_names(as_, draft):
    product = queries.product("LX2")
    named = {
        name: getattr(product, name)
        for name in [
            "name",
            "family",
            "sampling_plan",
            "base_oil",
            "nlgi_aim",
            "designation",
            "pack_target",
            "kettle_offset",
            "safety_sheet",
            "shelf_life_months",
        ]
    }
    actions.change_product(
        product=product, published=one(BOTH), **named, by=person("chem-1")
    )

    form = as_("chem-1").get(address("published-copy", draft.pk)).context["form"]

    assert form["published"].value() == BOTH
    assert not form["comparing"].value()
    assert not form["rule"].value()


def test_lines_are_copied_and_what_was_left_is_told(as_, draft):
    client = as_("chem-1")

    answered = client.post(address("published-copy", draft.pk), sent_for(draft))
    page = text_of(client.get(answered["Location"]))

    assert answered.status_code == 303
    assert "8 lines are copied from GOST 20421-75" in page
    assert "“Appearance” has a limit already, line 6: it stays" in page
    assert "copied from GOST 20421-75, at most 0.15 (as NaOH)" in page


@pytest.mark.parametrize(
    ("given", "field", "sentence"),
    [
        ({"comparing": ""}, "comparing", "there is no default"),
        ({"rule": ""}, "rule", "Name the decision rule"),
        ({"published": ""}, "published", "Choose the published specification"),
    ],
)
def test_copying_without_a_choice_is_refused_beside_its_box(
    as_, draft, given, field, sentence
):
    answered = as_("chem-1").post(
        address("published-copy", draft.pk), sent_for(draft, **given)
    )

    assert answered.status_code == 422
    assert sentence in answered.context["form"].errors[field][0]
    assert draft.requirements.count() == 9


def test_nothing_left_to_copy_is_said_with_the_reasons(as_, draft):
    answered = as_("chem-1").post(
        address("published-copy", draft.pk), sent_for(draft, published="NLGI 2")
    )

    assert answered.status_code == 409
    assert "has a limit already, line 1: it stays" in text_of(answered)
    assert "Compare it with what is published: NLGI 2, 265 to 295" in text_of(answered)


def test_a_late_copy_is_refused_and_can_be_sent_again(as_, draft):
    late = sent_for(draft, version=draft.version - 1)
    client = as_("chem-1")

    refused = client.post(address("published-copy", draft.pk), late)
    again = late | {"version": refused.context["form"]["version"].value()}

    assert refused.status_code == 409
    assert client.post(address("published-copy", draft.pk), again).status_code == 303


def test_an_origin_from_memory_says_so_until_somebody_checked_it(as_, draft):
    client = as_("chem-1")
    client.post(address("published-copy", draft.pk), sent_for(draft, published=BOTH))
    row = draft.requirements.get(characteristic__code="four-ball-wear")
    before = text_of(client.get(address("revision", draft.pk)))
    form = client.get(address("origin", row.pk))

    answered = client.post(
        address("origin", row.pk),
        {
            "checked_by": "P. Lindqvale",
            "version": form.context["form"]["version"].value(),
        },
    )
    after = text_of(client.get(address("revision", draft.pk)))

    wear = "at most 0.6 (ASTM D2266); ASTM D4950, table of requirements"
    assert wear in before
    assert "copied; from memory, not checked copied from ASTM D4950" in before
    assert before.count("It was checked : line") == 14
    assert after.count("It was checked : line") == 13
    assert answered.status_code == 303
    assert "from memory, checked by P. Lindqvale" in after


def test_a_check_without_a_name_is_refused_beside_its_box(as_, draft):
    client = as_("chem-1")
    client.post(address("published-copy", draft.pk), sent_for(draft, published=BOTH))
    row = draft.requirements.get(characteristic__code="four-ball-wear")
    seen = Revision.objects.get(pk=draft.pk).version

    answered = client.post(
        address("origin", row.pk), {"checked_by": " ", "version": seen}
    )

    assert answered.status_code == 422
    assert "Say who compared" in answered.context["form"].errors["checked_by"][0]


def test_a_product_page_leads_to_what_it_names(as_):
    assert "none named" in text_of(as_("tech-a").get(address("product", "LX2")))


@pytest.mark.parametrize(
    ("symbol", "sentence"),
    [
        ("KP2K-30", "upper temperature 120 °C"),
        ("iso-l-xbcha 2", "no extreme pressure"),
        ("KP2Z-30", "“Z” in “KP2Z-30” is no letter of the upper temperature"),
        ("", "Type a symbol to have it decoded"),
    ],
)
def test_a_symbol_is_decoded_or_said_to_be_none(as_, symbol, sentence):
    page = as_("aud-1").get(address("symbols"), {"symbol": symbol})

    assert page.status_code == 200
    assert sentence in text_of(page)


def test_every_letter_stands_with_its_standing_and_source(as_):
    page = text_of(as_("tech-a").get(reverse("specifications:symbols")))

    assert "synthetic hydrocarbon oil" in page
    assert "from memory" in page
    assert "sources differ" in page
