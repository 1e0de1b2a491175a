"""A certificate is issued once, printed afterwards, and never reported as not issued."""

import pytest
from django.urls import reverse

from lims.certificates.data import CertificateData
from lims.certificates.models import Certificate, CertificateRevision
from lims.documents.certificate import as_html
from lims.screens.certificates import issuing

WISHES = {"ship_to": "", "delivery_note": "DN-26-0311", "part_number": "", "language": "en"}  # fmt: skip


def at(name, allotment):
    return reverse(f"certificates:{name}", args=[allotment.pk])


@pytest.fixture
def broken(monkeypatch):
    """The printer fails, whatever it is given."""

    def fail(issued, *, by=None):
        raise OSError("no paper")

    monkeypatch.setattr(issuing, "print_one", fail)


@pytest.fixture
def unprinted(monkeypatch):
    """Printing is left out; it has tests of its own."""
    monkeypatch.setattr(issuing, "print_one", lambda issued, by=None: issued)


@pytest.fixture
def as_page(monkeypatch):
    """A preview as the page that would be printed."""
    monkeypatch.setattr(issuing, "print_preview", as_html)


def test_the_page_says_what_issuing_does(desk, allotted):
    page = desk.get(at("allotment", allotted())).content.decode()

    assert "Issuing cannot be undone." in page
    assert "4 drums, 720" in page
    assert "Tallow &amp; Thimble Bearings" in page


def test_a_certificate_is_issued_and_printed(desk, allotted):
    response = desk.post(at("issue-now", allotted()), WISHES, follow=True)

    revision = CertificateRevision.objects.get()
    page = response.content.decode()
    assert response.redirect_chain[0][1] == 303
    assert revision.file
    assert f"Certificate {revision.certificate.number} is issued and printed." in page
    assert "DN-26-0311" in page


def test_a_second_press_of_the_button_makes_no_second_certificate(
    desk, allotted, unprinted
):
    allotment = allotted()

    first = desk.post(at("issue-now", allotment), WISHES)
    second = desk.post(at("issue-now", allotment), WISHES, follow=True)

    number = Certificate.objects.get().number
    assert CertificateRevision.objects.count() == 1
    assert second.redirect_chain[0][0] == first.headers["Location"]
    assert f"{number} was issued for these packs already" in second.content.decode()


def test_a_certificate_whose_printing_fails_stays_issued(desk, allotted, broken):
    response = desk.post(at("issue-now", allotted()), WISHES, follow=True)

    page = response.content.decode()
    number = Certificate.objects.get().number
    assert response.status_code == 200
    assert f"Certificate {number} is issued. Its file could not be printed" in page
    assert "Print it now" in page
    assert "not issued" not in page


def test_what_was_not_printed_is_printed_from_its_page(desk, issued):
    revision = issued()
    address = reverse("certificates:print", args=[revision.certificate.number])

    response = desk.post(address, follow=True)

    revision.refresh_from_db()
    assert revision.file
    assert "is printed." in response.content.decode()


def test_a_refused_issue_uses_no_number(desk, allotted, unprinted, monkeypatch):
    refused, later = allotted(order="TT-1"), allotted(order="TT-2")

    def fail(self):
        raise issuing.Refusal("The data cannot be frozen. Tell the administrator.")

    with monkeypatch.context() as patch:
        patch.setattr(CertificateData, "to_json", fail)
        response = desk.post(at("issue-now", refused), WISHES)
    desk.post(at("issue-now", later), WISHES)

    assert response.status_code == 409
    assert "The data cannot be frozen." in response.content.decode()
    assert "DN-26-0311" in response.content.decode()
    assert list(Certificate.objects.values_list("sequence", "allotment__order")) == [
        (1, "TT-2")
    ]


def test_what_is_too_long_is_told_and_kept(desk, allotted):
    long = "x" * 41

    response = desk.post(at("issue-now", allotted()), WISHES | {"delivery_note": long})

    assert response.status_code == 422
    assert "Write it in at most 40 characters." in response.content.decode()
    assert long in response.content.decode()
    assert not Certificate.objects.exists()


def test_packs_given_back_get_no_certificate(desk, allotted):
    from lims.certificates import actions
    from lims.people.queries import person

    allotment = allotted()
    actions.give_back(allotment=allotment, reason="cancelled", by=person("desk-1"))

    response = desk.post(at("issue-now", allotment), WISHES)

    assert response.status_code == 409
    assert not Certificate.objects.exists()


def test_a_preview_has_no_number_and_writes_nothing(desk, allotted, as_page):
    allotment = allotted()

    response = desk.post(at("preview", allotment), WISHES)

    text = response.content.decode()
    assert response.headers["Content-Type"] == "application/pdf"
    assert "DN-26-0311" in text
    assert "no number, not issued" in text
    assert "Q1-C-" not in text
    assert not Certificate.objects.exists()


def test_a_preview_is_opened_by_a_link_too(desk, allotted):
    response = desk.get(at("preview", allotted()))

    assert response.content[:5] == b"%PDF-"
    assert response.headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize(
    ("language", "word"),
    [
        *[("de", "Vorschau"), ("fr", "Aperçu"), ("es", "Vista previa")],
        ("pl", "Podgląd"),
    ],
)
def test_a_preview_in_another_language_has_decimal_commas(
    desk, allotted, as_page, language, word
):
    response = desk.post(at("preview", allotted()), WISHES | {"language": language})

    text = response.content.decode()
    assert word in text
    assert "2,5" in text
    assert "2.5" not in text


def test_certificates_are_issued_by_despatch_and_the_managers(
    browsing, allotted, unprinted
):
    expected = {
        **dict.fromkeys(("desk-1", "mgr-1", "qm-1"), 303),
        **dict.fromkeys(("tech-a", "chem-1", "aud-1", "adm-1"), 403),
    }

    found = {
        account: browsing(account)
        .post(at("issue-now", allotted(order=account, packs=1)), WISHES)
        .status_code
        for account in expected
    }

    assert found == expected
    assert Certificate.objects.count() == 3


def test_a_page_that_is_read_issues_nothing(desk, allotted):
    assert desk.get(at("issue-now", allotted())).status_code == 405
