"""The diagram of a fill lot's states, written from the dict of moves, for DEVELOPERS.md."""

from collections.abc import Mapping
from typing import TypeVar

from lims.batches.moves import MOVES, State

MARK = "<!-- states -->"
S = TypeVar("S", bound=str)


def fill_lot_diagram() -> str:
    """The diagram of the moves that the program allows."""
    return diagram(MOVES, first=State.ON_TEST)


def diagram(moves: Mapping[tuple[S, S], str], *, first: str) -> str:
    """A fenced Mermaid diagram: one arrow a move, with the permission it needs."""
    states = dict.fromkeys(state for move in moves for state in move)
    lines = ["```mermaid", "stateDiagram-v2"]
    lines += [f"    {_key(state)}: {state}" for state in states]
    lines.append(f"    [*] --> {_key(first)}")
    lines += [
        f"    {_key(before)} --> {_key(after)}: {permission.replace('_', ' ')}"
        for (before, after), permission in moves.items()
    ]
    return "\n".join([*lines, "```"])


def diagram_in(text: str) -> str:
    """The diagram that stands between the two marks of a page."""
    _, found, rest = text.partition(MARK)
    between, closed, _ = rest.partition(MARK)
    if not (found and closed):
        raise ValueError(f"The page has no two lines {MARK}.")
    return between.strip()


def _key(state: str) -> str:
    return str(state).replace(" ", "_")
