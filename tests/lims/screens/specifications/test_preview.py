"""What would a draft have done? The page with its answer, its lines and lots, and the same as a sheet."""

import io

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from openpyxl import load_workbook

from lims.people.queries import person
from lims.products import actions, queries
from lims.screens import paging
from tests.factories import plant, products
from tests.lims.screens.specifications.conftest import address, text_of


@pytest.fixture
def tested(opened):
    """Two lots of LX2, 280 and 288."""
    plant.play(
        plant.story(),
        plant.story(
            "0418", retain="R-12-5", tests=plant.READY | {"worked": "287 289 288"}
        ),
    )


@pytest.fixture
def tightened(tested, draft):
    """LX2 revision 6 with 270 to 285."""
    actions.set_requirement(
        revision=draft, line=products.worked_line("270", "285"), by=person("chem-1")
    )
    return draft


def test_the_answer_counts_what_would_have_failed_and_names_the_lot(as_, tightened):
    page = as_("chem-1").get(address("preview", tightened.pk))

    assert (
        "This revision would have failed 1 of 12 stored results of LX2, on 1 fill lot."
        in text_of(page)
    )
    assert reverse("batches:lot", args=["Q1-26-0418-A"]) in page.content.decode()
    assert "Q1-26-0417" not in page.content.decode()
    assert "Not known, for want of a stored result: Oxidation" in text_of(page)


def test_a_draft_as_wide_as_the_revision_in_force_would_have_failed_none(
    as_, tested, draft
):
    page = text_of(as_("chem-1").get(address("preview", draft.pk)))

    assert "would have failed none of 12 stored results of LX2." in page


def test_without_a_stored_result_nothing_is_known(as_, draft):
    page = text_of(as_("aud-1").get(address("preview", draft.pk)))

    assert "No result of LX2 is stored for these lines" in page
    assert "is not known" in page


def test_a_draft_leads_to_its_preview_and_so_does_its_approval(as_, tightened):
    there = address("preview", tightened.pk)

    assert (
        there in as_("tech-a").get(address("revision", tightened.pk)).content.decode()
    )
    assert there in as_("qm-1").get(address("approve", tightened.pk)).content.decode()


def test_the_list_goes_out_as_a_sheet(as_, tightened):
    client = as_("chem-1")

    csv = client.get(address("preview", tightened.pk), {"as": "csv"})
    xlsx = client.get(address("preview", tightened.pk), {"as": "xlsx"})
    other = client.get(address("preview", tightened.pk), {"as": "ods"})

    lines = b"".join(csv.streaming_content).decode().splitlines()
    assert len(lines) == 3
    assert lines[2].startswith("Q1-26-0418 A,1,")
    assert "288" in lines[2]
    assert "not met" in lines[2]
    sheet = load_workbook(io.BytesIO(xlsx.content)).active
    assert sheet["A3"].value == "Q1-26-0418 A"
    assert other.status_code == 404


def test_more_lots_ask_no_more_questions(as_, tightened):
    client = as_("chem-1")
    client.get(address("preview", tightened.pk))
    with CaptureQueriesContext(connection) as one:
        client.get(address("preview", tightened.pk))
    plant.play(
        *(
            plant.story(
                number,
                retain=f"R-13-{number}",
                tests=plant.READY | {"worked": "291 293 292"},
            )
            for number in ("0420", "0421", "0422")
        )
    )
    with CaptureQueriesContext(connection) as many:
        page = client.get(address("preview", tightened.pk))

    assert "failed 4 of 30" in text_of(page)
    assert len(one) == len(many)


def test_every_lot_with_a_failure_is_listed_page_by_page(as_, tightened, monkeypatch):
    monkeypatch.setattr(paging.page_of, "__kwdefaults__", {"size": 1})
    actions.set_requirement(
        revision=tightened,
        line=products.worked_line("266", "267"),
        by=person("chem-1"),
    )
    client = as_("chem-1")

    first = text_of(client.get(address("preview", tightened.pk)))
    second = text_of(client.get(address("preview", tightened.pk), {"page": "2"}))

    assert "Q1-26-0418 A" in first
    assert "Q1-26-0417 A" not in first
    assert "Q1-26-0417 A" in second


def test_the_revision_in_force_can_be_looked_at_too(as_, tested):
    own = queries.in_force(queries.product("LX2"))

    assert as_("tech-a").get(address("preview", own.pk)).status_code == 200


def test_a_line_without_a_stored_result_is_not_known_rather_than_nought(as_, tightened):
    actions.copy_published_lines(
        revision=tightened,
        published=queries.published("GOST 20421-75"),
        comparing="rounding",
        rule="simple acceptance",
        by=person("chem-1"),
    )

    page = text_of(as_("chem-1").get(address("preview", tightened.pk)))

    assert "Not known of 9 lines, for want of a stored result." in page
    assert page.count("none not known not known not known") == 9
