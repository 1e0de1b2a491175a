"""The invented plant's specifications, a draft of LX2 revision 6, and browsers signed in as its people."""

import html
import re

import pytest
from django.urls import reverse

from lims.people.queries import person
from lims.products import actions, queries
from lims.products.models import Customer, Revision
from tests.factories import plant


@pytest.fixture
def opened(db):
    plant.open_plant()


@pytest.fixture
def draft(opened):
    """LX2 revision 6, as it was opened: with the lines of revision 5."""
    return actions.open_draft(
        product=queries.product("LX2"), number="6", by=person("chem-1")
    )


@pytest.fixture
def agreed(opened):
    """A draft for Ferrowick Agri of LX2, without a line yet."""
    return actions.open_draft(
        product=queries.product("LX2"),
        customer=Customer.objects.get(code="FA"),
        number="1",
        by=person("chem-1"),
    )


@pytest.fixture
def penetration(draft):
    return line_of(draft, "worked-penetration")


def line_of(revision, code, kind="limit"):
    return revision.requirements.get(characteristic__code=code, kind=kind)


def address(name, *args):
    return reverse(f"specifications:{name}", args=args)


def new_line(revision, code):
    return f"{address('line-new', revision.pk)}?characteristic={code}"


def text_of(page):
    """What a reader sees: no markup, single spaces."""
    bare = re.sub(r"<[^>]*>", " ", page.content.decode())
    return " ".join(html.unescape(bare).split())


def line_sent(revision, row=None, **given):
    """What the form of a line sends; a number held against two limits, unless told otherwise."""
    seen = Revision.objects.get(pk=revision.pk)
    edition = row.edition_id if row else ""
    return {
        "kind": "limit",
        "edition": edition or "",
        "lower": "265",
        "upper": "295",
        "comparing": "rounding",
        "rule": "simple acceptance",
        "scope": "per fill lot",
        "version": seen.version,
    } | given
