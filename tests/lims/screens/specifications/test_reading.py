"""Reading specifications: each page answers for every role, and asks a constant number of questions."""

import pytest

from lims.people.queries import person
from lims.products import actions, queries
from lims.products.lines import Line
from lims.products.models import Customer
from tests.factories.people import PASSWORD
from tests.lims.screens.specifications.conftest import address, text_of

EVERYBODY = ("chem-1", "qm-1", "mgr-1", "tech-a", "desk-1", "aud-1", "adm-1")


def pages(draft):
    own = queries.in_force(queries.product("LX2"))
    return [
        address("list"),
        address("product", "LX2"),
        address("customer-list"),
        address("customer", "OL"),
        address("revision", own.pk),
        address("revision", draft.pk),
    ]


@pytest.mark.parametrize("account", EVERYBODY)
def test_everybody_who_works_here_reads_every_page(account, as_, draft):
    client = as_(account)

    answers = [client.get(page).status_code for page in pages(draft)]

    assert answers == [200] * 6


def test_a_stranger_is_asked_to_sign_in(client, draft):
    answers = [client.get(page) for page in pages(draft)]

    assert all("/sign-in/" in it["Location"] for it in answers)


def test_the_list_says_what_is_in_force_and_what_waits(as_, draft):
    text = text_of(as_("aud-1").get(address("list")))

    assert "each have a specification in force. 1 draft waits to be approved." in text
    assert "revision 5 in force" in text
    assert "revision 6 draft" in text
    assert "rounding, simple acceptance" in text


def test_the_list_is_narrowed_by_code_and_by_state(as_, draft):
    client = as_("aud-1")

    by_code = text_of(client.get(address("list"), {"q": "pu2"}))
    drafted = text_of(client.get(address("list"), {"state": "draft"}))
    missing = text_of(client.get(address("list"), {"state": "missing"}))

    assert "1 of 4 products" in by_code
    assert "1 of 4 products" in drafted
    assert "No product fits this filter." in missing


def test_a_product_without_specification_is_named_in_the_answer(as_, draft):
    actions.add_product(
        code="EX/1",
        name="trial grease",
        family="clay",
        sampling_plan=queries.product("LX2").sampling_plan,
        by=person("chem-1"),
    )
    client = as_("chem-1")

    text = text_of(client.get(address("list")))
    page = client.get(address("product", "EX/1"))

    assert "4 of 5 products have a specification in force; without one: EX/1." in text
    assert page.status_code == 200
    assert "No specification yet" in text_of(page)


def test_a_product_says_what_it_must_meet_and_what_the_kettle_should_show(as_, draft):
    text = text_of(as_("aud-1").get(address("product", "LX2")))

    assert "LX2 must meet revision 5, in force since 1 December 2025: 7 limits" in text
    assert "Worked penetration, kettle 284 × 0.1 mm" in text
    assert "269 to 299 × 0.1 mm" in text
    assert "SP-02, One sample a fill lot, from the pack" in text
    assert "0 batches" in text


def test_a_revision_shows_its_limits_as_typed_and_in_words_with_must(as_, draft):
    own = queries.in_force(queries.product("LX2"))

    text = text_of(as_("aud-1").get(address("revision", own.pk)))

    assert "must be 265 to 295 × 0.1 mm" in text
    assert "must be at least 190 °C" in text
    assert "must be at most 5.0 mass %" in text
    assert "must be 1b or better" in text
    assert "must be smooth, free of lumps" in text
    assert "periodic: every 20 batches or every 6 months" in text
    assert "270 to 290 × 0.1 mm" in text
    assert "typically 35 to 45 kPa typical, not a result" in text
    assert "reviewed and approved" in text


def test_a_customers_revision_stands_beside_the_products_own(as_, draft):
    agreed = queries.in_force(queries.product("LX2"), Customer.objects.get(code="OL"))

    text = text_of(as_("aud-1").get(address("revision", agreed.pk)))

    assert "the product's own: must be 265 to 295" in text


def test_an_unknown_address_is_not_found(as_, draft):
    client = as_("aud-1")

    answers = [
        client.get(address(*it)).status_code
        for it in (("product", "NO"), ("customer", "NO"), ("revision", 99999))
    ]

    assert answers == [404, 404, 404]


def test_only_who_may_is_offered_the_changes(as_, draft):
    drafter = as_("chem-1").get(address("revision", draft.pk)).content.decode()
    approver = as_("qm-1").get(address("revision", draft.pk)).content.decode()
    reader = as_("aud-1").get(address("revision", draft.pk)).content.decode()

    assert address("line-new", draft.pk) in drafter
    assert address("approve", draft.pk) not in drafter
    assert address("approve", draft.pk) in approver
    assert address("line-new", draft.pk) not in approver
    assert address("line-new", draft.pk) not in reader
    assert "Approving specifications is for the quality manager." in reader


def test_more_products_and_drafts_ask_no_more_questions(
    as_, draft, django_assert_num_queries, django_assert_max_num_queries
):
    client = as_("aud-1")
    client.get(address("list"))
    with django_assert_max_num_queries(14) as few:
        client.get(address("list"))
    for number in range(4):
        _with_specification(f"N{number}")

    with django_assert_num_queries(len(few.captured_queries)):
        client.get(address("list"))


def test_a_revision_with_many_lines_asks_few_questions(
    as_, draft, django_assert_max_num_queries
):
    client = as_("chem-1")

    with django_assert_max_num_queries(12):
        client.get(address("revision", draft.pk))


def test_a_product_with_many_revisions_asks_few_questions(
    as_, draft, django_assert_max_num_queries
):
    client = as_("chem-1")

    with django_assert_max_num_queries(16):
        client.get(address("product", "LX2"))


def _with_specification(code):
    lx2 = queries.product("LX2")
    chemist = person("chem-1")
    row = actions.add_product(
        code=code,
        name="more",
        family="clay",
        sampling_plan=lx2.sampling_plan,
        by=chemist,
    )
    new = actions.open_draft(product=row, number="1", by=chemist)
    old = queries.in_force(lx2).requirements.first()
    line = Line(
        old.characteristic,
        old.edition,
        upper="295",
        comparing="rounding",
        rule="simple acceptance",
    )
    actions.set_requirement(revision=new, line=line, by=chemist)
    actions.approve_revision(revision=new, password=PASSWORD, by=person("qm-1"))
