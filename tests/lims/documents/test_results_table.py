"""The table of results: columns line up on the decimal mark, evidence is grouped and named."""

from dataclasses import replace

import pytest

from lims.certificates.data import ON_BATCH, TestedOn
from lims.documents.certificate import as_html
from lims.documents.rows import cell, origin, table_of
from lims.documents.words import Words
from tests.lims.documents import samples

ENGLISH, GERMAN = Words.of("en"), Words.of("de")


@pytest.mark.parametrize(
    ("text", "shown", "kind"),
    [
        ("280", "280", "n d0"),
        ("2.8", "2.8", "n d1"),
        ("0.0005", "0.0005", "n d4"),
        ("-3", "−3", "n d0"),
        ("+22", "+22", "n d0"),
        (">288", ">288", "n d0"),
        ("1a", "1a", "n rating"),
        ("smooth", "smooth", "words"),
        ("", "–", "n d0"),
        (None, "–", "n d0"),
    ],
)
def test_a_cell_takes_its_place_from_what_it_holds(
    text: str | None, shown: str, kind: str
) -> None:
    made = cell(text, ENGLISH)

    assert (made.text, made.kind) == (shown, kind)


def test_a_number_is_never_grouped_and_follows_the_language() -> None:
    assert cell("100000.5", GERMAN).text == "100000,5"


def test_the_longest_decimals_make_room_for_all() -> None:
    rows = (samples.ROWS[0], replace(samples.ROWS[3], result="2.805"))

    assert table_of(rows, ENGLISH).kind == "most-3"


def test_rows_of_one_evidence_stand_together_this_lot_first() -> None:
    other = replace(
        samples.ROWS[2],
        evidence=ON_BATCH,
        tested_on=TestedOn(batch="Q1-26-0417", lot="B", first_day="2026-03-05"),
    )
    rows = (samples.ROWS[6], other, samples.ROWS[0])

    table = table_of(rows, ENGLISH)

    assert [[row.line for row in group.rows] for group in table.groups] == [
        *([1], [3], [7])
    ]
    assert [group.lead for group in table.groups] == [
        *("", "Tested on this batch:", "Periodic: tested on")
    ]
    assert table.groups[1].head == "batch Q1-26-0417, fill lot B, 5 March 2026"
    assert [group.rows[0].mark for group in table.groups] == [
        *("", "fill lot B", "periodic")
    ]


@pytest.mark.parametrize(
    ("tested", "words"),
    [
        (TestedOn(batch="Q1-26-0310"), "batch Q1-26-0310"),
        (
            TestedOn(batch="Q1-26-0310", valid_until="2026-07-12"),
            "batch Q1-26-0310; valid until 12 July 2026",
        ),
        (
            TestedOn(batch="Q1-26-0310", valid_batches=8),
            "batch Q1-26-0310; valid for 8 batches",
        ),
        (
            TestedOn(batch="Q1-26-0310", by="report HQ-25-2207"),
            "batch Q1-26-0310, report HQ-25-2207",
        ),
    ],
)
def test_where_a_result_comes_from(tested: TestedOn, words: str) -> None:
    assert origin(tested, ENGLISH) == words


def test_every_fifth_row_begins_under_a_rule() -> None:
    table = table_of(samples.FORTY_ROWS.rows, ENGLISH)

    ruled = [row.line for row in table.groups[0].rows if row.kind == "ruled"]

    assert ruled == [1, 6, 11, 16, 21, 26, 31, 36]


def test_a_demand_in_words_takes_the_place_of_both_limits() -> None:
    html = as_html(samples.ONE_LOT)

    assert '<td class="words must" colspan="2">smooth, homogeneous</td>' in html


def test_lines_compared_by_another_procedure_are_named() -> None:
    rows = (*samples.ROWS[:2], replace(samples.ROWS[2], procedure="absolute"))

    html = as_html(replace(samples.ONE_LOT, rows=rows))

    assert "Line 3: Each reported value is compared with the limit as it stands" in html


def test_a_preview_and_its_paper_print_the_same_table() -> None:
    rows = (
        replace(samples.ROWS[0], note="Tested at 25 °C.", standing_note="unchecked"),
    )

    preview, paper = (
        as_html(replace(data, rows=rows)) for data in (samples.PREVIEW, samples.ONE_LOT)
    )

    assert _table(preview) == _table(paper)
    assert "Tested at 25" in paper
    assert "unchecked" not in preview + paper


def _table(html: str) -> str:
    """The rows of the results, without the specification that its caption names."""
    return html.partition("<colgroup>")[2].partition("</table>")[0]
