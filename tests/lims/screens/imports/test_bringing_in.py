"""Bringing a file in: who may, what is refused with which sentence, and that the same file is not there twice."""

import pytest

from lims.imports import rules
from lims.imports.models import Import
from lims.people.queries import person
from tests.lims.screens.imports.conftest import (
    TIDY,
    address,
    fresh,
    text_of,
    upload,
)


def bring(client, content, kind="history", name="file.csv"):
    return client.post(address("new"), {"kind": kind, "file": upload(content, name)})


def test_a_file_is_kept_and_looked_at_and_its_page_says_what_comes_next(chemist):
    page = chemist.post(
        address("new"),
        {"kind": "history", "file": upload(TIDY, "tidy.csv")},
        follow=True,
    )

    row = Import.objects.get()
    assert page.redirect_chain == [(address("one", row.pk), 303)]
    assert "1 table was found. Say next what the columns hold." in text_of(page)
    assert row.name == "tidy.csv"


@pytest.mark.parametrize(
    ("account", "kinds"),
    [
        ("tech-a", {"samples", "log"}),
        ("chem-1", {"history", "specifications", "figures"}),
        ("desk-1", {"customers"}),
    ],
)
def test_only_kinds_that_the_person_may_bring_in_are_offered(as_, account, kinds):
    form = as_(account).get(address("new")).context["form"]

    assert {key for key, _ in form.fields["kind"].choices} == kinds


def test_who_may_bring_in_nothing_learns_who_can(as_):
    page = as_("aud-1").get(address("new"))

    assert page.status_code == 403
    assert "Bringing in files is for the laboratory manager" in text_of(page)


def test_a_kind_that_is_not_offered_is_refused(as_):
    page = bring(as_("desk-1"), TIDY)

    assert page.status_code == 422
    assert not Import.objects.exists()


def test_without_a_file_the_summary_comes_first_and_the_kind_stays(chemist):
    page = chemist.post(address("new"), {"kind": "specifications"})

    assert page.status_code == 422
    assert page.content.decode().count("<title>Error: ") == 1
    assert "Choose the file." in text_of(page)
    assert page.context["form"]["kind"].value() == "specifications"


def test_without_a_kind_the_file_has_to_be_chosen_again_and_the_page_says_so(chemist):
    page = chemist.post(address("new"), {"file": upload(TIDY)})

    assert page.status_code == 422
    assert "Say what the file holds." in text_of(page)
    assert "A page does not keep a file: choose it again." in text_of(page)


def test_an_empty_file_is_refused(chemist):
    page = bring(chemist, b"")

    assert page.status_code == 422
    assert "The file is empty: choose another one." in text_of(page)


def test_a_file_that_is_too_large_is_refused_before_it_is_read(chemist, monkeypatch):
    monkeypatch.setattr(rules, "LARGEST", 20)

    page = bring(chemist, TIDY)

    assert page.status_code == 422
    assert "split it" in text_of(page)
    assert not Import.objects.exists()


def test_a_file_that_cannot_be_read_is_kept_refused_and_says_why(chemist):
    page = chemist.post(
        address("new"),
        {"kind": "history", "file": upload(b"%PDF-1.7\n1 0 obj", "scan.pdf")},
        follow=True,
    )

    row = Import.objects.get()
    assert row.state == Import.State.REFUSED
    assert "It cannot be read." in text_of(page)
    assert row.reason in text_of(page)


def test_the_same_file_sent_twice_is_one_import(chemist):
    first, second = bring(chemist, TIDY), bring(chemist, TIDY)

    assert first["Location"] == second["Location"]
    assert Import.objects.count() == 1


def test_a_file_that_was_taken_in_is_refused_naming_when_and_by_whom(chemist, taken):
    page = bring(chemist, TIDY)

    assert page.status_code == 422
    assert "This very file was taken in on" in text_of(page)
    assert person("chem-1").name in text_of(page)
    assert fresh(taken).line_count == 3


def test_the_kind_that_a_link_names_is_chosen_already(chemist):
    page = chemist.get(address("new") + "?kind=history")

    assert page.context["form"]["kind"].value() == "history"


def test_a_template_is_a_workbook_under_its_own_name(chemist):
    page = chemist.get(address("template", "history") + "?product=LX2")

    assert page["Content-Disposition"] == 'attachment; filename="history-LX2.xlsx"'
    assert page.content.startswith(b"PK")


@pytest.mark.parametrize("asked", ["nothing/", "history/?product=XX9"])
def test_a_template_of_nothing_is_not_found(chemist, asked):
    assert (
        chemist.get(address("new").replace("new/", f"templates/{asked}")).status_code
        == 404
    )


@pytest.mark.parametrize("account", ["chem-1", "tech-a", "mgr-1", "desk-1"])
def test_every_kind_that_is_offered_has_its_template(as_, account):
    client = as_(account)
    offered = client.get(address("new")).context["templates"]

    assert offered
    for kind, _, _ in offered:
        assert client.get(address("template", kind)).content[:2] == b"PK", kind
