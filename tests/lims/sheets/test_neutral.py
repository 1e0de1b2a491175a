"""A quote before what a spreadsheet would reckon with, and the same text again when it is read back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lims.sheets.neutral import bare, neutral

RECKONED = ["=1+1", "+49", "-5.2", "@SUM(A1)", "\tx", "\rx", "\nx", "＝1", "＠x"]


@pytest.mark.parametrize("text", RECKONED)
def test_what_would_be_reckoned_with_gets_a_quote(text):
    assert neutral(text) == f"'{text}"


@pytest.mark.parametrize("text", ["", "281", "a=b", "'", "'a", " =1", ">300", "±1"])
def test_every_other_text_stays_as_it_is(text):
    assert neutral(text) == text
    assert bare(text) == text


def test_a_text_that_begins_with_a_quote_and_a_sign_keeps_its_own_quote():
    assert neutral("'=1") == "''=1"
    assert bare("''=1") == "'=1"


@given(st.text(alphabet="'=+-@ab1\t\r\n＝", max_size=6))
def test_read_back_it_is_the_same_text(text):
    assert bare(neutral(text)) == text


@given(st.text(max_size=20))
def test_what_leaves_never_begins_with_a_sign(text):
    assert neutral(text)[:1] not in set("=+-@\t\r\n＝＋－＠")
