"""Two groups of values beside each other, on one scale, with what they say of each other."""

import re
import statistics

import pytest

from lims.people.queries import person
from tests.factories import history
from tests.lims.screens.trends.conftest import NUMBERS, compare, one, text_of

KETTLES = {"a-kettle": "K1", "b-kettle": "K2"}
FIRST, SECOND = NUMBERS[::2], NUMBERS[1::2]  # the kettles take turns


@pytest.fixture
def client(as_, tested, told):
    return as_("tech-a")


def plain(page):
    return text_of(page).replace("\xa0", " ")


def history_of(page):
    """The figures of the table of history, by their name."""
    table = page.content.decode().split("Both groups, unverified history")[1]
    found = {}
    for row in table.split("</table>")[0].split("<tr ")[2:]:
        cells = re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row, re.DOTALL)
        name, *rest = (re.sub("<[^>]*>", "", it).replace("\xa0", " ") for it in cells)
        found[name] = rest
    return found


def test_before_anything_is_asked_the_page_offers_groups(client):
    page = client.get(compare())

    assert "choose what makes each of them." in text_of(page)
    assert "Kettle K1 and kettle K2" in text_of(page)
    address = compare(**KETTLES).replace("&", "&amp;")
    assert f'href="{address}"' in page.content.decode()


def test_years_of_values_offer_the_last_year_beside_what_was_before(as_, opened):
    lines = history.lines(range(270, 290), every=30, kettles=())
    history.taken_in(lines, by=person("mgr-1"))
    client = as_("tech-a")

    page = client.get(compare())
    offered = re.search(r'href="([^"]*)">The last year', page.content.decode())[1]
    found = client.get(offered.replace("&amp;", "&"))

    assert "Until 31 July 2024: 7 values. Since 1 August 2024: 13 values." in text_of(
        found
    )


def test_two_kettles_stand_on_one_scale(client):
    page = client.get(compare(**KETTLES))

    drawn = re.findall(
        r'<svg class="curve trend".*?</svg>', page.content.decode(), re.DOTALL
    )
    upright = [re.findall(r'text-anchor="end">([0-9]+)</text>', it) for it in drawn]
    assert len(drawn) == 2
    assert upright[0] == upright[1] != []
    assert "Kettle K1: 7 values. Kettle K2: 4 values." in text_of(page)


def test_each_source_is_compared_by_itself_with_intervals(client):
    figures = history_of(client.get(compare(**KETTLES)))

    apart = statistics.mean(SECOND) - statistics.mean(FIRST)
    assert figures["Number"][:2] == ["4", "4"]
    assert figures["Mean"][0] == f"{statistics.mean(FIRST):.1f}"
    assert figures["Mean"][1] == f"{statistics.mean(SECOND):.1f}"
    assert figures["Mean"][2].startswith(f"{apart:+.1f} × 0.1 mm (95 % interval ")
    assert figures["Median"][2] == (
        f"{statistics.median(SECOND) - statistics.median(FIRST):+.1f} × 0.1 mm"
    )
    ratio = statistics.stdev(SECOND) / statistics.stdev(FIRST)
    assert figures["s"][2].startswith(f"× {ratio:.2f} (95 % interval ")


def test_a_group_without_a_second_value_says_why_nothing_is_told(client):
    page = client.get(compare(**{"a-until": "2025-12-08", "b-since": "2025-12-09"}))

    assert history_of(page)["Mean"][2] == "not determined"
    assert "A comparison of means needs two results or more" in text_of(page)


def test_bounds_are_not_compared_by_means(as_, opened):
    lines = history.lines(
        ("198", "203", ">288", "201", "205", "199"),
        characteristic="dropping-point-block",
    )
    history.taken_in(lines, by=person("mgr-1"))

    page = as_("tech-a").get(compare(code="dropping-point-block", **KETTLES))

    assert "never averaged: means and spreads are not compared" in text_of(page)


def test_marks_stand_beside_each_other_without_a_difference(as_, opened):
    lines = history.lines(("1a", "1b", "1a", "1a"), characteristic="copper-strip")
    history.taken_in(lines, by=person("mgr-1"))

    figures = history_of(as_("tech-a").get(compare(code="copper-strip", **KETTLES)))

    assert "Mean" not in figures
    assert figures["Of these"][:2] == ["1a: 2", "1a: 1, 1b: 1"]
    assert figures["Median"] == ["1a", "1b", ""]


def test_groups_that_overlap_say_so(client):
    page = client.get(compare(**{"a-kettle": "K1"}))

    shared = len(FIRST) + 3
    assert f"The groups overlap. In both: {shared} values." in text_of(page)


def test_two_equal_groups_are_no_comparison(client):
    page = client.get(compare(**{"a-kettle": "K1", "b-kettle": "K1"}))

    assert "Both groups ask for the same values: change one of them." in text_of(page)


def test_a_group_without_a_value_stays_beside_the_other(client):
    page = client.get(compare(**{"a-kettle": "K1", "b-kettle": "K9"}))

    assert page.status_code == 200
    assert "No value with a place on a chart." in text_of(page)
    assert history_of(page)["Number"][:2] == ["4", "none"]


def test_two_empty_groups_say_what_to_do(client):
    page = client.get(compare(**{"a-kettle": "K8", "b-kettle": "K9"}))

    assert "No value fits either group" in text_of(page)


def test_a_fault_is_told_beside_its_box_and_nothing_typed_is_lost(client):
    page = client.get(compare(**KETTLES, **{"b-since": "soon"}))

    assert page.status_code == 422
    assert "<title>Error: " in page.content.decode()
    assert "This is no day of the calendar." in text_of(page)
    assert 'value="soon"' in page.content.decode()


def test_each_group_is_taken_along_by_itself(client):
    address = compare(**KETTLES)

    first = client.get(f"{address}&as=csv")
    second = client.get(f"{address}&as=csv&of=second-group")

    told = [b"".join(it.streaming_content).decode() for it in (first, second)]
    assert "K1" in told[0]
    assert "K2" not in told[0]
    assert "K2" in told[1]
    assert "K1," not in told[1]
    assert client.get(f"{address}&as=csv&of=third-group").status_code == 404


def test_a_chart_leads_to_the_comparison(client):
    assert f'href="{compare()}"' in client.get(one()).content.decode()
