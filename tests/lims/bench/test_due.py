"""When a test is wanted, counted from the receipt of its sample."""

import pytest

from lims.bench.due import due_at
from lims.methods import queries as methods
from tests.factories import plant

RECEIVED = plant.at("2026-03-02 08:00")


@pytest.mark.parametrize(
    ("code", "due"),
    [
        ("prolonged-penetration-100000", "2026-03-02 12:00"),
        ("rested-penetration-24h", "2026-03-03 15:46:40"),  # 100 000 strokes later
        ("oxidation-drop", "2026-03-02 12:00"),
        ("worked-penetration", "2026-03-03 14:00"),
        ("oxidation-induction-180", "2026-03-05 02:00"),
    ],
)
@pytest.mark.django_db
def test_each_test_is_wanted_when_it_can_be_begun_or_read(code, due):
    plant.open_plant()
    asked = methods.characteristic(code)
    found = due_at(asked, received_at=RECEIVED, is_in_process=False)
    assert found == plant.at(due)


@pytest.mark.django_db
def test_a_waiting_kettle_is_wanted_within_a_quarter_of_an_hour():
    plant.open_plant()
    asked = methods.characteristic("worked-penetration")
    found = due_at(asked, received_at=RECEIVED, is_in_process=True)
    assert found == plant.at("2026-03-02 08:15")
