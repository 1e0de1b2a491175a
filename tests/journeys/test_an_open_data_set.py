"""An open data set through the same screens: 21 days of a plant that makes nitric acid, as statsmodels carries them (K. A. Brownlee, Statistical Theory and Methodology, 2nd ed. 1965, p. 454: stack loss)."""

import datetime as dt
from decimal import Decimal
from html.parser import HTMLParser

import pandas as pd
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from scipy import stats

from lims.imports.models import HistoryLine, Import
from lims.methods import actions as methods
from lims.people.queries import person
from lims.record import clock, verify
from lims.trends import queries as trends
from lims.trends.asked import Asked
from tests.factories import plant

NAMES = {
    "AIRFLOW": "air-flow",
    "WATERTEMP": "water-temperature",
    "ACIDCONC": "acid-concentration",
    "STACKLOSS": "stack-loss",
}
FIRST = dt.date(2025, 6, 2)


@pytest.fixture
def data():
    """The data set as the package carries it."""
    from statsmodels.datasets import stackloss

    return stackloss.load_pandas().data


@pytest.fixture
def technologist(db, settings, tmp_path, client):
    """The technologist, signed in, with a characteristic for each column."""
    settings.MEDIA_ROOT = tmp_path
    plant.open_plant()
    clock.set_to(plant.at("2026-02-10 09:00"))
    by = person("chem-1")
    for place, code in enumerate(NAMES.values(), start=300):
        methods.add_characteristic(
            code=code,
            name=name_of(code),
            procedure="number as read",
            unit="",
            place=place,
            by=by,
        )
    client.force_login(by)
    return client


class Boxes(HTMLParser):
    """The names and values of a page's boxes, as a browser would send them."""

    def __init__(self, page):
        super().__init__()
        self.sent, self.select = {}, ""
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        found = dict(attrs)
        if tag == "select":
            self.select = found.get("name", "")
        elif tag == "option" and self.select and "selected" in found:
            self.sent[self.select] = found.get("value", "")
        elif tag == "input" and found.get("name"):
            self._input(found)

    def handle_endtag(self, tag):
        if tag == "select":
            self.select = ""

    def _input(self, found):
        if found.get("type") in {"radio", "checkbox"} and "checked" not in found:
            return
        self.sent[found["name"]] = found.get("value", "")


def name_of(code):
    return code.replace("-", " ").capitalize()


def workbook(data):
    """The data as a plant would keep them: a batch a day."""
    heads = {column: name_of(code) for column, code in NAMES.items()}
    rows = (
        data.astype(str)
        .rename(columns=heads)
        .assign(
            Batch=[f"N-{number:02}" for number in range(1, len(data) + 1)],
            Date=[
                (FIRST + dt.timedelta(days=it)).isoformat() for it in range(len(data))
            ],
            Product="LX2",
        )
    )
    return rows.to_csv(index=False, sep="\t").encode("utf-16")


def send(client, name, address_of, **changed):
    """Send a page's form as it stands, but for what is changed."""
    address = reverse(f"imports:{name}", args=[address_of.pk])
    boxes = Boxes(client.get(address).content.decode()).sent
    return client.post(address, boxes | changed)


def test_it_comes_in_and_is_charted_as_pandas_and_scipy_see_it(data, technologist):
    client = technologist
    file = SimpleUploadedFile("stack loss.txt", workbook(data))
    client.post(reverse("imports:new"), {"kind": "history", "file": file})
    row = Import.objects.get()
    send(client, "columns", row)
    row.refresh_from_db()
    (uses,) = row.mapping.values()
    assert {it["characteristic"] for it in uses.values()} >= set(NAMES.values())

    page = client.get(reverse("imports:one", args=[row.pk])).content.decode()
    boxes = Boxes(page).sent
    client.post(reverse("imports:take", args=[row.pk]), boxes)

    row.refresh_from_db()
    assert row.state == "taken in", client.get(reverse("imports:one", args=[row.pk]))
    assert HistoryLine.objects.count() == 21
    for column, code in NAMES.items():
        check_like_pandas(code, data[column])
    assert verify.verify().holds


def check_like_pandas(code, column):
    """The chart's points and summary against the column itself."""
    chart = trends.trend(Asked(product="LX2", characteristic=code))
    (series,) = chart.series
    assert [Decimal(it.value) for it in series.points] == [
        Decimal(str(it)) for it in column
    ]
    told = series.summary
    assert float(told.mean) == pytest.approx(column.mean(), rel=1e-12)
    assert float(told.s) == pytest.approx(column.std(ddof=1), rel=1e-12)
    assert float(told.median) == column.median()
    assert float(told.s) ** 2 == pytest.approx(stats.tvar(column), rel=1e-12)
    assert isinstance(column, pd.Series)
