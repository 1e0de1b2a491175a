"""The diagram written from a dict of moves."""

import pytest

from lims.management.statemap import diagram, diagram_in

MOVES = {("on test", "released"): "authorise_lots", ("released", "on hold"): "hold"}


def test_a_diagram_names_each_state_once_and_draws_each_move():
    assert diagram(MOVES, first="on test") == "\n".join(
        [
            "```mermaid",
            "stateDiagram-v2",
            "    on_test: on test",
            "    released: released",
            "    on_hold: on hold",
            "    [*] --> on_test",
            "    on_test --> released: authorise lots",
            "    released --> on_hold: hold",
            "```",
        ]
    )


def test_the_diagram_between_the_marks_is_found():
    page = "before\n<!-- states -->\nthe diagram\n<!-- states -->\nafter"

    assert diagram_in(page) == "the diagram"


def test_a_page_without_both_marks_is_refused():
    with pytest.raises(ValueError, match="no two lines"):
        diagram_in("one\n<!-- states -->\n")
