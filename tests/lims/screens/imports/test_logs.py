"""A logger's file from upload to its curve: the subject asked once, the same in figures, withdrawn with its file."""

import pytest

from lims.imports.models import Import, Log
from lims.people.queries import person
from lims.sheets import jobs, looking
from tests.lims.screens.imports.conftest import (
    address,
    brought,
    fresh,
    map_as_proposed,
    questions_sent,
    text_of,
)

PRESSURE = "Time (min);Pressure (kPa)\n" + "".join(
    f"{minute};{758 - minute // 20}\n" for minute in range(0, 400, 10)
)


@pytest.fixture
def technician(as_):
    return as_("tech-a")


@pytest.fixture
def waiting(technician):
    row = brought(PRESSURE, "vessel3.csv", kind="log", by="tech-a")
    map_as_proposed(technician, row)
    return fresh(row)


@pytest.fixture
def log(technician, waiting):
    """The log of vessel 3, taken in."""
    sent = questions_sent(technician, waiting, **{"t1-at-B1": "vessel 3"})
    technician.post(address("questions", waiting.pk), sent)
    jobs.take(fresh(waiting), by=person("tech-a"))
    return Log.objects.get()


def test_what_was_logged_is_asked_and_may_be_written(technician, waiting):
    page = text_of(technician.get(address("questions", waiting.pk)))

    assert "What was logged in" in page
    assert "As the heading says: Pressure" in page

    sent = questions_sent(technician, waiting, **{"t1-at-B1": "vessel 3"})
    technician.post(address("questions", waiting.pk), sent)

    assert looking.looked(waiting).is_ready
    assert "vessel 3" in text_of(technician.get(address("lines", waiting.pk)))


def test_the_curve_is_drawn_and_told_in_figures(technician, log):
    page = technician.get(address("log", log.pk))

    assert '<svg class="curve"' in page.content.decode()
    told = text_of(page)
    for words in ("40 points of pressure in kPa", "758 kPa", "739 kPa", "390 min"):
        assert words in told
    assert "Longest gap between readings 10 min" in told


def test_every_reading_stands_in_the_table_and_in_the_sheet(technician, log):
    page = technician.get(address("log", log.pk))
    sheet = b"".join(technician.get(address("log", log.pk) + "?as=csv")).decode()

    assert page.context["page"].paginator.count == log.count == 40
    assert len(sheet.splitlines()) == 42  # heads and units above


def test_the_page_of_the_file_leads_to_its_logs(technician, log):
    lines = technician.get(address("lines", log.import_of_id))

    assert f'href="{address("log", log.pk)}"' in lines.content.decode()
    assert "40 points, pressure in kPa" in text_of(lines)


def test_a_withdrawn_log_says_so(technician, log):
    technician.post(address("withdraw", log.import_of_id), {"reason": "wrong vessel"})

    page = text_of(technician.get(address("log", log.pk)))

    assert fresh(log.import_of).state == Import.State.WITHDRAWN
    assert "This log is withdrawn." in page
    assert "wrong vessel" in page


def test_a_log_that_is_not_there_is_not_found(technician, log):
    assert technician.get(address("log", log.pk + 1)).status_code == 404
