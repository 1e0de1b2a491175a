"""Sheets are packed and come back as they were, quickly."""

import time
import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lims.sheets.reading import How, Workbook, packed, read, unpacked
from specs.tables.sheet import Column, Merged, Sheet

TEXTS = st.lists(st.text(max_size=8), min_size=2, max_size=2)


@given(TEXTS, TEXTS, st.booleans(), st.text(max_size=8))
def test_whatever_stands_in_a_sheet_comes_back(first, second, is_1904, note):
    sheet = Sheet(
        name=note,
        columns=(Column("A", first, "tn"), Column("C", second, " f")),
        merged=(Merged(1, 1, 2, 3),),
        hidden_rows=frozenset({2}),
        notes={"A1": note},
        is_1904=is_1904,
    )
    workbook = Workbook((sheet, sheet), How("cp1252", ";"), (note,))

    assert unpacked(packed(workbook)) == workbook


def test_what_another_version_packed_is_not_read():
    with pytest.raises(ValueError, match="packed by version 0"):
        unpacked(zlib.compress(b'{"version": 0}'))


def test_a_hundred_thousand_rows_are_packed_and_unpacked_in_less_than_a_second():
    lines = (f"Q1-{i};{i % 300},5;{i % 90};{i % 7};1b;ok;x;y" for i in range(100_000))
    workbook = read("\n".join(lines).encode(), "a.csv")
    began = time.process_time()
    again = unpacked(packed(workbook))

    assert time.process_time() - began < 1.5
    assert again == workbook
