import hashlib
import json
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.chain import FIRST_HEAD, ChainRefused, canonical, heads, next_head

CONTENT = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(st.characters(codec="utf-8")),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(st.characters(codec="utf-8")), inner, max_size=3)
    ),
)


def test_keys_are_sorted_and_nothing_is_spaced_or_escaped():
    content = {"b": ["°C", None, True], "a": {"z": 1, "y": "2.50"}}

    assert canonical(content).decode() == (
        '{"a":{"y":"2.50","z":1},"b":["°C",null,true]}'
    )


@given(CONTENT)
def test_the_canonical_form_reads_back_the_same(content):
    assert json.loads(canonical(content)) == content
    assert canonical(json.loads(canonical(content))) == canonical(content)


@pytest.mark.parametrize(
    "content", [1.5, Decimal("1.5"), {"a": [float("nan")]}, {1: "a"}, b"x", "\ud800"]
)
def test_what_has_no_single_form_is_refused(content):
    with pytest.raises(ChainRefused):
        canonical(content)


def test_a_head_hashes_the_head_before_and_the_content():
    expected = hashlib.sha256(b"0" * 64 + b'{"a":"1"}').hexdigest()

    assert next_head(FIRST_HEAD, b'{"a":"1"}') == expected
    assert next_head(FIRST_HEAD, '{"a":"1"}') == expected


@pytest.mark.parametrize(
    "previous", ["", "0" * 63, "G" * 64, "A" * 64, "0" * 64 + "\n"]
)
def test_a_head_that_is_none_is_refused(previous):
    with pytest.raises(ChainRefused, match="A head is 64"):
        next_head(previous, b"")


@given(st.lists(CONTENT, min_size=1, max_size=5), st.data())
def test_a_change_anywhere_changes_every_later_head(records, data):
    place = data.draw(st.integers(0, len(records) - 1))
    changed = [*records]
    changed[place] = {"changed": records[place]}

    before, after = heads(records), heads(changed)

    assert before[:place] == after[:place]
    pairs = zip(before[place:], after[place:], strict=True)
    assert all(one != other for one, other in pairs)


def test_no_records_have_no_heads():
    assert heads([]) == []
