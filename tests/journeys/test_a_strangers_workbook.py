"""A workbook of two thousand results as laboratories keep it, brought in through the screens: each value is what its writer meant, each product has its charts, and the same file adds nothing."""

from decimal import Decimal

import pandas as pd
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from lims.imports.models import HistoryLine, Import
from lims.people.queries import person
from lims.record import clock, verify
from tests.factories import messy, plant
from tests.journeys.test_an_open_data_set import Boxes, send

STANDS_FOR = {"lithiumcomplexred": "as LC2", "polyurea2": "as PU2"}
MOST_QUESTIONS = 2  # one for each name that is none of the laboratory's own


@pytest.fixture
def technologist(db, settings, tmp_path, client):
    settings.MEDIA_ROOT = tmp_path
    plant.open_plant()
    clock.set_to(plant.at("2026-02-10 09:00"))
    client.force_login(person("chem-1"))
    return client


def upload(client, content, name="batch book.xlsx"):
    file = SimpleUploadedFile(name, content)
    return client.post(reverse("imports:new"), {"kind": "history", "file": file})


def answers(client, row):
    """What is proposed, and the products that the laboratory's own names stand for."""
    page = client.get(reverse("imports:questions", args=[row.pk]))
    return {
        asked.choice.html_name: STANDS_FOR.get(
            asked.question.key.partition("unknown product ")[2],
            asked.question.proposed,
        )
        for table in page.context["form"].tables
        for asked in table.waiting
    }


def taken_in(client, content):
    upload(client, content)
    row = Import.objects.latest("pk")
    send(client, "columns", row)
    told = answers(client, row)
    assert len(told) <= MOST_QUESTIONS
    send(client, "questions", row, **told)
    page = client.get(reverse("imports:one", args=[row.pk])).content.decode()
    client.post(reverse("imports:take", args=[row.pk]), Boxes(page).sent)
    row.refresh_from_db()
    return row


def found():
    return {
        (line.batch, it["characteristic"]): it["value"]
        for line in HistoryLine.objects.all()
        for it in line.values
    }


def charted(client, product, code):
    """The values of a chart as they leave it."""
    where = reverse("trends:one", args=[product, code])
    response = client.get(where, {"as": "csv"})
    lines = b"".join(response.streaming_content).decode("utf-8-sig").splitlines()
    heads, _units, *rows = pd.read_csv(
        pd.io.common.StringIO("\n".join(lines)), header=None, dtype=str
    ).to_numpy().tolist()  # fmt: skip
    return pd.DataFrame(rows, columns=heads)


def test_two_thousand_results_are_what_their_writers_meant(technologist):
    book = messy.messy()
    content = book.workbook()

    row = taken_in(technologist, content)

    assert row.state == Import.State.TAKEN_IN
    assert len(book.truth) > 1700
    assert found() == book.truth
    products = {line.batch: line.product.code for line in HistoryLine.objects.all()}
    assert products == book.products

    page = technologist.get(reverse("trends:list")).content.decode()
    for product in sorted(set(book.products.values())):
        assert reverse("trends:product", args=[product]) in page
        check_chart(technologist, book, product, "worked-penetration")

    again = upload(technologist, content)
    assert "taken in" in again.content.decode()
    assert Import.objects.count() == 1
    assert found() == book.truth
    assert verify.verify().holds


def check_chart(client, book, product, code):
    """The chart of a product holds what pandas makes of the truth."""
    meant = pd.Series(
        [
            Decimal(value)
            for (batch, of), value in book.truth.items()
            if of == code and book.products[batch] == product
        ]
    )
    shown = charted(client, product, code)
    values = pd.Series([Decimal(it) for it in shown["Value"]])
    assert sorted(values) == sorted(meant)
    assert values.astype(float).mean() == pytest.approx(meant.astype(float).mean())
