"""While the program is at work: the page says so, asks for news, and works without a script."""

import datetime as dt

import pytest

from lims.imports.models import Staging
from lims.record.clock import now
from tests.lims.screens.imports.conftest import address, text_of


def at_work(row, **said):
    given = {"stage": "checking", "changed_at": now()} | said
    Staging.objects.filter(import_of=row).update(**given)


def test_the_page_says_how_far_it_is_and_asks_for_news(chemist, tidy):
    at_work(tidy, words="checking tidy!A1:E4", done=1, total=4)

    page = chemist.get(address("one", tidy.pk))

    assert "Every cell is being checked." in text_of(page)
    assert "Checking tidy!A1:E4 : 1 of 4" in text_of(page).replace("4: 1", "4 : 1")
    assert f'hx-get="{address("progress", tidy.pk)}"' in page.content.decode()
    assert '<progress max="4" value="1"' in page.content.decode()
    assert 'role="status"' in page.content.decode()


def test_it_can_be_left_and_found_again(chemist, tidy):
    at_work(tidy)

    page = text_of(chemist.get(address("list")))

    assert "tidy.csv" in page
    assert "Every cell is being checked." in page


def test_without_a_script_a_link_loads_the_page_again(chemist, tidy):
    at_work(tidy)

    page = chemist.get(address("one", tidy.pk)).content.decode()

    assert f'<a href="{address("one", tidy.pk)}">Look how far it is</a>' in page


def test_news_while_it_lasts_ask_on(chemist, tidy):
    at_work(tidy)

    page = chemist.get(address("progress", tidy.pk))

    assert "hx-trigger" in page.content.decode()
    assert "HX-Refresh" not in page


def test_once_it_is_through_the_page_loads_itself(chemist, tidy):
    page = chemist.get(address("progress", tidy.pk))

    assert page["HX-Refresh"] == "true"
    assert "hx-trigger" not in page.content.decode()


def test_news_of_a_file_that_was_taken_in_load_the_page_too(chemist, taken):
    assert chemist.get(address("progress", taken.pk))["HX-Refresh"] == "true"


def test_what_nobody_begins_for_a_minute_is_told(chemist, tidy):
    at_work(tidy, stage="waiting", changed_at=now() - dt.timedelta(minutes=2))

    page = text_of(chemist.get(address("one", tidy.pk)))

    assert "Nothing has begun for a minute." in page


def test_what_just_began_to_wait_is_no_trouble(chemist, tidy):
    at_work(tidy, stage="waiting")

    assert "Nothing has begun" not in text_of(chemist.get(address("one", tidy.pk)))


@pytest.mark.parametrize("stage", ["reading", "checking", "taking in"])
def test_work_that_was_ended_from_outside_can_be_gone_on_with(stage, chemist, ready):
    at_work(ready, stage=stage, changed_at=now() - dt.timedelta(minutes=6))

    page = chemist.get(address("one", ready.pk))
    assert "Nothing was heard of this work for five minutes" in text_of(page)
    assert f'action="{address("look", ready.pk)}"' in page.content.decode()
    chemist.post(address("look", ready.pk))

    assert "Nothing is asked any more." in text_of(
        chemist.get(address("one", ready.pk))
    )


def test_work_that_was_just_heard_of_is_not_disturbed(chemist, ready):
    at_work(ready, changed_at=now() - dt.timedelta(minutes=4))

    page = chemist.get(address("one", ready.pk)).content.decode()

    assert "Nothing was heard" not in page
    assert f'action="{address("look", ready.pk)}"' not in page


@pytest.mark.parametrize("name", ["lines", "cells", "questions"])
def test_other_pages_say_that_the_file_is_being_looked_at(chemist, ready, name):
    at_work(ready)

    page = text_of(chemist.get(address(name, ready.pk)))

    assert "being looked at" in page


def test_while_it_is_at_work_no_step_is_offered(chemist, ready):
    at_work(ready)

    page = chemist.get(address("one", ready.pk)).content.decode()

    assert "h-steps" not in page
    assert "h-take" not in page
