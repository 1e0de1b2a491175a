"""Entries in a reader's words: what changed first, and what programs need under everything that was written."""

import html
import re

import pytest
from django.urls import reverse

from lims.bench.actions import entering
from lims.certificates import actions as certificates
from lims.instruments import actions as instruments
from lims.instruments.queries import instrument
from lims.people.queries import person
from lims.products.models import Customer
from lims.record.models import Entry
from tests.factories import plant

LIST = reverse("record:list")
FOLDED = "Everything that was written"


def text_of(page):
    bare = re.sub(r"<[^>]*>", " ", page.content.decode())
    return " ".join(html.unescape(bare).split())


def entry_page(client, **kept):
    last = Entry.objects.filter(**kept).latest("seq")
    return client.get(reverse("record:entry", args=[last.seq]))


def parts_of(page):
    """What a reader sees at once, and what is folded."""
    seen, _, folded = text_of(page).partition(FOLDED)
    return seen, folded.partition("Its place in the chain")[0]


@pytest.fixture
def held(works):
    """The lot on hold, so that its readings are open again."""
    plant.hold(plant.lot())


def correct_reading():
    entering.record_reading(
        test=plant.the_test("worked-penetration"),
        slot="cone_1",
        text="278",
        reason="read from the wrong line",
        by=person("tech-b"),
    )


def exchange_penetrometer(number):
    entering.record_condition(
        test=plant.the_test("worked-penetration"),
        key="penetrometer",
        text=number,
        reason="the wrong one was written down",
        by=person("tech-b"),
    )


def test_a_corrected_reading_shows_what_stood_before(held, auditor):
    correct_reading()

    listed = text_of(auditor.get(LIST, {"verb": "reading_corrected"}))
    seen, _ = parts_of(entry_page(auditor, verb="reading_corrected"))

    assert "cone 1 279 × 0.1 mm → 278 × 0.1 mm" in listed
    assert "cone 1 279 × 0.1 mm → 278 × 0.1 mm" in seen
    assert "replaces" not in listed
    assert "replaces" not in seen


def test_a_first_reading_shows_only_what_it_is(auditor):
    page = entry_page(auditor, verb="reading_recorded")

    assert "was not there" not in text_of(page)
    assert "<del>None" not in page.content.decode()


def test_an_instrument_that_could_not_count_is_named_with_its_state(held, auditor):
    instruments.take_out_of_service(
        instrument=instrument("PEN-02"), reason="needle bent", by=person("mgr-1")
    )
    exchange_penetrometer("PEN-02")
    exchange_penetrometer("PEN-01")

    text = text_of(auditor.get(LIST, {"verb": "condition_corrected"}))

    assert "penetrometer PEN-02, out of service → PEN-01" in text
    assert "why it cannot count PEN-02 was out of service when it was used." in text


def test_what_only_programs_need_is_folded(auditor):
    seen, folded = parts_of(entry_page(auditor, verb="reading_recorded"))

    for words in ("worked out of it", "version", "complete"):
        assert words not in seen
        assert words in folded
    assert "says" not in seen + folded


def test_the_list_shows_no_text_of_programs(auditor):
    text = text_of(auditor.get(LIST))

    for words in ("sha256", "sources", "bars", "about kind", "pack count", '{"', '["'):
        assert words not in text
    assert "frozen verdict" not in text


def test_a_signed_entry_folds_the_lines_that_were_signed(auditor):
    page = auditor.get(LIST, {"verb": "lot_released", "day": "2026-03-09"})
    text = text_of(page)
    details = re.search(r"<details>.*?</details>", page.content.decode(), re.DOTALL)

    assert "“reviewed and authorised”" in text
    assert "Worked penetration (265 to 295)" in details[0]
    assert re.search(
        r"Worked penetration \(265 to 295\)</dt><dd>\d+, met</dd>", details[0]
    )
    assert "(smooth, free of lumps)</dt><dd>met</dd>" in details[0]
    assert "Worked penetration (265 to 295)" not in text_of(page).split("What was")[0]


def test_a_hidden_text_is_told_as_changed(auditor):
    seen, _ = parts_of(entry_page(auditor, verb="invitation_accepted"))

    assert "password changed; it is never shown" in seen
    assert "(hidden)" not in seen


def test_the_filter_offers_typed_text_that_is_no_value(auditor):
    assert "Typed text that is no value, kept" in text_of(auditor.get(LIST))


def test_a_lots_number_also_finds_its_certificates(works, auditor):
    allotment = certificates.allot(
        fill_lot=plant.lot(),
        customer=Customer.objects.get(code="TT"),
        order="TT-7702",
        pack_count=6,
        by=person("desk-1"),
    )
    issued = certificates.issue(allotment=allotment, by=person("desk-1"))
    number = issued.certificate.number

    for typed in ("Q1-26-0417-A", "Q1-26-0417 A"):
        text = text_of(auditor.get(LIST, {"about": typed}))
        other = text_of(auditor.get(LIST, {"about": typed, "verb": "retain_kept"}))
        assert f"Certificate issued : certificate {number}" in text
        assert number not in other
        assert "R-12-04" in other
    assert number not in text_of(auditor.get(LIST, {"about": "Q1-26-0310"}))
