"""Of two lists that a field held, only what differs is told."""

import json

import pytest

from lims.methods import actions, queries
from lims.people.queries import person
from lims.record.models import Entry
from lims.record.telling import told
from lims.screens.record.lists import differing
from lims.screens.record.telling import brief
from tests.factories import methods, plant

R = {"characteristic": "worked-penetration", "what": "repeatability", "value": "7",
     "level_from": "130", "level_to": "475", "source": "a table", "standing": "from memory"}  # fmt: skip
STEP = {"characteristic": "worked-penetration", "what": "reporting step", "value": "1",
        "level_from": "", "level_to": "", "source": "a page", "standing": "published"}  # fmt: skip


def listed(*items):
    return json.dumps(items, sort_keys=True, separators=(",", ":"))


def test_of_a_figure_that_changed_only_what_changed_is_told():
    before, after = differing(
        listed(R, STEP), listed({**R, "value": "8", "standing": "published"}, STEP)
    )

    name = "worked penetration, repeatability, from 130, to 475"
    assert before == f"{name}: value 7, standing from memory"
    assert after == f"{name}: value 8, standing published"


def test_a_figure_that_is_new_or_gone_is_told_whole():
    assert differing(listed(R), listed(R, STEP)) == (
        "",
        "worked penetration, reporting step: value 1, standing published, source a page",
    )
    assert differing(listed(STEP), "[]")[0].startswith("worked penetration, reporting")
    assert differing(listed(STEP), "[]")[1] == ""


def test_a_list_that_is_gone_with_its_row_is_gone():
    assert differing(listed(STEP), None)[1] is None


def test_a_long_list_is_cut_and_says_how_much_is_left_out():
    many = [{"what": str(number), "value": "1"} for number in range(9)]

    _, after = differing(None, listed(*many))

    assert after.count("value 1") == 6
    assert after.endswith("; and 3 more")


def test_an_object_is_told_key_by_key():
    before, after = differing(
        json.dumps({"strokes": "60", "cone_scale": "full"}),
        json.dumps({"strokes": "60", "cone_scale": "half", "runs": 2}),
    )

    assert (before, after) == ("cone scale full", "cone scale half; runs 2")


@pytest.mark.parametrize("text", [None, "", "280", "[]", '["a","b"]', "[{", "[{}, 1]"])
def test_any_other_text_is_left_as_it_is(text):
    assert differing(text, text) is None


def test_the_record_tells_of_a_changed_figure_what_changed(db):
    plant.open_plant()
    revision = methods.draft(by=person("chem-1"))
    actions.set_figure(
        revision=revision,
        figure=methods.figure(value="8", level_from="130", level_to="475"),
        instead_of=next(
            it
            for it in queries.figures_of(revision)
            if it.place == ("worked-penetration", "repeatability", "130", "475")
        ),
        by=person("chem-1"),
    )

    entry = Entry.objects.filter(verb="figure_set").latest("seq")
    [line], more = brief(entry, told([entry])[entry.seq])

    name = "worked penetration, repeatability, from 130, to 475"
    assert more == 0
    assert line.words == "figures"
    assert line.before.startswith(f"{name}: value 7, standing from memory, source Re")
    assert line.after == (
        f"{name}: value 8, standing published, source the laboratory's own copy"
    )
