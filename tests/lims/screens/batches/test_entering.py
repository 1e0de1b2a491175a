"""The forms of batches: what is registered, what is refused, and what is kept after a refusal."""

import pytest
from django.test import Client
from django.urls import reverse

from lims.batches.models import Batch, FillLot, RetainException, Sample
from lims.people.queries import person
from lims.record.models import Entry
from tests.factories import plant

BATCH = {
    "number": "Q1-26-0001",
    "product": "LX2",
    "kettle": "K1",
    "mass_kg": "6000",
    "charged_on": "2026-03-04",
}
LOT = {
    "pack": "drum",
    "pack_kg": "180",
    "pack_count": "30",
    "filled_at": "2026-03-04 07:30",
}


@pytest.fixture
def opened(db):
    plant.open_plant()


@pytest.fixture
def lot(opened):
    """Filled on 4 March at 14:10, sampled and tested; the clock stands on 9 March."""
    plant.play(plant.story(retain="", tests={}))
    return plant.lot()


def as_person(account):
    client = Client()
    client.force_login(person(account))
    return client


def test_the_next_number_is_proposed(opened):
    page = as_person("chem-1").get(reverse("batches:new"))

    assert 'value="Q1-26-0001"' in page.content.decode()


def test_a_batch_is_registered_and_shown(opened):
    answered = as_person("chem-1").post(reverse("batches:new"), BATCH)

    batch = Batch.objects.get(number="Q1-26-0001")
    assert answered.status_code == 303
    assert answered["Location"] == reverse("batches:batch", args=[batch.number])


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("mass_kg", "6 tons", "tons"),
        ("number", "Q1-26-O417", "is not a batch number of this site"),
        ("charged_on", "2026-04-01", "lies in the future"),
    ],
)
def test_a_refused_batch_keeps_what_was_typed(opened, field, typed, sentence):
    answered = as_person("chem-1").post(reverse("batches:new"), BATCH | {field: typed})

    page = answered.content.decode()
    assert answered.status_code == 422
    assert sentence in page
    assert f'value="{typed}"' in page
    assert not Batch.objects.exists()


def test_a_fill_lot_is_registered_with_the_next_letter(opened):
    client = as_person("chem-1")
    client.post(reverse("batches:new"), BATCH)

    answered = client.post(reverse("batches:new-lot", args=["Q1-26-0001"]), LOT)

    assert answered.status_code == 303
    assert FillLot.objects.get().number == "Q1-26-0001-A"


def test_a_filling_in_the_future_is_refused(opened):
    client = as_person("chem-1")
    client.post(reverse("batches:new"), BATCH)

    answered = client.post(
        reverse("batches:new-lot", args=["Q1-26-0001"]),
        LOT | {"filled_at": "2026-03-05 07:30"},
    )

    assert answered.status_code == 422
    assert "lies in the future" in answered.content.decode()
    assert not FillLot.objects.exists()


def send_sample(lot, **given):
    sent = {"place": "pack", "taken_at": "2026-03-05 07:30", "taken_by": "Tech-B"}
    return as_person("tech-b").post(
        f"{reverse('batches:sample-new')}?lot={lot.number}", sent | given, follow=True
    )


def test_a_sample_that_counts_says_so_at_once(lot):
    page = send_sample(lot).content.decode()

    assert "Sample Q1-26-0417-A-02 is received and counts for release." in page


def test_a_sample_taken_too_early_is_kept_and_told_why_it_does_not_count(lot):
    page = send_sample(lot, taken_at="2026-03-04 20:10").content.decode()

    assert "does not count for release. Taken 6 h 0 min after filling" in page
    assert Sample.objects.get(number="Q1-26-0417-A-02").counts is False


def test_whether_a_sample_will_count_is_told_before_it_is_received(lot):
    client, before = as_person("tech-b"), Entry.objects.count()
    asked = {"lot": lot.number, "place": "pack"}

    early = client.get(
        reverse("batches:sample-new"),
        asked | {"taken_at": "2026-03-04 20:10"},
        headers={"HX-Request": "true"},
    )
    late = client.get(
        reverse("batches:sample-new"),
        asked | {"taken_at": "2026-03-05 07:30"},
        headers={"HX-Request": "true"},
    )

    assert "It will not count for release." in early.content.decode()
    assert "It will count for release." in late.content.decode()
    assert Entry.objects.count() == before


def test_a_kettle_sample_stands_on_its_batch(lot):
    address = f"{reverse('batches:sample-new')}?batch=Q1-26-0417"

    answered = as_person("tech-b").post(
        address, {"place": "kettle", "taken_at": "2026-03-04 10:00"}, follow=True
    )

    assert "It stands first on the bench" in answered.content.decode()
    assert Sample.objects.get(number="Q1-26-0417-K-01").fill_lot is None


def test_a_fill_lot_offers_no_kettle_and_a_batch_no_pack(lot):
    client, address = as_person("tech-b"), reverse("batches:sample-new")

    of_lot = client.get(f"{address}?lot={lot.number}").content.decode()
    of_batch = client.get(f"{address}?batch=Q1-26-0417").content.decode()

    assert 'value="kettle"' not in of_lot
    assert 'value="pack"' not in of_batch


def test_a_sample_of_nothing_is_not_found(opened):
    assert as_person("tech-b").get(reverse("batches:sample-new")).status_code == 404


def test_a_retain_s_place_is_noted_once(lot):
    client = as_person("tech-a")
    address = reverse("batches:retain", args=["Q1-26-0417-A-01"])

    first = client.post(address, {"place": "r-12-04"})
    second = client.post(address, {"place": "R-12-04"})

    assert first.status_code == 303
    assert second.status_code == 422
    assert "Choose another place." in second.content.decode()
    assert 'value="R-12-04"' in second.content.decode()


def test_an_exception_from_the_retain_needs_a_reason(lot):
    client = as_person("qm-1")
    address = reverse("batches:without-retain", args=[lot.number])

    refused = client.post(address, {"reason": " "})
    allowed = client.post(address, {"reason": "the pail broke"})

    assert refused.status_code == 422
    assert allowed.status_code == 303
    assert RetainException.objects.get().reason == "the pail broke"


@pytest.mark.parametrize(
    ("name", "number", "account"),
    [
        ("batches:new", None, "aud-1"),
        ("batches:new", None, "desk-1"),
        ("batches:retain", "Q1-26-0417-A-01", "chem-1"),
        ("batches:without-retain", "Q1-26-0417-A", "tech-a"),
        ("batches:sample-new", None, "aud-1"),
    ],
)
def test_a_form_is_only_for_whoever_may_send_it(lot, name, number, account):
    address = reverse(name, args=[number] if number else [])

    answered = as_person(account).post(address, {})

    assert answered.status_code == 403
