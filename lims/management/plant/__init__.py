"""The invented plant of the demo: Quernstone Grease Works in mid-shift, built only by calling actions, step by step in the order of time."""

import datetime as dt
import json
from collections.abc import Iterable, MutableMapping
from pathlib import Path
from typing import Any

from django.conf import settings

from lims.management.plant.changes import changes_of
from lims.management.plant.goods import make_agreements, make_goods
from lims.management.plant.history import bring_in
from lims.management.plant.house import make_house
from lims.management.plant.story import Step, steps_of
from lims.people.queries import person
from lims.record import clock

ZONE_OFFSET = dt.timezone(dt.timedelta(hours=1))  # the story plays in winter
FOLDER = Path(settings.ROOT) / "fixtures" / "demo"
NOW = dt.datetime(2026, 3, 5, 11, 20, tzinfo=ZONE_OFFSET)


def build(passwords: MutableMapping[str, str], *, check_address: str = "") -> None:
    """Build the plant and leave its clock running on from the middle of a morning shift.

    `check_address` is where the certificates' codes lead: the address it is served at.
    """
    story = told()
    if check_address:
        story["house"]["site"]["check_address"] = check_address
    clock.set_to(dt.datetime(2025, 12, 1, 8, 0, tzinfo=ZONE_OFFSET))
    make_house(story["house"], passwords)
    make_goods(story["goods"], passwords)
    make_agreements(story["goods"], passwords)
    bring_in(FOLDER / "history.csv", kind="history", by=person("chem-1"))
    play(story["lots"], passwords, until=NOW, besides=changes_of(story, passwords))
    clock.start_from(NOW)


def told() -> dict[str, Any]:
    """The story as written in fixtures/demo."""
    return {
        name: json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))
        for name in ("house", "goods", "lots")
    }


def play(
    lots: list[dict[str, Any]],
    passwords: MutableMapping[str, str],
    *,
    until: dt.datetime,
    besides: Iterable[Step] = (),
) -> None:
    """Play every step of every lot, and those besides, that has happened by then, each at its own time."""
    steps: list[Step] = [step for lot in lots for step in steps_of(lot, passwords)]
    steps += besides
    for step in sorted(steps, key=lambda step: step.at):
        if step.at <= until:
            clock.set_to(step.at)
            step.play()
