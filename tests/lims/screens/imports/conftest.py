"""The invented plant on 10 February 2026, a pen book as its laboratory wrote it, and browsers signed in as its people."""

import html
import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from lims.imports import actions
from lims.imports.models import Import
from lims.people.queries import person
from lims.record import clock
from lims.sheets import jobs
from tests.factories import plant

PEN_BOOK = """\
Quern Mill lab - pen book 2025/26;;;;;;;;
Batch;Date;Product;Pen W60;Pen 100k;Drop pt;Ox. 100h;Cu strip;Remark
Q1-25-0377;03/12/2025;LX2;280,5;301;201;5.5 psi;1b;ok
;;;281;;;;;2nd cup
;;;279;;;;;
Q1-25-O378;46009;LX2;27,9;;198;38;1a;pen in mm
Q1-25-0379;12.12.2025;PU2;>300;;>288;<2;1b;too soft?
Q1-25-0380;2025-12-15;LC2;283 (retest);;262;0,40;pass;
Q1-25-0381;15/12/25;LX2;2 81;298;388F;n/a;1b;
Q1-25-0381;15/12/25;LX2;281;298;388F;n/a;1b;dup?
Q1-25-0382;03/01/2026;LX2;265-295;;;;;limits row pasted
Q1-25-0383;31/02/2026;LX2;279;;200;35;1B;
Q1-25-0384;;LX2;28l;;199;36;2a;
;;Average;280,1;299;;;;
"""
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
def as_(opened):
    """`as_("chem-1")`: a client signed in as somebody."""

    def sign_in(account):
        client = Client()
        client.force_login(person(account))
        return client

    return sign_in


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
