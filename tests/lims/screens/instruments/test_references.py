"""Reference readings in the browser: typed, drawn, told, taken along; and the look-back after one that is off."""

import datetime as dt

import pytest
from django.urls import reverse

from lims.instruments.actions_on_references import (
    add_reference_material,
    read_reference,
)
from lims.instruments.models import Instrument, ReferenceMaterial, ReferenceReading
from lims.people.queries import person
from lims.record import clock
from tests.factories import plant
from tests.factories.methods import characteristic


@pytest.fixture
def works(db):
    plant.open_plant()
    clock.set_to(plant.at("2026-03-24 07:00"))
    return add_reference_material(
        name="reference grease",
        lot="RG-7",
        kind="penetrometer",
        characteristic=characteristic(),
        assigned="286",
        basis="round robin",
        deviation="2.53",
        deviation_basis="chart of 2025",
        expires_on=dt.date(2026, 12, 31),
        by=person("mgr-1"),
    )


def as_(client, account):
    client.force_login(person(account))
    return client


def address(name, *args):
    return reverse(f"instruments:{name}", args=args)


def send(client, grease, *texts, version=None):
    row = Instrument.objects.get(number="PEN-02")
    given = {f"reading_{place}": text for place, text in enumerate(texts, 1)}
    return client.post(
        address("reference", "PEN-02"),
        {"material": grease.pk, "version": version or row.version, **given},
    )


def test_a_good_reading_goes_to_its_chart(works, client):
    answer = send(as_(client, "tech-b"), works, "287", "288", "287")

    assert answer.url == address("chart", "PEN-02")
    page = client.get(answer.url).content.decode()
    assert "287.3, assigned 286, bias +1.3 within ±7.6" in page
    assert "action 293.6" in page
    assert "warning 280.9" in page
    assert page.count('<circle class="pt"') == 1


def test_one_that_is_off_goes_to_the_look_back(works, client):
    send(as_(client, "tech-b"), works, "287", "288", "287")
    clock.set_to(plant.at("2026-04-02 09:20"))

    answer = send(client, works, "296", "297", "295")

    assert answer.url == address("look-back", "PEN-02")
    page = client.get(answer.url).content.decode()
    assert "bias +10.0 beyond ±7.6" in page
    assert "No result used it" in page
    assert "never taken off an old number" in page
    chart = client.get(address("chart", "PEN-02")).content.decode()
    assert '<circle class="pt b"' in chart


def test_a_refused_set_keeps_what_was_typed(works, client):
    answer = send(as_(client, "tech-b"), works, "287", "28x", "287")

    page = answer.content.decode()
    assert answer.status_code == 422
    assert 'value="28x"' in page
    assert page.count('value="287"') == 2
    assert not ReferenceReading.objects.exists()


def test_a_page_opened_before_a_change_is_shown_again(works, client):
    answer = send(as_(client, "tech-b"), works, "296", "297", "295", version=99)

    assert answer.status_code == 409
    assert 'value="296"' in answer.content.decode()


def test_a_material_that_may_not_be_read_here_is_not_found(works, client):
    as_(client, "tech-b")

    for key in ("0", "x"):
        answer = client.get(address("reference", "PEN-02"), {"material": key})
        assert answer.status_code == 404
    page = client.get(address("reference", "W-1")).content.decode()
    assert "No reference material for a grease worker is in date" in page


def test_a_material_is_added_and_a_refused_one_keeps_what_was_typed(works, client):
    as_(client, "qm-1")
    given = {
        "name": "control grease",
        "lot": "CG-1",
        "kind": "penetrometer",
        "characteristic": characteristic().pk,
        "assigned": "about 270",
        "basis": "own readings",
        "count": "3",
        "every_days": "1",
        "expires_on": "2026-12-31",
    }
    answer = client.post(address("material-new"), given)
    assert answer.status_code == 422
    assert 'value="about 270"' in answer.content.decode()

    answer = client.post(address("material-new"), given | {"assigned": "270"})

    assert answer.status_code == 303
    assert ReferenceMaterial.objects.count() == 2
    page = client.get(address("materials")).content.decode()
    assert "control grease" in page
    assert "from each instrument’s own readings" in page


def test_readings_and_look_back_are_taken_along(works, client):
    send(as_(client, "tech-b"), works, "296", "297", "295")

    rows = client.get(address("chart", "PEN-02"), {"as": "csv"})
    told = b"".join(rows.streaming_content).decode()
    assert "296 297 295" in told
    back = client.get(address("look-back", "PEN-02"), {"as": "csv"})
    assert "Fill lot" in b"".join(back.streaming_content).decode()


def test_the_first_page_tells_what_is_missing_and_due_soon(works, client):
    page = as_(client, "mgr-1").get("/").content.decode()
    assert "reference grease, lot RG-7 is to be read, never read on it" in page
    assert "check by 2026-03-31" in page

    read_reference(
        instrument=Instrument.objects.get(number="PEN-02"),
        material=works,
        readings=["286", "286", "286"],
        by=person("tech-b"),
    )
    page = client.get("/").content.decode()
    assert page.count("is to be read, never read on it") == 1


def test_the_check_proposes_the_next_day_by_the_kind(works, client):
    page = as_(client, "tech-b").get(address("check", "PEN-02")).content.decode()

    assert 'value="2026-06-23"' in page  # 91 days on
    assert "Common practice, no source" in page
