"""The methods of the reference data, and browsers signed in as the plant's people."""

import html
import re

import pytest
from django.urls import reverse

from lims.methods import queries
from lims.people.queries import person
from tests.factories import methods, plant


@pytest.fixture
def opened(db):
    plant.open_plant()


@pytest.fixture
def d217(opened):
    return queries.edition("ASTM D217", "21a")


@pytest.fixture
def draft(d217):
    """A draft of its figures with one of its own: the constants."""
    return methods.draft(
        d217, by=person("chem-1"), figures=[methods.figure("constants", "exact")]
    )


def address(name, *args):
    return reverse(f"methods:{name}", args=args)


def text_of(page):
    """What a reader sees: no markup, single spaces."""
    bare = re.sub(r"<[^>]*>", " ", page.content.decode())
    return " ".join(html.unescape(bare).split())


def sent_by(page, **given):
    """What the form of a page sends as it was opened."""
    form = page.context["form"]
    told = {name: form[name].value() for name in form.fields}
    return {name: it for name, it in told.items() if it} | given
