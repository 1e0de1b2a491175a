"""Does the record hold? Whoever may verify runs it, and everybody reads what it can show."""

import pytest
from django.urls import reverse

from lims.record.models import Entry
from lims.record.queries import tail
from tests.lims.record.refused import behind_the_triggers

VERIFY = reverse("record:verify")


@pytest.fixture
def manager(as_account):
    return as_account("mgr-1")


def test_a_record_that_holds_says_so_with_every_line(manager):
    text = manager.post(VERIFY, {}).content.decode()

    assert f"from entry 1 to {tail().seq}." in text
    assert f"The record: {tail().seq} entries, unbroken" in text
    assert "The signatures:" in text
    assert "The triggers: all" in text


def test_the_first_thing_wrong_is_named(manager):
    behind_the_triggers(
        "record_entry", "UPDATE record_entry SET reason = %s WHERE seq = %s", "x", 20
    )

    text = manager.post(VERIFY, {}).content.decode()

    assert "The record does not hold." in text
    assert "entry 20 shows another reason than its content" in text


def test_an_auditor_runs_it_and_writes_nothing(auditor):
    count = Entry.objects.count()

    text = auditor.post(VERIFY, {}).content.decode()

    assert f"from entry 1 to {tail().seq}." in text
    assert Entry.objects.count() == count


@pytest.mark.parametrize("account", ["tech-a", "adm-1"])
def test_others_read_what_it_shows_and_who_may_run_it(as_account, account):
    client = as_account(account)

    text = client.get(VERIFY).content.decode()

    assert (
        "Verifying the record is for the laboratory manager, the quality manager or "
        "the auditor" in text
    )
    assert "It cannot show" in text
    assert client.post(VERIFY, {}).status_code == 403


def test_a_head_taken_out_earlier_stands_in_the_chain(manager):
    entry = Entry.objects.get(seq=30)
    head = f"{entry.hash[:4].upper()} {entry.hash[4:12]}"

    text = manager.post(VERIFY, {"seq": "30", "head": head}).content.decode()

    assert "stands at entry 30: up to there nothing" in text


@pytest.mark.parametrize(
    ("seq", "says"), [("30", "was altered since"), ("99999", "entries are missing")]
)
def test_a_head_that_stands_nowhere_is_told(manager, seq, says):
    text = manager.post(VERIFY, {"seq": seq, "head": "0" * 16}).content.decode()

    assert says in text


@pytest.mark.parametrize(
    ("typed", "box"),
    [
        ({"seq": "30", "head": "12g45678"}, "head"),
        ({"seq": "30", "head": "1234"}, "head"),
        ({"seq": "30", "head": ""}, "head"),
        ({"seq": "", "head": "12345678"}, "seq"),
        ({"seq": "thirty", "head": "12345678"}, "seq"),
    ],
)
def test_a_head_that_cannot_be_read_is_refused_beside_its_box(manager, typed, box):
    answer = manager.post(VERIFY, typed)

    assert answer.status_code == 422
    assert answer.context["form"].errors[box]
    assert "report" not in answer.context


def test_the_page_shows_the_head_to_take_out(as_account):
    assert tail().head in as_account("aud-1").get(VERIFY).content.decode()
