"""The check page: what the code stands for, to whoever holds the paper; one answer for all that is not known."""

import re

import pytest
from django.test import Client
from django.utils.html import escape

from lims.certificates import actions
from lims.certificates.composing import Wishes
from lims.certificates.models import CertificateRevision
from lims.documents.printing import print_one
from lims.people.queries import person, the_site
from lims.products.models import Customer
from lims.record.gate import entry
from tests.factories import plant

State = CertificateRevision.State
UNKNOWN = ("0" * 26, "ILO" * 8 + "XY", "u" * 26, "7Q3FX 9M2KD 0WT8H R5VNA 6YJ4PE")


@pytest.fixture
def issued(db):
    """A certificate of 4 drums for Tallow & Thimble, not printed yet."""
    plant.open_plant()
    told = plant.periodic_pass()
    told["lots"][0].pop("papers", None)
    plant.play(told)
    allotment = actions.allot(
        fill_lot=plant.lot("0310"),
        customer=Customer.objects.get(code="TT"),
        order="TT-7781",
        pack_count=4,
        by=person("desk-1"),
    )
    wishes = Wishes(delivery_note="DN-26-0311", part_number="40-117-02")
    return actions.issue(allotment=allotment, wishes=wishes, by=person("desk-1"))


def page(code, **given):
    return Client().get(f"/check/{code}", given)


def text_of(response):
    """The page with its unbreakable spaces as plain ones."""
    return response.content.decode().replace("\u00a0", " ")


def set_state(revision, state):
    with entry(by=None, verb="certificate_issued", about=revision.certificate):
        revision.state = state
        revision.save()


def test_a_genuine_paper_is_told_with_all_that_stands_on_it(issued):
    response = page(issued.code)

    text = text_of(response)
    assert response.status_code == 200
    for told in (
        *("Genuine and current.", "All seven requirements met."),
        *(issued.certificate.number, "revision 0", "LX2 lithium EP grease, NLGI 2"),
        *("Q1-26-0310 A", "4 drums, 720", "9 March 2026, 09:00 UTC+1"),
        *("laboratory manager, with a signature", "ASTM D217-21a", "× 0.1 mm"),
        *("265", "295", "279", "+21", "1b", "1a", "smooth, free of lumps"),
        "Decision rule: simple acceptance, without a guard band.",
    ):
        assert told in text, told


def test_nothing_of_the_customer_or_of_persons_is_told(issued):
    text = page(issued.code).content.decode()

    signer, desk = person("mgr-1"), person("desk-1")
    for secret in (
        *("Tallow", "Thimble", "TT-7781", "Spindle Wharf", "DN-26-0311", "40-117-02"),
        *(signer.name, desk.name, "csrf"),
    ):
        assert secret not in text, secret


def test_a_code_is_taken_however_it_is_typed(issued):
    loose = " - ".join(re.findall(".{1,5}", issued.code.lower()))
    misread = issued.code.replace("1", "l").replace("0", "o")

    assert page(loose).status_code == 200
    assert page(misread).status_code == 200
    assert page(misread.replace("l", "I")).status_code == 200
    assert Client().get(f"/check/{issued.code}/").status_code == 200


def test_the_typed_code_leads_to_its_page(issued):
    response = Client().get("/check/", {"code": f" {issued.code.lower()} "})

    assert response.headers["Location"] == f"/check/{issued.code}"
    assert Client().get("/check/", {"code": "  "}).status_code == 200


def test_a_chosen_language_stays_when_a_code_is_typed(issued):
    response = Client().get("/check/", {"code": issued.code, "language": "de"})

    assert response.headers["Location"] == f"/check/{issued.code}?language=de"


@pytest.mark.parametrize("number", ["Q1-C-2026-00001", "q1-c-2O26-OOOO1", "Q1-C-2026-99999"])  # fmt: skip
def test_the_number_of_a_certificate_is_told_apart_whether_it_exists_or_not(
    issued, number, django_assert_num_queries
):
    with django_assert_num_queries(1):
        response = Client().get("/check/", {"code": number})

    text = response.content.decode()
    assert issued.certificate.number == "Q1-C-2026-00001"
    assert response.status_code == 422
    assert (
        "That is the number of a certificate. Type the 26 characters printed beside "
        "its QR code." in text
    )
    assert f'value="{number}"' in text
    assert "not known" not in text


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("7q3fx", "You typed 5 of 26 characters."),
        (" -- ", "You typed 0 of 26 characters."),
        ("0" * 300, "You typed more than 26 characters; a code has 26."),
        ('"><b>', "You typed 1 of 26 characters."),
    ],
)
def test_what_cannot_be_a_code_stays_in_the_box(db, typed, told):
    plant.open_plant()

    asked = Client().get("/check/", {"code": typed})
    by_address = page(typed.strip() or "-")

    assert told in asked.content.decode()
    assert told in by_address.content.decode()
    assert (asked.status_code, by_address.status_code) == (422, 404)
    assert f'value="{escape(typed[:256])}"' in asked.content.decode()
    assert "noindex" in asked.headers["X-Robots-Tag"]


def test_every_unknown_code_gets_the_same_answer_with_the_same_work(
    issued, django_assert_num_queries
):
    answers = set()
    for code in UNKNOWN:
        with django_assert_num_queries(2):
            response = page(code)
        kept = tuple(sorted(response.headers.items()))
        answers.add((response.status_code, response.content, kept))

    status, content, _ = answers.pop()
    assert not answers
    assert status == 404
    assert "This code is not known here." in content.decode()


def test_a_known_code_asks_few_queries(issued, django_assert_max_num_queries):
    with django_assert_max_num_queries(3):
        page(issued.code)


def test_a_superseded_or_withdrawn_paper_is_never_told_as_current(issued):
    set_state(issued, State.SUPERSEDED)
    superseded = page(issued.code).content.decode()
    set_state(issued, State.WITHDRAWN)
    withdrawn = page(issued.code).content.decode()

    assert "Genuine, but superseded." in superseded
    assert 'class="told care"' in superseded
    assert "Genuine, but withdrawn." in withdrawn
    assert 'class="told bad"' in withdrawn
    for text in (superseded, withdrawn, page("0" * 26).content.decode()):
        assert set(re.findall('mailto:([^"]+)', text)) == {the_site().mail}
    assert "Genuine and current" not in superseded + withdrawn


def test_a_superseded_paper_names_the_revision_that_replaces_it(issued):
    with entry(by=None, verb="certificate_issued", about=issued.certificate):
        issued.state = State.SUPERSEDED
        issued.save()
        CertificateRevision(
            certificate=issued.certificate,
            revision=1,
            code=actions.new_code(),
            decision=issued.decision,
            held_against=issued.held_against,
            data=issued.data,
            issued_at=issued.issued_at,
            issued_by=issued.issued_by,
        ).save()

    assert "Revision 1 replaces it" in page(issued.code).content.decode()


def test_no_cache_and_no_index_keeps_the_page(issued):
    for code in (issued.code, "unknown"):
        response = page(code)
        assert response.headers["Cache-Control"] == "no-store"
        assert response.headers["Referrer-Policy"] == "no-referrer"
        assert "noindex" in response.headers["X-Robots-Tag"]
        assert not response.cookies


def test_the_fingerprint_stands_there_once_the_file_is_printed(issued):
    before = page(issued.code).content.decode()
    printed = print_one(issued)
    after = page(issued.code).content.decode()

    assert "The file is being printed" in before
    assert "data-sha256" not in before
    assert f'data-sha256="{printed.sha256}"' in after
    assert f"{printed.sha256[:4]} {printed.sha256[4:8]}" in after
    assert "check.js" in after


def results_of(response):
    return text_of(response).partition("<table")[2].partition("</table>")[0]


def test_the_frame_changes_its_language_and_the_printed_table_does_not(issued):
    english, german = page(issued.code), page(issued.code, language="de")

    text = text_of(german)
    assert '<html lang="de"' in text
    for told in ("Echt und gültig.", "Alle sieben Anforderungen erfüllt.", "9. März 2026"):  # fmt: skip
        assert told in text, told
    assert results_of(german) == results_of(english)
    assert ">2.5<" in results_of(german)
    assert '<div lang="en">' in text
    assert "Die Tabelle behält Sprache und Dezimalzeichen des Papiers." in text
    assert page(issued.code, language="it").status_code == 200


@pytest.mark.parametrize(
    ("language", "told"),
    [
        ("fr", ("Authentique et en vigueur.", "Les sept exigences sont satisfaites.")),
        ("es", ("Auténtico y vigente.", "9 de marzo de 2026")),
        ("pl", ("Autentyczne i aktualne.", "9 marca 2026")),
    ],
)
def test_the_page_speaks_every_language_of_the_papers(issued, language, told):
    text = text_of(page(issued.code, language=language))

    assert f'<html lang="{language}"' in text
    assert all(it in text for it in told)
    assert f'href="?language={language}"' in text


@pytest.mark.parametrize(
    ("typed", "language", "told"),
    [
        ("7", "en", "You typed 1 of 26 characters."),
        ("7", "fr", "Vous avez saisi 1 caractère sur 26."),
        ("7K3", "fr", "Vous avez saisi 3 caractères sur 26."),
        ("7K3", "pl", "Wpisano 3 z 26 znaków."),
    ],
)
def test_a_short_code_is_counted_in_the_language(db, typed, language, told):
    response = Client().get("/check/", {"code": typed, "language": language})

    assert told in text_of(response)


def test_a_german_paper_keeps_its_table_on_an_english_page(issued):
    before = results_of(page(issued.code))
    frozen = issued.data.replace('"language": "en"', '"language": "de"')
    with entry(by=None, verb="certificate_issued", about=issued.certificate):
        issued.state = State.SUPERSEDED
        issued.save()
        german = CertificateRevision(
            certificate=issued.certificate,
            revision=1,
            code=actions.new_code(),
            decision=issued.decision,
            held_against=issued.held_against,
            data=frozen,
            issued_at=issued.issued_at,
            issued_by=issued.issued_by,
        )
        german.save()

    response = page(german.code, language="en")

    assert "Genuine and current." in text_of(response)
    assert ">2,5<" in results_of(response) != before


def test_every_moment_is_written_with_its_distance_from_universal_time(issued):
    text = text_of(page(issued.code, language="de"))

    assert text.count("9. März 2026, 09:00 UTC+1") == 2
    assert "MEZ" not in text
