"""Adding and checking instruments, and the acts that take them out, put them back and retire them."""

import pytest
from django.urls import reverse

from lims.instruments.models import Instrument
from lims.record.models import Entry


def one(number="PEN-01", act=""):
    address = reverse("instruments:one", args=[number])
    return f"{address}{act}/" if act else address


def check_data(row, **given):
    return {
        "done_on": "2026-03-04",
        "due_on": "2026-04-04",
        "found": "286.7, assigned 286",
        "is_fit": "fit",
        "version": row.version,
    } | given


def again(row):
    return Instrument.objects.get(pk=row.pk)


def test_an_instrument_is_added_and_is_overdue_until_its_check(as_role, plant):
    client = as_role("quality_manager")

    answer = client.post(
        reverse("instruments:new"), {"number": "PEN-07", "kind": "penetrometer"}
    )

    assert answer.status_code == 303
    assert "never checked" in client.get(answer.url).content.decode()


@pytest.mark.parametrize(
    ("number", "says"),
    [
        ("PEN-01", "stands here already"),
        ("new", "with a digit among them"),
        ("PEN/7", "with a digit among them"),
    ],
)
def test_a_number_that_cannot_be_taken_is_refused_beside_its_box(
    as_role, pen, number, says
):
    typed = {"number": number, "kind": "penetrometer", "note": "spare cone"}

    answer = as_role("laboratory_manager").post(reverse("instruments:new"), typed)

    assert answer.status_code == 422
    assert says in answer.context["form"].errors["number"][0]
    assert 'value="spare cone"' in answer.content.decode()
    assert Instrument.objects.count() == 1


def test_a_technician_records_a_check(as_role, unchecked):
    client = as_role("technician")

    answer = client.post(one("PEN-02", "check"), check_data(unchecked))

    assert answer.status_code == 303
    page = client.get(one("PEN-02")).content.decode()
    assert "Yes, it may be used today" in page
    assert "286.7, assigned 286" in page


def test_a_check_that_finds_it_unfit_takes_it_out_of_service(as_role, pen):
    data = check_data(pen, is_fit="unfit", due_on="", found="292, assigned 286")

    as_role("technician").post(one(act="check"), data)

    assert again(pen).state == "out of service"


def test_a_fit_check_without_the_next_day_keeps_what_was_typed(as_role, pen):
    answer = as_role("technician").post(one(act="check"), check_data(pen, due_on=""))

    assert answer.status_code == 422
    assert answer.context["form"].errors["due_on"]
    assert 'value="286.7, assigned 286"' in answer.content.decode()
    assert again(pen).checks.count() == 1


def test_a_check_on_a_page_that_is_out_of_date_is_refused_once_and_then_taken(
    as_role, pen
):
    client = as_role("technician")
    client.post(one(act="check"), check_data(pen, found="first"))

    late = client.post(one(act="check"), check_data(pen, found="second"))

    assert late.status_code == 409
    assert 'value="second"' in late.content.decode()
    shown = late.context["form"]["version"].value()
    sent_again = client.post(
        one(act="check"), check_data(pen, found="second", version=shown)
    )
    assert sent_again.status_code == 303


def test_it_is_taken_out_and_comes_back_with_reasons(as_role, pen):
    client = as_role("laboratory_manager")

    client.post(one(act="take-out"), {"reason": "lent out", "version": pen.version})
    assert again(pen).state == "out of service"
    client.post(
        one(act="put-back"), {"reason": "returned", "version": again(pen).version}
    )

    assert again(pen).state == "in service"
    reasons = Entry.objects.filter(about_key="PEN-01").values_list("reason", flat=True)
    assert {"lent out", "returned"} <= set(reasons)


def test_what_was_never_found_fit_does_not_come_back_and_the_page_says_why(
    as_role, unchecked, keeper
):
    client = as_role("laboratory_manager")
    client.post(
        one("PEN-02", "take-out"), {"reason": "bent cone", "version": unchecked.version}
    )

    page = client.get(one("PEN-02")).content.decode()
    refused = client.post(
        one("PEN-02", "put-back"),
        {"reason": "straight", "version": again(unchecked).version},
    )

    assert "comes back only after a check" in page
    assert refused.status_code == 409
    assert again(unchecked).state == "out of service"


def test_a_move_without_a_reason_is_refused(as_role, pen):
    answer = as_role("laboratory_manager").post(
        one(act="retire"), {"reason": " ", "version": pen.version}
    )

    assert answer.status_code == 422
    assert again(pen).state == "in service"


def test_a_retired_one_offers_nothing_more(as_role, pen):
    client = as_role("laboratory_manager")
    client.post(one(act="retire"), {"reason": "cone worn", "version": pen.version})

    page = client.get(one()).content.decode()

    assert "Use another of its kind" in page
    assert one(act="retire") not in page
    assert reverse("instruments:check", args=["PEN-01"]) not in page


@pytest.mark.parametrize("act", ["take-out", "put-back", "retire"])
def test_a_technician_moves_no_instrument_and_learns_who_does(as_role, pen, act):
    answer = as_role("technician").post(
        one(act=act), {"reason": "because", "version": 1}
    )

    assert answer.status_code == 403
    assert (
        "Keeping instruments is for the laboratory manager" in answer.content.decode()
    )
    assert again(pen).state == "in service"


@pytest.mark.parametrize("act", ["take-out", "put-back", "retire"])
def test_reading_an_act_changes_nothing(as_role, pen, act):
    assert as_role("laboratory_manager").get(one(act=act)).status_code == 405


def test_an_unknown_number_stands_nowhere(as_role, pen):
    assert as_role("technician").get(one("PEN-99")).status_code == 404
