"""Packs are allotted to an order: what is left, what is refused, what is kept."""

import pytest
from django.urls import reverse

from lims.certificates.models import Allotment
from lims.products.models import Customer
from tests.factories import plant

GIVEN = {"customer": "TT", "order": "TT-7781", "pack_count": "4"}


@pytest.fixture
def address(lot):
    return reverse("certificates:allot", args=[lot.number])


def typed(**more):
    given = GIVEN | more
    customer = Customer.objects.get(code=given["customer"])
    return given | {"customer": str(customer.pk)}


def test_packs_are_allotted_and_the_certificate_is_offered(desk, address):
    response = desk.post(address, typed())

    allotment = Allotment.objects.get()
    assert response.status_code == 303
    assert response.headers["Location"] == reverse(
        "certificates:allotment", args=[allotment.pk]
    )
    assert (allotment.order, allotment.pack_count) == ("TT-7781", 4)


def test_the_page_says_what_is_left(desk, address, allotted):
    allotted(packs=4)

    assert "26 of 30 drums" in desk.get(address).content.decode()


def test_the_page_says_before_anything_is_typed_who_may_have_the_lot(desk, address):
    page = " ".join(desk.get(address).content.decode().split())

    told = page.split("Who may have it")[1].split("Allotted so far")[0]
    own, ol = told.split("OL for LX2 revision C")
    assert "every limit was met" in own
    assert ">met<" in own
    assert "Change of penetration +21" in ol
    assert ">not met<" in ol


def test_of_a_lot_that_is_not_released_nobody_is_told_to_have_it(desk, address, lot):
    plant.hold(lot)

    assert "Who may have it" not in desk.get(address).content.decode()


def test_an_order_noted_at_filling_stands_above_the_form(desk):
    plant.play(
        plant.story("0418", retain="R-12-05", order_note="TT-9, 12 drums"),
        until="2026-03-10 09:00",
    )
    plant.release(plant.lot("0418"))

    page = desk.get(
        reverse("certificates:allot", args=[plant.lot("0418").number])
    ).content.decode()

    assert page.index("TT-9, 12 drums") < page.index("Allot the packs")


def test_the_page_asks_as_many_queries_for_many_allotments(
    desk, address, allotted, django_assert_max_num_queries
):
    for n in range(8):
        allotted(order=f"TT-{n}", packs=1)

    with django_assert_max_num_queries(15):
        desk.get(address)


def test_more_packs_than_are_left_are_refused_beside_their_box(desk, address):
    response = desk.post(address, typed(pack_count="31"))

    form = response.context["form"]
    assert response.status_code == 422
    assert "30 of 30 packs are left" in form.errors["pack_count"][0]
    assert form["order"].value() == "TT-7781"
    assert not Allotment.objects.exists()


def test_packs_that_are_no_whole_number_are_told_and_kept(desk, address):
    for packs in ("0", "-1", "four", "", "1.5", "1e3"):
        response = desk.post(address, typed(pack_count=packs))

        assert response.status_code == 422
        assert response.context["form"]["pack_count"].value() == packs
        assert "pack_count" in response.context["form"].errors


def test_a_customer_whose_limits_are_not_met_learns_the_line(desk, address):
    response = desk.post(address, typed(customer="OL"))

    told = response.context["form"].errors["customer"][0]
    assert response.status_code == 422
    assert "does not meet" in told
    assert "Change of penetration" in told
    assert "TT-7781" in response.content.decode()


def test_an_order_is_asked_for(desk, address):
    response = desk.post(address, typed(order="   "))

    assert response.context["form"].errors["order"] == ["Write the customer's order."]


def test_nothing_of_a_lot_on_hold_can_be_allotted(desk, address, lot):
    from lims.decisions import actions
    from lims.decisions.review import review_of
    from lims.people.queries import person
    from tests.factories.people import PASSWORD

    actions.hold(
        fill_lot=lot,
        seen=review_of(lot).seen,
        password=PASSWORD,
        remark="a drum leaks",
        by=person("mgr-1"),
    )

    page = desk.get(address).content.decode()
    sent = desk.post(address, typed())

    assert "is on hold, so nothing of it may leave" in page
    assert "Allot the packs" not in page
    assert sent.status_code == 409
    assert not Allotment.objects.exists()


def test_a_lot_is_chosen_by_its_number_however_typed(desk, address):
    response = desk.get(reverse("certificates:issue"), {"lot": " q1-26-0310 a "})

    assert response.status_code == 302
    assert response.headers["Location"] == address


def test_a_number_that_no_lot_has_is_told_and_kept(desk):
    response = desk.get(reverse("certificates:issue"), {"lot": "Q1-26-9999 A"})

    assert response.status_code == 422
    assert "No fill lot has this number." in response.content.decode()
    assert "Q1-26-9999 A" in response.content.decode()


def test_packs_go_back_with_a_reason_only(desk, allotted):
    allotment = allotted()
    address = reverse("certificates:give-back", args=[allotment.pk])

    without = desk.post(address, {"reason": "  "})
    allotment.refresh_from_db()
    assert without.status_code == 422
    assert "Say why the packs are given back." in without.content.decode()
    assert not allotment.is_given_back

    given_back = desk.post(address, {"reason": "order cancelled"})
    allotment.refresh_from_db()
    assert given_back.status_code == 303
    assert allotment.is_given_back


def test_packs_of_an_issued_certificate_stay(desk, issued):
    allotment = issued().certificate.allotment

    response = desk.post(
        reverse("certificates:give-back", args=[allotment.pk]),
        {"reason": "too late for that"},
    )

    allotment.refresh_from_db()
    assert response.status_code == 409
    assert not allotment.is_given_back


def test_only_despatch_allots_packs(browsing, address):
    for account in ("tech-a", "mgr-1", "qm-1", "aud-1", "adm-1", "chem-1"):
        response = browsing(account).post(address, typed())

        assert response.status_code == 403
        assert "Allotting packs is for the despatch" in response.content.decode()
    assert not Allotment.objects.exists()
