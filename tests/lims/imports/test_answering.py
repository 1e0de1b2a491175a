"""What is said about columns and questions, and how long it holds."""

import pytest

from lims.imports import actions
from lims.imports.models import Staging
from lims.record.models import Entry
from lims.record.refusals import ChangedSince, NotAllowed
from tests.factories import bringing

BATCH = {"role": "batch"}
WORKED = {"role": "result", "characteristic": "worked-penetration"}
UNWORKED = {"role": "result", "characteristic": "unworked-penetration"}


@pytest.fixture
def waiting(manager):
    return bringing.received(by=manager)


def mapped(waiting, manager, **uses):
    return actions.map_columns(import_of=waiting, mapping={"t": uses}, by=manager)


def test_a_mapping_is_kept_and_recorded(waiting, manager):
    mapped(waiting, manager, A=BATCH, D=WORKED)

    waiting.refresh_from_db()
    assert waiting.mapping == {"t": {"A": BATCH, "D": WORKED}}
    assert Entry.objects.first().verb == "columns_mapped"


def test_answers_add_up(waiting, manager):
    mapped(waiting, manager, A=BATCH, D=WORKED)

    actions.answer(
        import_of=waiting,
        choices={"t": {"D/unit": "kPa"}},
        instead={"t": {"A6": "Q1-25-0378"}},
        by=manager,
    )
    actions.answer(
        import_of=waiting, choices={"t": {"D/mean": "reading"}}, instead={}, by=manager
    )

    assert waiting.answers["t"] == {
        "choices": {"D/unit": "kPa", "D/mean": "reading"},
        "instead": {"A6": "Q1-25-0378"},
    }


def test_an_emptied_box_takes_its_answer_back(waiting, manager):
    said = {"t": {"A6": "Q1-25-0378"}}
    actions.answer(import_of=waiting, choices={}, instead=said, by=manager)

    actions.answer(
        import_of=waiting, choices={}, instead={"t": {"A6": " "}}, by=manager
    )

    assert waiting.answers["t"]["instead"] == {}


def test_answers_to_a_column_that_changed_its_meaning_go(waiting, manager):
    mapped(waiting, manager, A=BATCH, D=WORKED)
    actions.answer(
        import_of=waiting,
        choices={"t": {"D/unit": "mm", "A/letter": "yes"}},
        instead={"t": {"D6": "27.9", "A6": "Q1-25-0378"}},
        by=manager,
    )

    mapped(waiting, manager, A=BATCH, D=UNWORKED)

    assert waiting.answers["t"] == {
        "choices": {"A/letter": "yes"},
        "instead": {"A6": "Q1-25-0378"},
    }


def test_another_way_of_reading_begins_anew(waiting, manager):
    mapped(waiting, manager, A=BATCH)
    Staging.objects.filter(import_of=waiting).update(parsed=b"x", looked_at_version=2)

    actions.set_reading(import_of=waiting, encoding="cp1250", delimiter=";", by=manager)

    assert waiting.mapping == {}
    assert Staging.objects.get().parsed is None


def test_whoever_saw_an_older_state_is_told(waiting, manager):
    seen = waiting.version
    mapped(waiting, manager, A=BATCH)

    with pytest.raises(ChangedSince):
        actions.answer(
            import_of=waiting,
            choices={"t": {"x": "y"}},
            instead={},
            version=seen,
            by=manager,
        )


def test_who_may_not_bring_in_does_not_answer(waiting, person):
    with pytest.raises(NotAllowed):
        actions.answer(
            import_of=waiting,
            choices={"t": {"x": "y"}},
            instead={},
            by=person("technician"),
        )
