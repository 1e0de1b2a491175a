"""The invented plant with a few lots and a file of history, and browsers signed in as its people."""

import datetime as dt
import html
import re
from urllib.parse import urlencode

import pytest
from django.urls import reverse

from lims.people.queries import person
from lims.trends import queries
from lims.trends.asked import Asked
from tests.factories import history, plant

WORKED = "worked-penetration"
NUMBERS = (281, 284, 279, 290, 277, 283, 280, 286)
FIRST = dt.date(2025, 12, 8)


@pytest.fixture
def opened(db, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    plant.open_plant()


@pytest.fixture
def tested(opened):
    """Two lots of LX2, 280 and 288; the first is released."""
    plant.play(
        plant.periodic_pass(),
        plant.story(),
        plant.story(
            "0418", retain="R-12-5", tests=plant.READY | {"worked": "287 289 288"}
        ),
    )
    plant.release(plant.lot())


@pytest.fixture
def told(opened):
    """Eight batches of unverified history, of kettles K1 and K2 in turn."""
    return history.taken_in(
        history.lines(NUMBERS, first=FIRST, instrument="PEN-02", person="A. Tarn"),
        by=person("mgr-1"),
    )


def one(product="LX2", code=WORKED, **asked):
    """The address of a chart."""
    return address("one", product, code, **asked)


def compare(product="LX2", code=WORKED, **asked):
    return address("compare", product, code, **asked)


def address(name, *args, **asked):
    query = f"?{urlencode(asked)}" if asked else ""
    return reverse(f"trends:{name}", args=args) + query


def trend(code=WORKED, **asked):
    """What the same chart holds, asked of the query."""
    return queries.trend(Asked("LX2", code, **asked))


def text_of(page):
    """What a reader sees: no markup, single spaces."""
    bare = re.sub(r"<[^>]*>", " ", page.content.decode())
    return " ".join(html.unescape(bare).split())


def rows_of(page):
    """The cells of the table of values, row by row."""
    markup = page.content.decode()
    if 'class="grid results values"' not in markup:
        return []
    body = markup.split('class="grid results values"')[1].split("</table>")[0]
    found = re.findall(r"<tr.*?</tr>", body.split("<tbody")[1], re.DOTALL)
    return [
        [
            " ".join(html.unescape(re.sub(r"<[^>]*>", " ", cell)).split())
            for cell in re.findall(r"<t[dh][ >].*?</t[dh]>", row, re.DOTALL)
        ]
        for row in found
    ]


def points_of(page):
    """Where each point of the drawing leads and what it says, as drawn."""
    markup = page.content.decode()
    drawn = re.search(r'<svg class="curve trend".*?</svg>', markup, re.DOTALL)
    found = re.findall(
        r'<a href="([^"]*)"[^>]*><title>([^<]*)</title>', drawn[0] if drawn else ""
    )
    return [(html.unescape(where), html.unescape(said)) for where, said in found]
