"""Whatever a sheet holds, looking at it finds tables that hang together, and raises nothing."""

from hypothesis import given, settings
from hypothesis import strategies as st

from specs.tables.finding.headings import proposed
from specs.tables.finding.tables import blocks_of
from specs.tables.known import Role, Use
from specs.tables.rows.roles import roles
from specs.tables.saying import RowRole
from specs.tables.sheet import Column, Merged, Sheet, letter_of, place_of
from tests.specs.tables.typed import known_of, measured, sheet_of

KNOWN = known_of(
    measured("worked-penetration", "Worked penetration", "0.1 mm"),
    measured("dropping-point-block", "Dropping point", "°C"),
    products=["LX2"],
)
WORDS = (
    "", "", "", "Batch", "Date", "Datum", "Pen W60", "Drop pt", "Remark", "Product", "0,1 mm", "°C", "%", "Mean",
    "n", "Q1-25-0377", "Q1-25-0378", "03/12/2025", "2025-12-04", "LX2", "280", "281,5", ">300", "fine", "title here",
    "ditto", " ", "\u202e", "\x00", "\ud800", "W60", "100k",
)  # fmt: skip
CELLS = st.one_of(st.sampled_from(WORDS), st.sampled_from(WORDS), st.text(max_size=8))
KINDS = st.sampled_from("ttttt ndmbfe")


@st.composite
def sheets(draw):
    width, height = draw(st.integers(1, 8)), draw(st.integers(1, 12))
    columns = []
    for place in range(width):
        texts = draw(st.lists(CELLS, min_size=height, max_size=height))
        kinds = draw(st.lists(KINDS, min_size=height, max_size=height))
        columns.append(Column(letter_of(place + 1), texts, "".join(kinds)))
    edges = st.lists(
        st.builds(
            Merged,
            st.integers(1, 12),
            st.integers(1, 8),
            st.integers(1, 14),
            st.integers(1, 9),
        ),
        max_size=3,
    )
    return Sheet("Sheet1", tuple(columns), tuple(draw(edges)))


LINES = st.sampled_from(
    (
        "Q1-25-0377;2025-12-03;280", "Q1-25-0378;2025-12-04;281", ";;279", ";;", '";";278', "ditto;2025-12-05;277",
        ";2025-12-03;280", "Mean;;280", ";;Mean", "Batch;Date;Pen W60", "December;;", ";2025-12-04;",
    )
)  # fmt: skip
SPANS = st.builds(Merged, st.integers(2, 9), st.just(1), st.integers(2, 10), st.just(1))
PEN_BOOKS = st.builds(
    lambda rows, merged: sheet_of(
        "\n".join(["Batch;Date;Pen W60", *rows]), merged=merged
    ),
    st.lists(LINES, min_size=1, max_size=8),
    st.lists(SPANS, max_size=2),
)
PEN_USES = {
    "A": Use(Role.BATCH),
    "B": Use(Role.DAY),
    "C": Use(Role.RESULT, "worked-penetration"),
}


def cells_of(block):
    rows = range((block.heads or (block.first,))[0], block.last + 1)
    return {(letter, row) for letter in block.letters for row in rows}


@settings(max_examples=150)
@given(sheets())
def test_tables_do_not_overlap_and_lie_within_the_sheet(sheet):
    blocks = blocks_of(sheet)

    places = [cells_of(it) for it in blocks]
    assert sum(map(len, places)) == len(set().union(*places))
    assert len({it.key for it in blocks}) == len(blocks)
    for block in blocks:
        above = (*block.heads, *([block.units_row] if block.units_row else []))
        assert block.first == max(above, default=block.first - 1) + 1
        assert 1 <= block.first <= block.last + 1 <= sheet.height + 1
        assert list(block.letters) == sorted(block.letters, key=place_of)
        assert set(block.headings) == set(block.letters)
        assert set(block.units) <= set(block.letters)


@settings(max_examples=150)
@given(sheets())
def test_cells_beside_each_other_are_never_lost(sheet):
    """Every row with two filled cells belongs to a table, as data, head or title."""
    blocks = blocks_of(sheet)
    shown = {
        row
        for it in blocks
        for row in (*it.titles, *range((it.heads or (it.first,))[0], it.last + 1))
    }

    for row in range(1, sheet.height + 1):
        filled = [text for text in sheet.row(row) if text and not text.isspace()]
        if len(filled) == len(sheet.columns) > 1:
            assert row in shown


USES = st.dictionaries(
    st.sampled_from([letter_of(it) for it in range(1, 9)]),
    st.sampled_from([Use(it) for it in Role]),
)


@settings(max_examples=150)
@given(
    sheets(),
    USES,
    st.dictionaries(st.sampled_from(["A2", "B3", "C4", "A1", "x", "A99"]), CELLS),
)
def test_every_row_has_a_role_and_joins_a_row_of_data(sheet, uses, instead):
    for block in blocks_of(sheet):
        check_roles(block, *roles(block, sheet, uses, instead))


@settings(max_examples=300)
@given(PEN_BOOKS, st.dictionaries(st.sampled_from(["A2", "B3", "A4"]), CELLS))
def test_every_row_of_a_pen_book_has_a_role(sheet, instead):
    for block in blocks_of(sheet):
        check_roles(block, *roles(block, sheet, PEN_USES, instead))


def check_roles(block, found, joined):
    assert len(found) == block.last - block.first + 1
    continued = [it for it, role in enumerate(found) if role is RowRole.CONTINUATION]
    assert sorted(joined) == [it + block.first for it in continued]
    for row, of in joined.items():
        assert of < row
        assert found[of - block.first] is RowRole.DATA


@settings(max_examples=150)
@given(sheets())
def test_every_column_is_proposed_once(sheet):
    for block in blocks_of(sheet):
        uses = proposed(block, sheet, KNOWN)

        assert tuple(uses) == block.letters
        once = [
            (it.role, it.characteristic)
            for it in uses.values()
            if it.role not in (Role.REMARK, Role.LEFT_OUT)
        ]
        assert len(once) == len(set(once))
        assert all(
            it.characteristic in KNOWN.characteristics
            for it in uses.values()
            if it.role is Role.RESULT
        )


def test_a_long_sheet_of_words_and_gaps_is_looked_at_in_time():
    """Each row is looked at a few times, however many rows there are."""
    sheet = sheet_of("\n".join(["some;words;here", ";;"] * 20_000))

    assert len(blocks_of(sheet)) == 1
