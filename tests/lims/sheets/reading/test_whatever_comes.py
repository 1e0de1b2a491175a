"""Whatever bytes come, they are sheets or a refusal with a sentence: nothing else leaves the reader."""

import io
import zipfile

from hypothesis import given, settings
from hypothesis import strategies as st

from lims.sheets.reading import FileRefused, read
from tests.lims.sheets.reading import made

TEXT = "Batch;Date;Pen\r\nQ1-25-0377;03/12/2025;280,5\r\n;;281\r\n".encode("cp1252")
ROWS = (
    f'<row r="1">{made.text_cell("A1", "Batch")}<c r="B1" t="e"><v>#N/A</v></c></row>'
    '<row r="2"><c r="A2"><f>B2</f><v>2</v></c><c r="B2" s="1"><v>46009.5</v></c></row>'
)
PARTS = made.parts(ROWS)
BITS = st.one_of(
    st.binary(max_size=3),
    st.sampled_from(
        [b"<", b">", b'"', b"&#0;", b"<f>", b"-1", b"1e999", b"\0", b"A1:B"]
    ),
)
CHANGES = st.lists(
    st.tuples(st.integers(0, 900), st.integers(0, 8), BITS), min_size=1, max_size=3
)


def changed(content, changes):
    """At each place some bytes are gone and others stand there."""
    for place, gone, there in changes:
        at = place % (len(content) + 1)
        content = content[:at] + there + content[at + gone :]
    return content


def sheets_or_a_sentence(content):
    try:
        sheets = read(content, "a.xlsx").sheets
    except FileRefused as refused:
        return refused.sentence.endswith(".") and len(refused.sentence) > 40
    return all(
        len(it.texts) == len(it.kinds) == one.height
        for one in sheets
        for it in one.columns
    )


@given(st.binary(max_size=200))
def test_any_bytes(content):
    assert sheets_or_a_sentence(content)


@given(CHANGES)
def test_a_changed_text(changes):
    assert sheets_or_a_sentence(changed(TEXT, changes))


@given(CHANGES)
def test_a_changed_workbook(changes):
    assert sheets_or_a_sentence(changed(made.zipped(PARTS), changes))


@settings(max_examples=300)
@given(st.sampled_from(sorted(PARTS)), CHANGES)
def test_a_workbook_with_a_changed_part(part, changes):
    content = PARTS[part].encode()

    assert sheets_or_a_sentence(
        made.zipped(PARTS | {part: changed(content, changes)}),
    )


def test_the_parts_that_are_changed_make_a_workbook():
    assert read(made.zipped(PARTS), "a").sheets[0].height == 2
    with zipfile.ZipFile(io.BytesIO(made.zipped(PARTS))) as archive:
        assert set(archive.namelist()) == set(PARTS)
