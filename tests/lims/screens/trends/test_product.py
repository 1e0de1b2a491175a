"""All characteristics of a product in one look."""

from django.db import connection
from django.test.utils import CaptureQueriesContext

from lims.bench.models import ReportedValue
from lims.people.queries import person
from tests.factories import history
from tests.lims.screens.trends.conftest import address, one, text_of


def product(**asked):
    return address("product", "LX2", **asked)


def test_each_characteristic_has_its_small_chart_and_leads_to_the_whole_one(
    as_, tested, told
):
    page = as_("tech-a").get(product())

    markup = page.content.decode()
    codes = set(ReportedValue.objects.values_list("test__characteristic", flat=True))
    assert markup.count('class="curve trend small"') == len(codes) == 9
    assert f'href="{one()}"' in markup
    assert "the last of 5 March 2026" in text_of(page)


def test_a_change_keeps_its_sign(as_, tested):
    page = text_of(as_("tech-a").get(product()))

    assert "Last +14 × 0.1 mm" in page.replace("\xa0", " ")


def test_kettle_samples_are_shown_apart(as_, opened):
    lines = history.lines((285, 287), place="kettle")
    history.taken_in(lines, by=person("mgr-1"))
    client = as_("tech-a")

    finished, kettle = client.get(product()), client.get(product(where="kettle"))

    assert "None of these samples" in text_of(finished)
    assert "Kettle samples 2" in text_of(finished)
    assert "2 values, the last of 11 January 2024." in text_of(kettle)
    assert one(where="kettle") in kettle.content.decode()


def test_a_product_without_a_value_says_how_to_get_one(as_):
    page = text_of(as_("mgr-1").get(product()))

    assert "No value of this product yet" in page
    assert "Bring a workbook in" in page


def test_an_unknown_product_is_not_found(as_):
    assert as_("tech-a").get(address("product", "XX9")).status_code == 404


def test_more_values_ask_no_more_questions(as_, tested, told):
    client = as_("tech-a")
    client.get(product())
    with CaptureQueriesContext(connection) as few:
        client.get(product())
    lines = history.lines(range(260, 300), characteristic="unworked-penetration")
    history.taken_in(lines, by=person("mgr-1"), name="more.csv")

    with CaptureQueriesContext(connection) as many:
        client.get(product())

    assert len(many) == len(few)
