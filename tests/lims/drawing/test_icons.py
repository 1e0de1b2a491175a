"""A mark is shape, word and tone together; one shape means one thing."""

import re
from xml.etree import ElementTree as ET

import pytest

from lims.drawing.icons import NOTICES, STATES, SYMBOLS, icon, logo, mark, sprite

STATES_OF_THE_RECORD = {
    *("met", "not met", "not tested", "not evaluated"),
    *("due", "running", "reported", "authorised", "accepted", "set aside"),
    *("on test", "awaiting decision", "released", "on hold"),
    *("released under concession", "for rework", "regraded", "scrapped"),
    *("draft", "in force", "superseded", "in service", "overdue"),
    *("out of service", "retired", "current", "genuine and current", "withdrawn"),
    *("not known", "saved", "saving", "not saved"),
    *("received", "taken in", "left", "taken", "converted"),
    *("needs an answer", "refused", "left out", "empty"),
}


def test_every_state_has_its_mark_and_no_other_word_has_one() -> None:
    assert set(STATES) == STATES_OF_THE_RECORD


def test_a_mark_is_a_shape_then_its_word() -> None:
    assert mark("met") == (
        '<span class="mark good"><svg aria-hidden="true"><use href="#v-met"/></svg>met</span>'
    )


def test_a_mark_may_be_big_or_soft_and_say_more() -> None:
    shown = mark("overdue", "overdue since <2 March>", big=True, soft=True)

    assert 'class="mark care big soft"' in shown
    assert shown.endswith("overdue since &lt;2 March&gt;</span>")


def test_a_word_that_is_no_state_has_no_mark() -> None:
    with pytest.raises(LookupError, match="no mark for 'valid'"):
        mark("valid")


def test_a_shape_that_is_not_drawn_is_refused() -> None:
    with pytest.raises(LookupError, match="no shape"):
        icon("h-star")


def test_the_sprite_holds_every_shape_that_marks_and_notices_use() -> None:
    root = ET.fromstring(sprite())  # noqa: S314 - our own drawing

    ids = {it.get("id") for it in root}
    assert ids == set(SYMBOLS)
    assert {symbol for symbol, _ in STATES.values()} <= ids
    assert set(NOTICES.values()) <= ids


def test_states_of_one_thing_differ_in_shape_so_that_colour_is_not_needed() -> None:
    verdicts = [
        STATES[word][0] for word in ("met", "not met", "not tested", "not evaluated")
    ]
    lots = [
        STATES[word][0]
        for word in (
            *("on test", "awaiting decision", "released", "on hold"),
            *("released under concession", "for rework", "regraded", "scrapped"),
        )
    ]

    assert len(set(verdicts)) == 4
    assert len(set(lots)) == 8


def test_no_shape_has_inline_style_or_a_colour_of_its_own() -> None:
    everything = sprite() + logo()

    assert "style=" not in everything
    assert not re.search(r"#[0-9a-f]{3,6}\b", everything)
