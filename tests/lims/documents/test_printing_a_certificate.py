"""What stands on a printed certificate."""

import io
import json
from collections.abc import Callable
from dataclasses import replace

import pikepdf
import pytest

from lims.certificates.data import CertificateData
from lims.documents.certificate import as_html, print_certificate, print_preview
from tests.lims.documents import samples

TextOf = Callable[[bytes], list[str]]


def attachments(pdf: bytes) -> dict[str, bytes]:
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        return {
            name: file.get_file().read_bytes()
            for name, file in opened.attachments.items()
        }


def test_a_certificate_says_what_was_found_on_which_lot(text_of: TextOf) -> None:
    [text] = text_of(print_certificate(samples.ONE_LOT))

    for words in (
        "Certificate of analysis",
        "Q1-C-2026-00231",
        "revision 0, issued 6 March 2026",
        "LX2 lithium EP grease, NLGI 2",
        "Batch Q1-26-0417, fill lot A",
        "All seven requirements met.",
        "Six were tested on this lot; line 7 is periodic.",
        "4 drums, 720 kg net",
        "5 to 6 March 2026",
        "Tallow & Thimble",
        "TT-7781, line 10",
        "Results against specification LX2, revision 5",
        "relate only to the items tested",
        "safety data sheet first",
        "licensed or competent person",
        "Record at issue: 48213 entries, head 9f86d081884c7d65 ",
    ):
        assert words in text


@pytest.mark.parametrize(
    "printed",
    [
        "ASTM D217-21a × 0.1 mm 265 295 280 met",
        "ASTM D217-21a × 0.1 mm −30 +30 +22 met",
        "3 Dropping point ASTM D2265-20 °C 190 – 202 met",
        "4 Oil separation, 30 h, 100 °C ASTM D6184-17 mass % – 5.0 2.8 met",
        "5 Copper strip, 24 h, 100 °C ASTM D4048-22 1a to 4c – 1b 1a met",
        "7 Oxidation, 100 h, 99 °C, ASTM D942-19 kPa – 70 38 met",
    ],
)
def test_each_requirement_is_one_row(printed: str, text_of: TextOf) -> None:
    [text] = text_of(print_certificate(samples.ONE_LOT))

    assert printed in text


def test_a_periodic_result_names_its_batch_and_its_days(text_of: TextOf) -> None:
    [text] = text_of(print_certificate(samples.ONE_LOT))

    assert (
        "Periodic: tested on batch Q1-26-0310, 12 to 16 January 2026; "
        "valid until 12 July 2026 or for 20 batches" in text
    )
    assert "pressure drop periodic" in text


def test_the_authoriser_stands_with_function_time_and_meaning(text_of: TextOf) -> None:
    [text] = text_of(print_certificate(samples.ONE_LOT))

    for part in (
        "Mara Ellingsworth",
        "laboratory manager",
        "6 March 2026, 15:48 UTC+1",
        "Meaning: reviewed and authorised",
    ):
        assert part in text


def test_the_decision_rule_is_named_and_says_what_it_compares(text_of: TextOf) -> None:
    [text] = text_of(print_certificate(samples.ONE_LOT))

    assert "Decision rule: simple acceptance" in text
    assert "rounded once to the last place of its limit (half to even)" in text
    assert "risk" not in text


def test_the_check_address_stands_in_words_and_in_the_code() -> None:
    html = as_html(samples.ONE_LOT)

    assert (
        'href="https://lab.example/check/7K3M9QX2VD0BTHR5WN8GAZ4CJE">'
        "https://lab.example/check/</a>" in html
    )
    assert (
        "<span>7K3M9</span><span>QX2VD</span><span>0BTHR</span>"
        "<span>5WN8G</span><span>AZ4CJE</span>" in html
    )
    assert 'alt="QR code of the check address printed beside it"' in html


def test_a_long_check_address_is_no_link_that_breaks() -> None:
    host = "https://certificates.quernstone-grease-works.example"

    html = as_html(replace(samples.ONE_LOT, check_address=host))

    assert f"{host}/check/<br>" in html
    assert "<a " not in html


def test_number_and_revision_stand_on_every_page_and_the_end_is_marked(
    text_of: TextOf,
) -> None:
    pages = text_of(print_certificate(samples.FORTY_ROWS))

    assert len(pages) == 2
    for n, text in enumerate(pages, 1):
        assert "Q1-C-2026-00231, revision 0 · LX2, batch Q1-26-0417" in text
        assert f"page {n} of 2" in text
    assert "Certificate of analysis Q1-C-2026-00231, revision 0, continued" in pages[1]
    assert "End of certificate" not in pages[0]
    assert "End of certificate Q1-C-2026-00231, revision 0" in pages[1]
    assert "Tested on this lot" in pages[1]
    assert "Mara Ellingsworth" in pages[1]


def test_german_has_a_decimal_comma_and_months_as_words(text_of: TextOf) -> None:
    [text] = text_of(print_certificate(samples.GERMAN))

    for words in (
        "Analysenzertifikat",
        "Alle fünf Anforderungen erfüllt.",
        "Vier wurden an diesem Los geprüft; Zeile 5 ist",
        "ausgestellt am 6. März 2026",
        "× 0,1 mm 265 295 281 erfüllt",
        "−15 +25 −3 erfüllt",
        "250 – >288 erfüllt",
        "– 3,00 1,25 erfüllt",
        "12. bis 16. Januar 2026",
        "einfache Annahme",
        "mit Spezifikation OL-4-118, Revision C, gültig seit",
        "Probenahme: aus dem Gebinde, Plan SP-02.",
        "Ende des Zertifikats Q1-C-2026-00268, Revision 0",
        "Seite 1 von 1",
        "Bedeutung: geprüft und freigegeben",
    ):
        assert words in text
    assert "1.25" not in text


def test_not_met_is_said_first_and_marked_in_its_row(text_of: TextOf) -> None:
    html = as_html(samples.NOT_MET)

    [text] = text_of(print_certificate(samples.NOT_MET))

    assert "One of five requirements not met" in text
    assert "Requirement not met: worked penetration." in text
    assert '<tr class="not-met ruled">' in html
    assert '<b class="not-met">not met</b>' in html
    assert "supplied under customer concession BM-CON-19" in html


def test_what_was_not_tested_not_evaluated_or_only_reported_says_so() -> None:
    html = as_html(samples.NOT_MET)

    assert "Not tested: oil separation. Not evaluated: copper strip." in html
    assert '<b class="not-tested">not tested</b>' in html
    assert '<b class="not-evaluated">not evaluated</b>' in html
    assert '<b class="report-only">report only</b>' in html


def test_the_same_data_are_attached_and_nothing_else() -> None:
    found = attachments(print_certificate(samples.ONE_LOT))

    assert list(found) == ["certificate.json"]
    text = found["certificate.json"].decode()
    assert text == samples.ONE_LOT.to_json()
    assert CertificateData.from_json(text) == samples.ONE_LOT
    assert json.loads(text)["schema"] == "kettlemark-certificate/1"


def test_equal_data_give_equal_bytes() -> None:
    first = print_certificate(samples.ONE_LOT)
    print_certificate(samples.GERMAN)
    again = CertificateData.from_json(samples.ONE_LOT.to_json())

    assert print_certificate(again) == first


def test_a_certificate_may_be_on_letter_paper() -> None:
    with pikepdf.open(io.BytesIO(print_certificate(samples.LETTER))) as letter:
        assert [float(edge) for edge in letter.pages[0].mediabox][2:] == [612, 792]


def test_a_preview_has_no_number_code_or_record_and_says_what_it_is(
    text_of: TextOf,
) -> None:
    html = as_html(samples.PREVIEW)
    pdf = print_preview(samples.PREVIEW)

    [text] = text_of(pdf)

    assert "<title>Preview of a certificate of analysis</title>" in html
    assert "no number, not authorised, not issued" in text
    assert "Preview, not a certificate" in text
    assert "End of preview" in text
    assert "nothing here may be used for release or delivery" in text
    for absent in ("Q1-C-", "lab.example/check", "Record at issue", "valid without"):
        assert absent not in text
    assert 'class="qr"' not in html
    assert "on-preview" in html
    assert attachments(pdf) == {}


def test_a_preview_of_an_authorised_lot_names_the_authoriser(text_of: TextOf) -> None:
    authorised = replace(samples.PREVIEW, signatures=samples.ONE_LOT.signatures)

    [text] = text_of(print_preview(authorised))

    assert "Mara Ellingsworth" in text
    assert "no number, not issued" in text
    assert "Not issued: nothing here may be used for delivery." in text


def test_a_preview_is_not_printed_as_a_certificate_nor_the_other_way() -> None:
    with pytest.raises(ValueError, match="this is a preview"):
        print_certificate(samples.PREVIEW)
    with pytest.raises(ValueError, match="this is a certificate"):
        print_preview(samples.ONE_LOT)
