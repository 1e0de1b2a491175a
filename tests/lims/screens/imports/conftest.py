"""The invented plant on 10 February 2026, a pen book as its laboratory wrote it, and browsers signed in as its people."""

import html
import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from lims.imports import actions
from lims.imports.models import Import
from lims.people.queries import person
from lims.record import clock
from lims.sheets import jobs
from tests.factories import plant
from tests.specs.tables.pen_book import TEXT_OF_IT as PEN_BOOK

TIDY = """\
Batch;Date;Product;Worked penetration (0.1 mm);Analyst
Q1-25-0391;2025-12-03;LX2;281;R. Okonjo
Q1-25-0392;2025-12-04;LX2;283;R. Okonjo
Q1-25-0393;2025-12-05;LX2;279;S. Brandl
"""
SAYS = {  # every question of the pen book, answered
    "A/letter in number": "proposed",
    "B/no such day": "leave",
    "B/no date": "leave",
    "D/letter in number": "leave",
    "D/limits": "leave",
    "D/retest": "take",
    "D/blank inside": "joined",
    "D/millimetres": "mm",
    "D/mean or reading": "reading",
    "G/unit": "kPa; 0.40 in bar",
}


@pytest.fixture
def opened(db, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    plant.open_plant()
    clock.set_to(plant.at("2026-02-10 09:00"))


@pytest.fixture
def chemist(as_):
    return as_("chem-1")


@pytest.fixture
def pen_book(opened):
    """The pen book, brought in and looked at; nobody has said what its columns hold."""
    return brought(PEN_BOOK, "penbook.csv")


@pytest.fixture
def mapped(chemist, pen_book):
    """The pen book with its columns as they were proposed; its questions wait."""
    map_as_proposed(chemist, pen_book)
    return fresh(pen_book)


@pytest.fixture
def tidy(opened):
    """A sheet that raises no question."""
    return brought(TIDY, "tidy.csv")


@pytest.fixture
def ready(chemist, tidy):
    """The tidy sheet with its columns mapped: nothing is asked any more."""
    map_as_proposed(chemist, tidy)
    return fresh(tidy)


@pytest.fixture
def taken(ready):
    """The tidy sheet, taken in."""
    jobs.take(ready, by=person("chem-1"))
    return fresh(ready)


def brought(text, name, *, kind="history", by="chem-1"):
    content = text if isinstance(text, bytes) else text.encode()
    row = actions.receive(name=name, content=content, kind=kind, by=person(by))
    jobs.look(row)
    return fresh(row)


def fresh(row):
    return Import.objects.get(pk=row.pk)


def address(name, *args):
    return reverse(f"imports:{name}", args=args)


def upload(content, name="file.csv"):
    return SimpleUploadedFile(
        name, content if isinstance(content, bytes) else content.encode()
    )


def sent(form, **instead):
    """What a browser sends of a form that nobody touched, but for what is named here."""
    values = {name: form[name].value() for name in form.fields}
    kept = {name: it for name, it in values.items() if it not in (None, False)}
    return kept | instead


def columns_sent(client, row, **instead):
    return sent(client.get(address("columns", row.pk)).context["form"], **instead)


def map_as_proposed(client, row, **instead):
    return client.post(address("columns", row.pk), columns_sent(client, row, **instead))


def questions_sent(client, row, **instead):
    return sent(client.get(address("questions", row.pk)).context["form"], **instead)


def answered(client, row, says=SAYS):
    """Send an answer to every question that `says` knows."""
    form = client.get(address("questions", row.pk)).context["form"]
    told = {
        asked.choice.html_name: says[asked.question.key]
        for table in form.tables
        for asked in (*table.waiting, *table.answered)
        if asked.question.key in says
    }
    return client.post(address("questions", row.pk), sent(form, **told))


def text_of(page):
    """What a reader sees: no markup, single spaces."""
    bare = re.sub(r"<[^>]*>", " ", page.content.decode())
    return " ".join(html.unescape(bare).split())


def at(page, name):
    """The element that bears an id or a name, with what it holds up to its end."""
    found = re.search(
        rf'<[^>]*(?:id|name)="{re.escape(name)}"[^>]*>', page.content.decode()
    )
    return found.group() if found else ""
