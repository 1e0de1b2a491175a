"""The diagram of a fill lot's states in DEVELOPERS.md is the dict of moves."""

from lims.batches.moves import MOVES, State
from lims.management.statemap import diagram_in, fill_lot_diagram
from tests.watch.files import ROOT

GUIDE = ROOT / "DEVELOPERS.md"


def test_the_guide_shows_the_moves_that_the_program_allows():
    assert diagram_in(GUIDE.read_text(encoding="utf-8")) == fill_lot_diagram()


def test_every_state_can_be_reached_and_every_move_is_drawn():
    drawn = fill_lot_diagram()

    reached = {after for _, after in MOVES} | {State.ON_TEST}
    assert reached == set(State)
    assert drawn.count("-->") == len(MOVES) + 1
