"""A batch that only history tells of is found by its number; a withdrawn one is not."""

import pytest
from django.urls import reverse

from lims.imports import actions
from lims.imports.models import HistoryLine
from lims.screens.front import finding
from tests.factories import bringing


@pytest.fixture
def manager(person):
    return person("laboratory_manager")


def test_a_number_typed_whole_opens_its_line(manager):
    bringing.taken_in(by=manager)

    found = finding.find("q1-25-0377")

    line = HistoryLine.objects.get()
    assert found.exact == reverse("imports:history", args=[line.pk])


def test_two_lines_of_one_batch_are_both_shown(manager):
    lines = [bringing.line(), bringing.line(day="2025-12-04", row=9)]
    bringing.taken_in(by=manager, lines=lines)

    found = finding.find("Q1-25-0377")

    assert not found.exact
    assert [(group.kind, len(group.hits)) for group in found.groups] == [
        ("Earlier batches", 2)
    ]
    assert "unverified history" in found.groups[0].hits[0].note


def test_what_was_withdrawn_is_not_found(manager):
    brought = bringing.taken_in(by=manager)
    actions.withdraw(import_of=brought, reason="the wrong year", by=manager)

    assert finding.find("Q1-25-0377").groups == ()
