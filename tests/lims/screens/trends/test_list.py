"""The products that can be charted, and the way to a first chart."""

import io

from openpyxl import load_workbook

from lims.bench.models import ReportedValue
from tests.lims.screens.trends.conftest import address, text_of


def test_without_a_value_the_page_says_how_to_get_one(as_):
    page = as_("mgr-1").get(address("list"))

    assert "No result can be charted yet." in text_of(page)
    assert "Bring a workbook in" in text_of(page)


def test_who_may_not_bring_in_is_told_who_may(as_):
    page = text_of(as_("tech-a").get(address("list")))

    assert "Bring a workbook in" not in page
    assert "the laboratory manager, the quality manager or the technologist" in page


def test_products_are_listed_with_their_counts(as_, tested, told):
    page = as_("tech-a").get(address("list"))

    assert (
        f"1 product can be charted: {ReportedValue.objects.count()} values reported "
        "here, 8 values of unverified history."
    ) in text_of(page)
    assert f'href="{address("product", "LX2")}"' in page.content.decode()


def test_the_list_goes_out_as_a_workbook_and_as_csv(as_, tested, told):
    client = as_("aud-1")

    sheet = load_workbook(io.BytesIO(client.get(address("list") + "?as=xlsx").content))
    lines = b"".join(client.get(address("list") + "?as=csv").streaming_content)

    row = [cell.value for cell in sheet.active[3]]
    assert row[0] == "LX2"
    assert row[3] == 8
    assert lines.decode().splitlines()[2].startswith("LX2,")
    assert client.get(address("list") + "?as=ods").status_code == 404


def test_every_column_sorts_both_ways(as_, tested, told):
    client = as_("tech-a")

    for column in ("product", "own", "history", "latest"):
        for sort in (column, f"-{column}"):
            assert client.get(address("list", sort=sort)).status_code == 200
