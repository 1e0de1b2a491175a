"""The invented plant for tests: its people, goods and, as asked, lots brought to a state by the same actions as the demo's."""

import datetime as dt
from collections import defaultdict
from zoneinfo import ZoneInfo

from lims.batches.models import FillLot, Sample
from lims.bench.models import Test
from lims.decisions import actions as decisions
from lims.decisions.review import review_of
from lims.management import plant
from lims.management.plant.goods import make_goods
from lims.management.plant.house import make_house
from lims.people.queries import person
from lims.record import clock
from tests.factories.people import PASSWORD
from tests.factories.remembering import built

ZONE = ZoneInfo("Europe/Berlin")
PASSWORDS = defaultdict(lambda: PASSWORD)
READY = {
    "appearance": "met: amber, smooth",
    "unworked": "272 274 275",
    "worked": "279 281 280",
    "prolonged": "W-2: 301 303 302",
    "dropping": "186/232 188/232",
    "oil": "10.02 0.28",
    "copper": "1a",
}


def at(text):
    """A time in the laboratory's zone, such as 2026-03-05 07:30."""
    return dt.datetime.fromisoformat(text).replace(tzinfo=ZONE)


def open_plant(*, first_certificate=1):
    """People, site, instruments, products, customers and specifications; no batch yet. The clock stands on 4 March 2026, 08:00."""
    told = plant.told()
    told["house"]["site"]["first_certificate"] = first_certificate
    built(["open", first_certificate], lambda: _open(told))
    clock.set_to(at("2026-03-04 08:00"))


def _open(told):
    clock.set_to(at("2025-12-01 08:00"))
    make_house(told["house"], PASSWORDS)
    make_goods(told["goods"], PASSWORDS)


def story(number="0417", product="LX2", retain="R-12-04", tests=None, **more):
    """One LX2 batch as in the first journey: filled Wed 4 March 14:10, sampled Thu 5 March 07:30."""
    lot = {
        "letter": "A",
        "filled": "2026-03-04 14:10",
        "packs": ["drum", "180", 30],
        "sample": ["drum 11 of 30", "2026-03-05 07:30"],
        "retain": retain,
        "tests": READY if tests is None else tests,
    } | more
    return {
        "batch": f"Q1-26-{number}",
        "product": product,
        "kettle": "K1",
        "mass_kg": "6000",
        "charged": "2026-03-04 06:05",
        "lots": [lot],
    }


def periodic_pass(number="0310"):
    """An earlier batch whose oxidation was tested from 12 to 16 January and met: 38 kPa."""
    told = plant.told()["lots"][0]
    assert told["batch"] == f"Q1-26-{number}"
    del told["lots"][0]["papers"]
    return told


def play(*stories, until="2026-03-09 09:00"):
    """Play the stories and leave the clock standing at `until`."""

    def build():
        plant.play(list(stories), PASSWORDS, until=at(until))

    if _print_papers(stories):
        build()  # the files lie outside the database
    else:
        built([*stories, until], build)
    clock.set_to(at(until))


def _print_papers(stories):
    return any(lot.get("papers") for told in stories for lot in told.get("lots", []))


def lot(number="0417", letter="A"):
    return FillLot.objects.select_related("batch__product").get(
        number=f"Q1-26-{number}-{letter}"
    )


def sample(number="0417", letter="A"):
    return Sample.objects.get(number=f"Q1-26-{number}-{letter}-01")


def the_test(code, number="0417", letter="A"):
    return Test.objects.select_related("characteristic", "sample__fill_lot").get(
        sample=sample(number, letter), characteristic__code=code
    )


def release(of, by="mgr-1", **more):
    return decisions.release(
        fill_lot=of,
        seen=review_of(of).seen,
        password=PASSWORD,
        by=person(by),
        **more,
    )


def hold(of, by="mgr-1", remark="seal of three drums found open", **more):
    given = {
        "fill_lot": of,
        "seen": review_of(of).seen,
        "password": PASSWORD,
        "remark": remark,
        "by": person(by),
    }
    return decisions.hold(**given | more)
