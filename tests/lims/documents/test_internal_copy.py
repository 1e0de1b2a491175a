"""The internal copy: everything behind a certificate, or behind a fill lot without one, for the laboratory alone."""

import io

import pikepdf
import pytest

from lims.batches.models import HeldAgainst
from lims.bench.actions import entering
from lims.documents.internal import (
    copy_of_lot,
    internal_html,
    print_internal,
)
from lims.methods import actions as methods
from lims.methods import queries
from lims.people.days import today
from lims.people.queries import person
from lims.record import clock
from lims.record.queries import tail
from lims.record.refusals import WrongMove
from tests.factories import plant
from tests.lims.decisions.agreed import GUARDED, agree, lot_with
from tests.lims.documents.copies import copy_of, issue, line, said


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


def test_every_page_is_headed_as_no_certificate_and_names_it_and_the_record(
    repeated, running_text_of
):
    issued = issue(repeated)
    stands = tail()

    pages = running_text_of(print_internal(copy_of(issued)))

    assert len(pages) > 1
    for number, text in enumerate(pages, 1):
        assert "Internal copy, not a certificate" in text
        assert f"certificate {issued.certificate.number}, revision 0" in text
        assert f"record at entry {stands.seq}, head {stands.head[:16]}" in text
        assert f"page {number} of {len(pages)}" in text
    assert "safety data sheet first" in pages[-1]
    assert "licensed or competent person" in pages[-1]


def test_it_is_an_english_document_with_a_title_and_without_the_certificates_data(
    repeated,
):
    issued = issue(repeated)

    with pikepdf.open(io.BytesIO(print_internal(copy_of(issued)))) as pdf:
        title = f"Internal copy, not a certificate: certificate {issued.certificate.number}, revision 0"
        assert str(pdf.docinfo["/Title"]) == title
        assert str(pdf.Root.Lang) == "en"
        assert not pdf.attachments


def test_every_set_is_told_with_what_became_of_it_and_by_which_rule(
    repeated, running_text_of
):
    text = " ".join(running_text_of(print_internal(copy_of(issue(repeated)))))

    for told in (
        "Cone readings: 276, 284, 279 × 0.1 mm",
        "void seen at cup wall",
        "set aside by Tamsin Orlebar",
        "Cone readings: 287, 290, 288 × 0.1 mm",
        "by the repeat rule: set aside by ISO 4259",
        "cause not yet found, look for it",
        "4 sets, 2 set aside",
        "exact constants",
        "Penetrometer: PEN-01 (in service)",
        "60 strokes ended: 7 March 2026, 07:58:30 CET",
        "Tamsin Orlebar, 7 March 2026, 08:00 CET",
    ):
        assert told in text, told


def test_the_facts_of_a_line_are_those_that_were_signed(repeated):
    facts = said(copy_of(issue(repeated)), "Worked penetration")

    assert facts["Method"] == "ASTM D217-21a"
    assert facts["Limits"] == "265 to 295\u00a0×\u00a00.1\u00a0mm"
    assert facts["Value"] == "281\u00a0×\u00a00.1\u00a0mm, unrounded 280.833333"
    assert facts["Verdict"] == "met"
    assert facts["Decision rule"].startswith("simple acceptance; compared: the value")
    assert facts["Probability"] == (
        ">0.9999 that the true value is inside the limits, by this laboratory's own "
        "uncertainty (u 2.16)"
    )
    assert "result 2 differs by 7.5 from the mean of the others" in facts["Reported by"]
    assert "Not as signed" not in facts


def test_without_a_stated_uncertainty_there_is_no_probability(repeated):
    copy = copy_of(issue(repeated))

    assert "Probability" not in said(copy, "Dropping point")
    assert "Probability" not in said(copy, "Appearance")


def test_a_figure_from_memory_is_told_until_a_named_person_has_checked_it(repeated):
    issued = issue(repeated)
    before = line(copy_of(issued), "Worked penetration").memory

    methods.check_figures(
        edition=queries.edition("ASTM D217", "21a"),
        checked_by="Thea Vroom",
        on=today(),
        by=person("mgr-1"),
    )

    assert before[0].startswith("From memory, used in the reported value:")
    assert "repeatability 7" in before[0]
    assert line(copy_of(issued), "Worked penetration").memory == ()


def test_a_line_with_a_rule_of_its_own_says_its_zone(played):
    agree(**GUARDED)
    issued = issue(lot_with("279 281 280"), customer="BM")

    facts = said(copy_of(issued), "Worked penetration")

    assert "268.55 to 291.45" in facts["Decision rule"]
    assert "u = 2.16" in facts["Decision rule"]


def test_a_periodic_line_tells_what_was_read_on_the_batch_that_it_rests_on(repeated):
    copy = copy_of(issue(repeated))

    [test] = line(copy, "Oxidation").tests
    assert "sample Q1-26-0310-A-01" in test.title
    assert said(copy, "Oxidation")["Evidence"] == (
        "periodic: Q1-26-0310-A, 12 January 2026 to 16 January 2026, "
        "valid until 12 July 2026"
    )


def test_a_periodic_result_stays_behind_its_line_when_its_period_has_run_out_since(
    repeated,
):
    issued = issue(repeated)
    clock.set_to(plant.at("2027-01-04 09:00"))

    copy = copy_of(issued)

    assert "Not as signed" not in said(copy, "Oxidation")
    assert line(copy, "Oxidation").tests[0].sets[0].readings[0].startswith("Vessel 1: ")


def test_lines_bear_the_numbers_of_the_paper(repeated):
    issued = issue(repeated)

    numbers = [it.number for it in copy_of(issued).lines]

    assert numbers == sorted(numbers)
    assert line(copy_of(issued), "Oxidation").number == 8  # printed last


def test_a_changed_reading_is_told_with_what_stood_first_and_why(repeated):
    entering.record_reading(
        test=plant.the_test("oil-separation"),
        slot="sample",
        text="10.20",
        reason="transposed digit",
        determination=plant.the_test("oil-separation").determinations.get(),
        by=person("tech-b"),
    )

    html = internal_html(copy_of_lot(plant.lot(), by=person("mgr-1")))

    assert "10.20 (first 10.02, changed by" in html
    assert "transposed digit)\u00a0g" in html


def test_what_reads_otherwise_since_it_was_signed_says_so(repeated):
    issued = issue(repeated)
    plant.hold(plant.lot())
    entering.record_reading(
        test=plant.the_test("oil-separation"),
        slot="oil",
        text="0.60",
        reason="read from the wrong line",
        determination=plant.the_test("oil-separation").determinations.get(),
        by=person("tech-b"),
    )

    facts = said(copy_of(issued), "Oil separation")

    assert facts["Value"] == "2.8\u00a0mass\u00a0%"
    assert facts["Verdict"] == "met"
    assert facts["Not as signed"].startswith("the record now reads 6.0, not met: ")
    assert "Reported by" not in facts


def test_a_lot_without_a_certificate_has_one_of_its_own(repeated, running_text_of):
    text = " ".join(
        running_text_of(print_internal(copy_of_lot(repeated, by=person("aud-1"))))
    )

    assert "Fill lot Q1-26-0417 A" in text
    assert "Decided not decided" in text
    assert "Cone readings: 276" in text


def test_what_no_line_asks_for_is_told_at_the_end(played):
    agree(**GUARDED)
    issued = issue(lot_with("279 281 280"), customer="BM")

    titles = " ".join(it.title for it in copy_of(issued).also)

    assert "Dropping point" in titles
    assert "Worked penetration" not in titles


def test_a_lot_that_is_held_against_nothing_has_nothing_to_tell(repeated, monkeypatch):
    monkeypatch.setattr(
        HeldAgainst.objects, "filter", lambda **_: HeldAgainst.objects.none()
    )

    with pytest.raises(WrongMove, match="held against no specification"):
        copy_of_lot(repeated, by=person("mgr-1"))
