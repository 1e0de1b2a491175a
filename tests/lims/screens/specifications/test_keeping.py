"""Adding and changing products, customers and plans through their forms."""

import pytest

from lims.people.queries import person
from lims.products import actions, queries
from lims.products.models import Customer, SamplingPlan
from tests.lims.screens.specifications.conftest import address, text_of


def product_sent(**given):
    row = queries.product("LX2")
    return {
        "name": row.name,
        "family": row.family,
        "base_oil": row.base_oil,
        "nlgi_aim": row.nlgi_aim,
        "designation": row.designation,
        "sampling_plan": row.sampling_plan_id,
        "pack_target": row.pack_target,
        "kettle_offset": row.kettle_offset,
        "safety_sheet": row.safety_sheet,
        "shelf_life_months": row.shelf_life_months,
        "version": row.version,
    } | given


@pytest.mark.parametrize(
    ("account", "name", "args"),
    [
        ("qm-1", "product-new", []),
        ("desk-1", "product-change", ["LX2"]),
        ("aud-1", "plan-new", []),
        ("desk-1", "open-draft", ["LX2"]),
        ("chem-1", "customer-new", []),
        ("tech-a", "customer-change", ["OL"]),
        ("adm-1", "product-new", []),
    ],
)
def test_who_may_not_change_is_told_who_may(account, name, args, as_):
    answered = as_(account).get(address(name, *args))

    assert answered.status_code == 403
    assert " is for the " in text_of(answered)


@pytest.mark.parametrize(
    ("account", "name", "args"),
    [
        ("chem-1", "product-new", []),
        ("mgr-1", "product-change", ["LX2"]),
        ("chem-1", "plan-new", []),
        ("chem-1", "open-draft", ["LX2"]),
        ("desk-1", "customer-new", []),
        ("qm-1", "customer-change", ["OL"]),
    ],
)
def test_who_may_change_is_given_the_form(account, name, args, as_):
    assert as_(account).get(address(name, *args)).status_code == 200


def test_a_product_is_added_and_leads_to_its_page(as_):
    sent = product_sent(code="LX3", name="LX3 grease", nlgi_aim="3")

    answered = as_("chem-1").post(address("product-new"), sent)

    assert answered.status_code == 303
    assert answered["Location"] == address("product", "LX3")
    assert queries.product("LX3").nlgi_aim == "3"


def test_a_code_that_stands_already_is_refused_with_what_was_typed(as_):
    sent = product_sent(code="LX2", name="another name")

    answered = as_("chem-1").post(address("product-new"), sent)

    assert answered.status_code == 422
    assert "The product LX2 stands here already" in text_of(answered)
    assert "another name" in answered.content.decode()


def test_a_product_is_changed(as_):
    answered = as_("chem-1").post(
        address("product-change", "LX2"), product_sent(pack_target="278")
    )

    assert answered.status_code == 303
    assert queries.product("LX2").pack_target == "278"


def test_a_late_change_is_refused_and_shows_yours_and_theirs(as_):
    late = product_sent(name="my name")
    first = product_sent(name="their name")
    client = as_("chem-1")
    client.post(address("product-change", "LX2"), first)

    answered = client.post(address("product-change", "LX2"), late)

    assert answered.status_code == 409
    assert "yours: my name theirs: their name" in text_of(answered)
    assert 'value="my name"' in answered.content.decode()
    assert queries.product("LX2").name == "their name"


def test_a_late_change_may_be_sent_again_from_what_stands_now(as_):
    late = product_sent(name="my name")
    client = as_("chem-1")
    client.post(address("product-change", "LX2"), product_sent(name="their name"))
    shown = client.post(address("product-change", "LX2"), late)

    again = late | {"version": shown.context["form"]["version"].value()}
    answered = client.post(address("product-change", "LX2"), again)

    assert answered.status_code == 303
    assert queries.product("LX2").name == "my name"


def test_a_customer_is_added_and_changed(as_):
    client = as_("desk-1")
    sent = {"code": "NW", "name": "Netherwick Mills", "mail": "", "language": "en"}

    added = client.post(address("customer-new"), sent)
    changed = client.post(
        address("customer-change", "NW"),
        sent | {"address": "Weir Lane 2", "language": "de", "version": 1},
    )

    assert (added.status_code, changed.status_code) == (303, 303)
    assert Customer.objects.get(code="NW").address == "Weir Lane 2"
    assert Customer.objects.get(code="NW").language == "de"


@pytest.mark.parametrize(
    ("language", "called"),
    [("fr", "Français"), ("es", "Español"), ("pl", "Polski")],
)
def test_a_customer_may_be_given_any_language_of_the_papers(as_, language, called):
    client = as_("desk-1")
    sent = {"code": "NW", "name": "Netherwick Mills", "mail": "", "language": language}

    client.post(address("customer-new"), sent)

    assert Customer.objects.get(code="NW").language == language
    assert called in client.get(address("customer", "NW")).content.decode()


def test_a_language_that_no_paper_speaks_is_refused_and_nothing_typed_is_lost(as_):
    sent = {"code": "NW", "name": "Netherwick Mills", "mail": "", "language": "it"}

    answered = as_("desk-1").post(address("customer-new"), sent)

    assert answered.status_code == 422
    assert answered.context["form"].errors["language"]
    assert 'value="Netherwick Mills"' in answered.content.decode()
    assert not Customer.objects.filter(code="NW").exists()


def test_a_mail_address_that_is_none_is_refused_beside_its_box(as_):
    sent = {"code": "NW", "name": "Netherwick Mills", "mail": "x@", "language": "en"}

    answered = as_("desk-1").post(address("customer-new"), sent)

    assert answered.status_code == 422
    assert "“x@” is no mail address" in answered.context["form"].errors["mail"][0]


def test_a_late_change_of_a_customer_is_refused(as_):
    row = Customer.objects.get(code="OL")
    actions.change_customer(
        customer=row,
        name=row.name,
        address="Neue Gasse 1",
        mail=row.mail,
        language=row.language,
        by=person("qm-1"),
    )
    late = {"name": row.name, "address": "Alter Weg 2", "language": "de", "version": 1}

    answered = as_("desk-1").post(address("customer-change", "OL"), late)

    assert answered.status_code == 409
    assert "yours: Alter Weg 2 theirs: Neue Gasse 1" in text_of(answered)


def test_a_plan_is_added(as_):
    sent = {
        "code": "SP-03",
        "words": "Two of a fill lot",
        "places": ["pack", "after mill"],
        "hours_after_filling": "24",
    }

    answered = as_("chem-1").post(address("plan-new"), sent)

    assert answered.status_code == 303
    assert SamplingPlan.objects.get(code="SP-03").places == ["pack", "after mill"]


def test_a_plan_without_a_place_is_refused(as_):
    sent = {"code": "SP-03", "words": "None", "hours_after_filling": "twelve"}

    answered = as_("chem-1").post(address("plan-new"), sent)

    assert answered.status_code == 422
    assert "Say where the samples are taken." in text_of(answered)
    assert "Write a whole number, such as 12." in text_of(answered)
    assert "twelve" in answered.content.decode()
