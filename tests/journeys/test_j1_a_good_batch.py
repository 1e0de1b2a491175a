"""Journey 1, a good batch: from the scanned sample to the certificate that a customer checks, through the pages alone."""

import io
import json
import re

import pikepdf
import pytest
from django.urls import reverse

from lims.batches.models import FillLot
from lims.bench.reporting import active_value
from lims.certificates.models import CertificateRevision
from lims.decisions.review import review_of
from lims.products.models import Customer
from lims.record import clock, verify
from tests.factories import plant
from tests.factories.people import PASSWORD

LOT, SAMPLE = "Q1-26-0417-A", "Q1-26-0417-A-01"
PROLONGED = "prolonged-penetration-100000"
HTMX = {"HX-Request": "true"}


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def works(db):
    """The plant on Thursday 5 March 2026, 07:30: lot A filled, oxidation last tested on batch 0310, eleven batches between."""
    plant.open_plant(first_certificate=231)
    between = [
        {**plant.story(f"{320 + n:04d}"), "lots": [], "charged": "2026-02-02 06:00"}
        for n in range(11)
    ]
    filled = plant.story()
    del filled["lots"][0]["sample"]
    plant.play(plant.periodic_pass(), *between, filled, until="2026-03-05 07:30")


class Hand:
    """One person at the pages."""

    def __init__(self, client, account):
        self.client = client
        answer = client.post(
            reverse("front:sign-in"), {"account": account, "password": PASSWORD}
        )
        assert answer.status_code in {302, 303}, answer.content.decode()

    def types(self, code, at="", name="reading", **texts):
        """Type each text into its box and leave it, as Enter does."""
        for key, text in texts.items():
            if at:
                clock.set_to(plant.at(at))
            answer = self.client.post(
                reverse(f"bench:{name}", args=[SAMPLE, code]),
                {"box": key, f"{key}-text": text},
                headers=HTMX,
            )
            assert answer.status_code == 200, answer.content.decode()
        return answer.content.decode()

    def notes(self, code, at="", **texts):
        return self.types(code, at, name="condition", **texts)

    def signs_out(self):
        self.client.post(reverse("front:sign-out"))


def reported(code):
    return active_value(plant.the_test(code))


def receive_and_keep(hand):
    hand.client.post(
        reverse("batches:sample-new") + f"?lot={LOT}",
        {
            "place": "pack",
            "detail": "drum 11 of 30",
            "taken_at": "2026-03-05 07:30",
            "taken_by": "",
        },
    )
    hand.client.post(reverse("batches:retain", args=[SAMPLE]), {"place": "R-12-04"})


def test_j1(works, client):
    tech = Hand(client, "tech-a")
    receive_and_keep(tech)
    read_unworked(tech)
    read_worked(tech)
    start_the_strokes(tech)
    read_too_early(tech)
    read_prolonged(tech)
    read_the_rest(tech)
    tech.signs_out()
    release_as_manager(client)
    issued = issue_at_the_desk(client)
    check_the_public_page(client, issued)
    assert verify.verify().holds


def read_unworked(tech):
    """Step 2: three cups at 25.1 °C."""
    code = "unworked-penetration"
    tech.notes(code, "2026-03-05 07:50", penetrometer="PEN-01", temperature="25.1")
    tech.types(code, cone_1="272", cone_2="274", cone_3="275")
    assert reported(code).reported == "274"
    assert reported(code).value.startswith("273.666666")


def read_worked(tech):
    """Step 3: strokes end 08:52:10, cone readings at 08:53:05, 08:54:20 and 08:55:40."""
    code = "worked-penetration"
    tech.notes(
        code,
        "2026-03-05 08:52:40",
        penetrometer="PEN-01",
        temperature="25.1",
        strokes_end="08:52:10",
    )
    tech.types(code, "2026-03-05 08:53:05", cone_1="279")
    tech.types(code, "2026-03-05 08:54:20", cone_2="281")
    told = tech.types(code, "2026-03-05 08:55:40", cone_3="280")
    assert "met" in told
    assert "280" in told
    assert reported(code).reported == "280"
    assert "spread 2" in reported(code).says


def start_the_strokes(tech):
    """Step 4: 100 000 strokes from 09:00 at 60 a minute end on Friday at 12:46:40."""
    tech.notes(PROLONGED, "2026-03-05 09:00", worker="W-2", started_at="09:00:00")
    page = tech.client.get(reverse("bench:sample", args=[SAMPLE])).content.decode()
    assert "12:46:40" in page


def read_too_early(tech):
    """What must not count if tried: before Friday 08:49 the strokes cannot have ended."""
    tech.notes(
        PROLONGED,
        "2026-03-06 08:40",
        penetrometer="PEN-01",
        temperature="25.0",
        strokes_end="08:39:00",
    )
    told = tech.types(PROLONGED, cone_1="299", cone_2="300", cone_3="299")
    assert "08:49" in told
    assert reported(PROLONGED) is None
    early = plant.the_test(PROLONGED).determinations.get()
    assert early.readings.count() == 3
    tech.client.post(
        reverse("bench:aside", args=[SAMPLE, PROLONGED]),
        {"place": early.place, "reason": "read before the strokes had ended"},
        headers=HTMX,
    )


def read_prolonged(tech):
    """Friday 14:30, after 60 more strokes."""
    tech.notes(
        PROLONGED,
        "2026-03-06 14:30",
        worker="W-2",
        started_at="2026-03-05 09:00:00",
        penetrometer="PEN-01",
        temperature="25.0",
        strokes_end="14:29:30",
    )
    tech.types(PROLONGED, "2026-03-06 14:31", cone_1="301", cone_2="303", cone_3="302")
    assert reported(PROLONGED).reported == "302"
    assert reported("penetration-change-100000").value == "22"


def read_the_rest(tech):
    """Steps 5 and 6: dropping point with the block at 232, oil separation, copper, appearance."""
    dropping = "dropping-point-block"
    tech.notes(dropping, "2026-03-06 15:00", apparatus="DP-01")
    tech.types(
        dropping,
        observed_1="186",
        block_1="232",
        observed_2="188",
        block_2="232",
    )
    assert reported(dropping).reported == "202"
    tech.types("oil-separation", sample="10.02", oil="0.28")
    assert reported("oil-separation").reported == "2.8"
    tech.types("copper-strip", strip_1="1a")
    tech.types("appearance", words="amber, smooth", finding="met")
    assert plant.lot().state == FillLot.State.AWAITING_DECISION


def release_as_manager(client):
    """Step 7: the review names the periodic batch; the signature releases the lot."""
    clock.set_to(plant.at("2026-03-06 15:48"))
    manager = Hand(client, "mgr-1")
    page = client.get(reverse("decisions:lot", args=[LOT])).content.decode()
    assert "Q1-26-0310" in page
    answer = client.post(
        reverse("decisions:sign", args=[LOT]),
        {
            "disposition": "release",
            "password": PASSWORD,
            "seen": review_of(plant.lot()).seen,
            "remark": "",
        },
    )
    assert answer.status_code in {302, 303}, answer.content.decode()
    assert plant.lot().state == FillLot.State.RELEASED
    manager.signs_out()


def issue_at_the_desk(client):
    """Four of thirty drums for order TT-7781; the paper says what the record says."""
    clock.set_to(plant.at("2026-03-06 16:05"))
    desk = Hand(client, "desk-1")
    answer = client.post(
        reverse("certificates:allot", args=[LOT]),
        {
            "customer": Customer.objects.get(code="TT").pk,
            "order": "TT-7781",
            "pack_count": "4",
        },
    )
    allotment = re.search(r"allotments/(\d+)/", answer["Location"])[1]
    answer = client.post(
        reverse("certificates:issue-now", args=[allotment]),
        {"delivery_note": "DN-26-0912", "language": "en"},
    )
    assert answer.status_code == 303, answer.content.decode()
    issued = CertificateRevision.objects.get(certificate__fill_lot=plant.lot())
    assert issued.certificate.number == "Q1-C-2026-00231"
    assert issued.file
    check_the_paper(desk, issued)
    desk.signs_out()
    return issued


def check_the_paper(desk, issued):
    answer = desk.client.get(
        reverse("certificates:pdf", args=[issued.certificate.number, 0])
    )
    content = b"".join(answer.streaming_content) if answer.streaming else answer.content
    with pikepdf.open(io.BytesIO(content)) as pdf:
        data = json.loads(pdf.attachments["certificate.json"].get_file().read_bytes())
    rows = {row["characteristic"]: row for row in data["rows"]}
    assert rows["Worked penetration"]["result"] == "280"
    oxidation = next(row for row in data["rows"] if row["evidence"] == "periodic")
    assert oxidation["result"] == "38"
    assert oxidation["tested_on"]["batch"] == "Q1-26-0310"
    assert data["quantity"] == "4 drums, 720 kg net"


def check_the_public_page(client, issued):
    page = client.get(reverse("front:check-code", args=[issued.code])).content.decode()

    assert "Genuine and current" in page or "genuine and current" in page
    assert issued.sha256[:8] in page.replace(" ", "").replace("</span><span>", "")
    assert "280" in page
    assert "Tallow" not in page
    assert "TT-7781" not in page
