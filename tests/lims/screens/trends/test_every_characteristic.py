"""Whatever is measured can be charted and compared, to whichever step its results are reported."""

from dataclasses import replace
from decimal import Decimal
from types import SimpleNamespace

import pytest
from django.urls import reverse

from lims.methods.models import Characteristic
from lims.people.queries import person
from lims.screens.trends.words import figure
from specs.methods.catalogue import PROCEDURES
from tests.factories import bringing, history

KINDS = Characteristic.Kind


def some_of(measured):
    """Some results that the characteristic can have."""
    if measured.kind == KINDS.RATING:
        return list(PROCEDURES[measured.procedure].scale)[:8]
    if measured.kind in {KINDS.NUMBER, KINDS.LADDER}:
        return ["12.5", "13", "11.75", "12", "14", "13.5", "12.25", "12.75"]
    return ["met", "not met", "met", "met", "met", "met"]


@pytest.fixture
def all_told(opened):
    """A batch a day with a value of everything that can be measured."""
    every = list(Characteristic.objects.all())
    lines = [
        replace(
            it,
            values=tuple(
                bringing.value(text, measured.code)
                for measured in every
                for text in some_of(measured)[at : at + 1]
            ),
        )
        for at, it in enumerate(history.lines(range(8), every=100))
    ]
    history.taken_in(lines, by=person("mgr-1"))
    return every


def test_every_characteristic_has_its_chart_and_its_comparison(as_, all_told):
    client = as_("tech-a")

    failed = [
        (name, measured.code)
        for measured in all_told
        for name in ("one", "compare")
        if client.get(
            reverse(f"trends:{name}", args=["LX2", measured.code])
        ).status_code
        != 200
    ]

    assert len(all_told) > 50
    assert failed == []


@pytest.mark.parametrize(
    ("step", "value", "shown"),
    [("1", "279.876", "279.9"), ("0.1", "2.4323", "2.43"), ("4 digits", "148.0464", "148.05"),
     ("4 digits", "0", "0.0"), ("0.01, 3 digits", "12.3456", "12.35")],
)  # fmt: skip
def test_a_figure_has_one_place_more_than_a_result_of_its_size(step, value, shown):
    assert figure(Decimal(value), SimpleNamespace(step=step)) == shown
