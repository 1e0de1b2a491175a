"""The whole record: newest first, narrowed by person, act, thing and day, for all who may read."""

import re

import pytest
from django.urls import reverse

from lims.record.models import Entry

LIST = reverse("record:list")


def numbers(response):
    """The entries on a page, from its top down."""
    return [int(seq) for seq in re.findall(r'id="e(\d+)"', response.content.decode())]


def test_the_newest_entry_stands_first_fifty_on_a_page(auditor):
    last = Entry.objects.count()

    first_page, second_page = auditor.get(LIST), auditor.get(LIST, {"page": "2"})

    assert numbers(first_page) == list(range(last, last - 50, -1))
    assert numbers(second_page)[0] == last - 50


@pytest.mark.parametrize("account", ["aud-1", "desk-1", "adm-1", "tech-a"])
def test_everybody_who_works_here_reads_it(as_account, account):
    assert as_account(account).get(LIST).status_code == 200


def test_a_stranger_does_not(client, works):
    assert client.get(LIST).status_code == 302


def test_an_entry_says_who_did_what_with_its_place_in_the_chain(auditor):
    entry = Entry.objects.filter(verb="lot_released").latest("seq")

    page = auditor.get(LIST, {"verb": "lot_released", "day": "2026-03-09"})
    text = page.content.decode()

    assert numbers(page) == [entry.seq]
    assert "Fill lot released" in text
    assert "Mara Ellingsworth, laboratory manager, mgr-1" in text
    assert f"{entry.hash[:4]} {entry.hash[4:8]}" in text
    assert f"{entry.previous[:4]} {entry.previous[4:8]}" in text
    assert "<del>awaiting decision</del> → <ins>released</ins>" in text


def test_only_a_signed_entry_bears_the_hallmark(auditor):
    signed = auditor.get(LIST, {"verb": "lot_released"}).content.decode()
    plain = auditor.get(LIST, {"verb": "retain_kept"}).content.decode()

    assert 'class="stamp"' in signed
    assert 'class="stamp"' not in plain


@pytest.mark.parametrize(
    ("asked", "kept"),
    [
        ({"person": "qm-1"}, {"account": "qm-1"}),
        ({"verb": "retain_kept"}, {"verb": "retain_kept"}),
        (
            {"about": "0417-A", "verb": "retain_kept"},
            {"about_key": "Q1-26-0417-A", "verb": "retain_kept"},
        ),
    ],
)
def test_a_filter_leaves_what_fits_and_nothing_else(auditor, asked, kept):
    page = auditor.get(LIST, asked)

    expected = list(Entry.objects.filter(**kept).values_list("seq", flat=True))
    assert expected
    assert numbers(page) == expected[:50]


def test_a_day_is_the_laboratorys_and_not_universal_time(auditor):
    page = auditor.get(LIST, {"day": "2026-03-09"})

    shown = Entry.objects.filter(seq__in=numbers(page))
    assert [entry.verb for entry in shown] == ["lot_released"]


def test_a_day_that_is_none_says_so_and_keeps_what_was_typed(auditor):
    page = auditor.get(LIST, {"day": "yesterday", "about": "0417"})

    assert "This is no day of the calendar" in page.content.decode()
    assert page.context["form"]["about"].value() == "0417"


def test_nothing_that_fits_says_so(auditor):
    page = auditor.get(LIST, {"about": "Q9-99"})

    assert "No entry fits" in page.content.decode()


def test_a_full_page_asks_no_more_queries_than_kinds_of_things(
    auditor, django_assert_max_num_queries
):
    with django_assert_max_num_queries(24):
        auditor.get(LIST)


def test_five_tests_authorised_by_one_act_are_one_line(auditor):
    page = auditor.get(LIST, {"verb": "lot_released", "day": "2026-03-09"})

    lines = re.findall(r"<dt>(test, \d+ of them)</dt>", page.content.decode())
    assert len(lines) == 1


def test_what_was_typed_stands_beside_the_name_of_its_box(auditor):
    page = auditor.get(
        LIST, {"verb": "reading_recorded", "about": "Worked penetration of Q1-26-0417"}
    )

    assert re.search(
        r"<dt>cone 1</dt><dd><ins>279 ×.0\.1.mm</ins>", page.content.decode()
    )
