"""Products by the names that a laboratory gives them: asked about once a name, answered, remembered; tables that name none."""

import pytest

from lims.imports.models import HistoryLine, Layout
from lims.people.queries import person
from lims.products import actions as products
from lims.products.models import Product
from lims.sheets import jobs, looking
from tests.lims.screens.imports.conftest import (
    address,
    brought,
    fresh,
    map_as_proposed,
    questions_sent,
    text_of,
)

HEADS = "Batch;Date;Grease;Worked penetration (0.1 mm)\n"
BY_NAME = HEADS + "".join(
    f"N-{at:03};2025-11-{at % 28 + 1:02};{name};{270 + at % 20}\n"
    for at, name in enumerate(["Lithium EP 2", "Öl", "Äl", "LX2 lithium EP grease, NLGI 2"] * 8)
)  # fmt: skip


@pytest.fixture
def named(chemist, opened):
    row = brought(BY_NAME, "named.csv")
    map_as_proposed(chemist, row)
    return fresh(row)


def choose(client, row, **by_key):
    """Answer by the key of each question, with all else as it stands on the page."""
    form = client.get(address("questions", row.pk)).context["form"]
    chosen = {
        asked.choice.html_name: by_key[asked.question.key.split()[-1]]
        for table in form.tables
        for asked in table.waiting
        if asked.question.key.split()[-1] in by_key
    }
    sent = questions_sent(client, row) | chosen
    return client.post(address("questions", row.pk), sent)


def test_each_name_is_one_question_with_few_of_its_cells(chemist, named):
    page = text_of(chemist.get(address("questions", named.pk)))

    assert "3 questions wait for an answer" in page
    assert "“Lithium EP 2” in “Grease” is no product kept here (8 rows)." in page
    assert "And 3 more; the answer holds for all of them." in page
    assert "Write instead" not in page


def test_names_that_differ_in_one_letter_alone_are_answered_apart(chemist, named):
    choose(chemist, named, öl="as PU2", äl="leave")
    row = fresh(named)
    jobs.take(row, by=person("chem-1"))

    counts = {
        code: HistoryLine.objects.filter(product__code=code).count()
        for code in ("LX2", "PU2", "LC2")
    }
    assert counts == {"LX2": 16, "PU2": 8, "LC2": 0}


def test_what_a_name_stands_for_is_remembered_and_what_was_left_is_asked_anew(
    chemist, named
):
    choose(chemist, named, öl="as PU2", äl="leave")
    jobs.take(fresh(named), by=person("chem-1"))

    again = brought(BY_NAME.replace("N-", "M-"), "next year.csv")
    map_as_proposed(chemist, again)

    (block,) = looking.looked(fresh(again)).blocks
    assert [it.key for it in block.questions] == ["C/unknown product äl"]
    assert set(Layout.objects.get().choices.values()) == {"as LX2", "as PU2"}


def test_many_products_are_a_list_and_not_buttons(chemist, opened):
    plan = Product.objects.get(code="LX2").sampling_plan
    for at in range(10):
        products.add_product(
            code=f"Z{at}",
            name=f"Z{at} grease",
            family="lithium soap",
            sampling_plan=plan,
            nlgi_aim="2",
            pack_target="280",
            kettle_offset="-4",
            by=person("chem-1"),
        )
    row = brought(BY_NAME, "named.csv")
    map_as_proposed(chemist, row)

    page = chemist.get(address("questions", row.pk))
    assert "<select" in page.content.decode()
    assert "choose one" in text_of(page)
    choose(chemist, row, öl="as Z3", äl="as Z4")
    assert looking.looked(fresh(row)).is_ready


def test_a_table_without_a_product_is_asked_about_as_a_whole(chemist, opened):
    row = brought("Batch;Date;Pen W60\nT-1;2025-11-03;281\n", "pens.csv")
    map_as_proposed(chemist, row)

    page = chemist.get(address("questions", row.pk))

    told = text_of(page)
    assert "The whole table" in told
    assert "1 row of pens" in told
    assert "Cells that raise it" not in told
