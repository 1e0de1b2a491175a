"""Taking a file in from its page, leaving it, withdrawing what it brought, reading it another way."""

import pytest
from django.urls import reverse

from lims.imports import actions
from lims.imports.models import HistoryLine, Import, Staging
from lims.people.queries import person
from lims.sheets import jobs, looking
from tests.lims.screens.imports.conftest import (
    address,
    answered,
    brought,
    fresh,
    map_as_proposed,
    text_of,
)

State = Import.State


def take(client, row, **sent):
    return client.post(address("take", row.pk), {"version": row.version} | sent)


def test_a_file_that_is_ready_says_what_would_come_and_is_taken_in(chemist, ready):
    before = text_of(chemist.get(address("one", ready.pk)))
    assert "Take in 3 batches with 3 values" in before

    page = take(chemist, ready)

    assert page["Location"] == address("one", ready.pk)
    told = text_of(chemist.get(page["Location"]))
    assert "3 lines of unverified history added." in told
    assert fresh(ready).state == State.TAKEN_IN
    assert HistoryLine.objects.filter(import_of=ready).count() == 3


def test_a_file_that_was_taken_in_leads_to_the_charts_of_its_products(chemist, ready):
    take(chemist, ready)

    page = chemist.get(address("one", ready.pk)).content.decode()

    assert f'href="{reverse("trends:product", args=["LX2"])}"' in page
    assert reverse("trends:product", args=["PU2"]) not in page


def test_what_was_withdrawn_leads_to_no_chart(chemist, ready):
    take(chemist, ready)
    chemist.post(address("withdraw", ready.pk), {"reason": "the wrong book"})

    page = chemist.get(address("one", ready.pk)).content.decode()

    assert fresh(ready).state == State.WITHDRAWN
    assert reverse("trends:product", args=["LX2"]) not in page


def test_a_second_click_takes_nothing_in_twice(chemist, ready):
    take(chemist, ready)

    page = take(chemist, ready)

    assert page.status_code == 303
    assert HistoryLine.objects.count() == 3


def test_somebody_else_who_clicks_later_is_told(as_, chemist, ready):
    take(chemist, ready)

    page = take(as_("qm-1"), ready)

    assert page.status_code == 409
    assert "nothing about it changes any more" in text_of(page)


def test_while_anything_is_asked_there_is_no_way_in(chemist, mapped):
    assert "h-take" not in chemist.get(address("one", mapped.pk)).content.decode()

    page = take(chemist, mapped)

    assert page.status_code == 409
    assert "wait for an answer: nothing is taken in" in text_of(page)
    assert not HistoryLine.objects.exists()


def test_what_somebody_answered_meanwhile_is_looked_at_first(chemist, mapped):
    answered(chemist, mapped)

    page = take(chemist, mapped)  # the version from before the answers

    assert page.status_code == 409
    assert "Somebody answered anew since you opened this page" in text_of(page)
    assert not HistoryLine.objects.exists()


def test_the_pen_book_comes_in_whole_and_says_what_became_of_it(chemist, mapped):
    answered(chemist, mapped)
    assert "Read as" in text_of(chemist.get(address("one", mapped.pk)))

    take(chemist, fresh(mapped))

    page = text_of(chemist.get(address("one", mapped.pk)))
    assert "Taken in by" in page
    assert "Rows that repeated another 1" in page
    assert "Summary rows 1" in page


def test_a_file_is_left_with_a_reason(chemist, tidy):
    page = chemist.post(address("leave", tidy.pk), {"reason": "another plant's book"})

    assert page.status_code == 303
    told = text_of(chemist.get(address("one", tidy.pk)))
    assert "It was not taken in: another plant's book" in told
    assert fresh(tidy).state == State.LEFT


@pytest.mark.parametrize("reason", ["", "  ", "x"])
def test_without_a_reason_it_is_not_left(chemist, tidy, reason):
    page = chemist.post(address("leave", tidy.pk), {"reason": reason})

    assert page.status_code == 422
    assert "<title>Error: " in page.content.decode()
    assert "Say why." in text_of(page)
    assert fresh(tidy).state == State.RECEIVED


def test_history_is_withdrawn_with_a_reason_and_stays_readable(chemist, taken):
    page = chemist.post(address("withdraw", taken.pk), {"reason": "wrong units"})

    assert page.status_code == 303
    told = text_of(chemist.get(address("one", taken.pk)))
    assert "Withdrawn: wrong units" in told
    assert "3 lines." in text_of(chemist.get(address("lines", taken.pk)))


def test_the_page_offers_to_withdraw_by_count(chemist, taken):
    assert "Withdraw 3 lines of history" in text_of(
        chemist.get(address("one", taken.pk))
    )


def test_what_was_never_taken_in_is_not_withdrawn(chemist, tidy):
    page = chemist.post(address("withdraw", tidy.pk), {"reason": "wrong units"})

    assert page.status_code == 409
    assert "only what was taken in is withdrawn" in text_of(page)


def test_a_text_is_read_another_way_and_its_columns_are_asked_anew(chemist, opened):
    row = brought(
        "Batch;Date;Product;Öl\nQ1-25-0391;2025-12-03;LX2;2,1\n".encode("cp850"),
        "öl.csv",
    )
    map_as_proposed(chemist, row, **{"t1-D": "result:oil-separation"})

    page = chemist.post(
        address("reading", row.pk),
        {"version": fresh(row).version, "encoding": "cp850", "delimiter": ";"},
    )

    assert page.status_code == 303
    block = looking.looked(row).blocks[0]
    assert block.block.headings["D"] == "Öl"
    assert not block.is_mapped


def test_a_mark_that_no_form_can_send_as_it_stands_has_a_name(chemist, opened):
    row = brought(
        "Batch\tDate\tProduct\tPen\nQ1-25-0391\t2025-12-03\tLX2\t281\n", "tabs.txt"
    )

    page = chemist.post(
        address("reading", row.pk),
        {"version": row.version, "encoding": "", "delimiter": "tab"},
    )

    assert page.status_code == 303
    assert fresh(row).reading == {"encoding": "", "delimiter": "\t"}
    shown = chemist.get(address("one", row.pk)).context["reading_form"]
    assert shown["delimiter"].value() == "tab"


def test_after_trouble_the_file_is_looked_at_again(chemist, tidy):
    Staging.objects.filter(import_of=tidy).update(stage="failed", words=jobs.TROUBLE)
    assert "Look at the file again" in text_of(chemist.get(address("one", tidy.pk)))

    page = chemist.post(address("look", tidy.pk))

    assert page.status_code == 303
    assert looking.looked(tidy).stage == "looked at"


def test_a_refusal_from_the_background_is_told_on_the_page(chemist, ready):
    told = "Row 2: product LX2 is not kept here any more."
    Staging.objects.filter(import_of=ready).update(words=told)

    page = text_of(chemist.get(address("one", ready.pk)))

    assert "It was not taken in." in page
    assert told in page


@pytest.mark.parametrize("name", ["take", "leave", "withdraw", "look", "reading"])
def test_others_may_do_none_of_it(as_, ready, name):
    page = as_("tech-a").post(
        address(name, ready.pk), {"version": ready.version, "reason": "so"}
    )

    assert page.status_code == 403
    assert fresh(ready).state == State.RECEIVED


def test_others_see_where_it_stands_and_nothing_to_press(as_, mapped):
    page = as_("aud-1").get(address("one", mapped.pk))

    assert "wait for an answer" in text_of(page)
    assert "<form" not in page.content.decode().split("<main")[1].split("</main>")[0]


def test_a_file_of_another_state_offers_no_step(chemist, tidy):
    actions.leave(import_of=tidy, reason="wrong year", by=person("chem-1"))

    page = chemist.get(address("one", tidy.pk)).content.decode()

    assert "h-steps" not in page
    assert "h-end" not in page
