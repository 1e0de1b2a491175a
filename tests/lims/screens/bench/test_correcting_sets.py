"""Correcting an earlier set from its line in the list: with a reason, by the same checks as a fresh reading."""

import pytest

from lims.bench.models import Determination
from lims.record import clock
from tests.lims.screens.bench.sets import (
    correct,
    page,
    the_test,
)
from tests.lims.screens.bench.walking import told

DROPPING = "dropping-point-block"


@pytest.fixture(autouse=True)
def _at_the_bench(sample):
    clock.set_to(sample.received_at.replace(hour=8, minute=0))


def test_an_earlier_set_is_corrected_with_a_reason(bench, sample, disagreeing):
    answer = correct(
        bench, sample, 3, key="cone_1", text="281", reason="read from the wrong line"
    )

    assert answer.status_code == 303
    row = Determination.objects.get(test=the_test(sample), place=3)
    assert [it.text for it in row.readings.filter(slot="cone_1")] == ["287", "281"]
    assert "Set 3 is corrected." in page(bench, sample)


def test_a_condition_of_an_earlier_set_is_corrected(bench, sample, disagreeing):
    answer = correct(
        bench, sample, 2, key="strokes_end", text="085500", reason="watch misread"
    )

    assert answer.status_code == 303
    row = Determination.objects.get(test=the_test(sample), place=2)
    assert row.conditions.filter(key="strokes_end").count() == 2


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"text": "281", "reason": ""}, "Say why it changes"),
        ({"text": "", "reason": "slip"}, "Write the right value."),
        ({"text": "28l", "reason": "slip"}, "has a letter among its digits"),
        ({"text": "2810", "reason": "slip"}, "type the value again"),
        ({"key": "cone_9", "text": "281", "reason": "slip"}, "not one of the"),
    ],
)
def test_a_correction_that_is_refused_keeps_what_was_typed(
    bench, sample, disagreeing, fields, sentence
):
    answer = correct(bench, sample, 3, **{"key": "cone_1"} | fields)

    assert answer.status_code == 422
    assert sentence in told(answer)
    assert fields["text"] in told(answer)
    assert f'value="{fields["reason"]}"' in told(answer)
    row = Determination.objects.get(test=the_test(sample), place=3)
    assert row.readings.count() == 3


def test_an_implausible_correction_typed_again_is_stored(bench, sample, disagreeing):
    answer = told(
        correct(bench, sample, 3, key="cone_1", text="2810", reason="so it reads")
    )
    assert 'name="again" value="2810"' in answer

    again = correct(
        bench, sample, 3, key="cone_1", text="2810", again="2810", reason="so it reads"
    )

    assert again.status_code == 303


def test_a_set_that_a_person_set_aside_is_not_corrected(bench, sample, disagreeing):
    answer = correct(bench, sample, 1, key="cone_1", text="281", reason="slip")

    assert answer.status_code == 409
    assert "Set 1 is set aside" in told(answer)


def test_a_set_that_nobody_began_is_not_found(bench, sample, disagreeing):
    assert correct(bench, sample, 9, key="cone_1", text="281").status_code == 404
