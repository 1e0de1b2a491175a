"""Fills of lot Q1-26-0417-A in the penetrometer: one too wide, then two that differ by more than r."""

from lims.bench.actions import entering
from lims.people.queries import person
from tests.factories import plant

WORKED = "worked-penetration"
BEFORE_THE_STROKES = {
    "penetrometer": "PEN-01",
    "temperature": "25.1",
    "strokes_end": "07:58:30",
}


def the_test():
    return plant.the_test(WORKED)


def fill(cones, *, test=None, **conditions):
    """A whole set: its conditions and three cone readings."""
    by, test = person("tech-a"), test or the_test()
    for key, text in (BEFORE_THE_STROKES | conditions).items():
        entering.record_condition(test=test, key=key, text=text, by=by)
        test.refresh_from_db()
    for place, text in enumerate(cones.split(), 1):
        entering.record_reading(test=test, slot=f"cone_{place}", text=text, by=by)
        test.refresh_from_db()


def disagreeing():
    """The lot with everything tested but the worked penetration, of which set 1 is set aside and sets 2 and 3 ask for a third result."""
    tests = {key: text for key, text in plant.READY.items() if key != "worked"}
    plant.play(plant.story(tests=tests), until="2026-03-07 08:00")
    fill("276 284 279")
    entering.set_aside(
        determination=the_test().determinations.get(place=1),
        reason="void seen at cup wall",
        by=person("tech-a"),
    )
    for cones in ("278 281 280", "287 290 288"):
        fill(cones)
    return plant.lot()
