"""What a chart shows stands in its address; what makes no sense is told beside its box, and nothing typed is lost."""

import pytest

from lims.people.queries import person
from tests.factories import history
from tests.lims.screens.trends.conftest import (
    address,
    compare,
    one,
    points_of,
    rows_of,
    text_of,
)


@pytest.fixture
def client(as_, tested, told):
    return as_("tech-a")


def test_days_narrow_the_chart_and_both_belong_to_it(client):
    page = client.get(one(since="2025-12-11", until="2025-12-17"))

    assert [row[0] for row in rows_of(page)] == [
        *("17 December 2025", "14 December 2025", "11 December 2025")
    ]
    assert 'value="2025-12-11"' in page.content.decode()


def test_history_can_be_left_out(client):
    page = client.get(one(history="without"))

    assert {row[3] for row in rows_of(page)} == {"released", "not released"}


def test_an_instrument_and_a_lot_narrow_it(client):
    assert len(rows_of(client.get(one(instrument="PEN-02")))) == 8
    assert [row[1] for row in rows_of(client.get(one(lot="q1-26-0418 a")))] == [
        "Q1-26-0418 A"
    ]


def test_batch_by_batch_the_same_points_stand_in_the_chart(client):
    by_time, by_batch = client.get(one()), client.get(one(along="batches"))

    assert sorted(points_of(by_time)) == sorted(points_of(by_batch))
    assert by_time.content != by_batch.content


def test_a_name_that_no_result_bears_finds_nothing_and_stays_chosen(client):
    page = client.get(one(kettle="K9"))

    assert page.status_code == 200
    assert "No value fits what is asked for." in text_of(page)
    assert "Kettle K9: take something of it away, or show everything." in text_of(page)
    assert '<option value="K9" selected>K9</option>' in page.content.decode()
    assert f'href="{one()}"' in page.content.decode()


def test_a_day_that_is_none_is_refused_beside_its_box(client):
    page = client.get(one(since="31.2.2026", kettle="K2"))

    markup = page.content.decode()
    assert page.status_code == 422
    assert "<title>Error: " in markup
    assert "From: This is no day of the calendar. Write it like 2026-03-05." in markup
    assert 'value="31.2.2026"' in markup
    assert '<option value="K2" selected>' in markup
    assert points_of(page) == []


def test_the_last_day_lies_after_the_first(client):
    page = client.get(one(since="2026-02-01", until="2026-01-01"))

    assert page.status_code == 422
    assert "This day lies before the first one" in text_of(page)


@pytest.mark.parametrize(
    "asked",
    [{"where": "the moon"}, {"along": "sideways"}, {"history": "x"}, {"lot": "x" * 41}],
)
def test_an_address_that_asks_for_what_there_is_not_is_refused(client, asked):
    page = client.get(one(**asked))

    assert page.status_code == 422
    assert "Nothing is drawn: what is asked for needs another look." in text_of(page)


def test_a_fault_is_not_taken_along_as_a_file(client):
    assert client.get(one(since="x") + "&as=csv").status_code == 422


def test_a_name_with_markup_stays_text(client):
    page = client.get(one(kettle="<b>K</b>"))

    assert "<b>K</b>" not in page.content.decode()
    assert "&lt;b&gt;K&lt;/b&gt;" in page.content.decode()


def test_more_boxes_stand_open_when_one_of_them_is_used(client):
    assert "<details>" in client.get(one()).content.decode()
    assert "<details open>" in client.get(one(lot="Q1-26-0418 A")).content.decode()


def test_who_may_not_compare_persons_neither_picks_nor_reads_them(client):
    plain = client.get(one())

    assert client.get(one(person="A. Tarn")).status_code == 403
    assert client.get(compare(**{"b-person": "A. Tarn"})).status_code == 403
    assert "A. Tarn" not in plain.content.decode()
    assert 'name="person"' not in plain.content.decode()
    sheet = client.get(one() + "?as=csv")
    assert "A. Tarn" not in b"".join(sheet.streaming_content).decode()


def test_who_may_compare_persons_does(as_, tested, told):
    manager = as_("mgr-1")

    page = manager.get(one(person="A. Tarn"))
    sheet = manager.get(one(person="A. Tarn") + "&as=csv")

    assert len(rows_of(page)) == 8
    assert {row[7] for row in rows_of(page)} == {"A. Tarn"}
    assert b"".join(sheet.streaming_content).decode().count("A. Tarn") == 8


def test_of_each_kind_of_sample_there_is_a_chart_of_its_own(as_, tested):
    lines = history.lines((285, 287), place="kettle")
    history.taken_in(lines, by=person("mgr-1"))

    page = as_("tech-a").get(one(where="kettle"))

    assert len(rows_of(page)) == 2
    assert "2 values of kettle samples of LX2" in text_of(page)


def test_a_characteristic_without_a_value_says_how_to_get_one(as_, tested):
    page = text_of(as_("mgr-1").get(one(code="roll-stability")))

    assert "Bring a workbook in" in page


@pytest.mark.parametrize("name", ["one", "compare"])
def test_what_is_not_kept_is_not_found(client, name):
    assert client.get(address(name, "XX9", "worked-penetration")).status_code == 404
    assert client.get(address(name, "LX2", "colour-of-the-drum")).status_code == 404
