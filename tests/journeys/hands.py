"""People at the pages: what is typed into boxes, what is signed, what is issued."""

import io
import json
import re

import pikepdf
from django.urls import reverse

from lims.certificates.models import CertificateRevision
from lims.decisions.review import review_of
from lims.products.models import Customer
from lims.record import clock
from tests.factories import plant
from tests.factories.people import PASSWORD

HTMX = {"HX-Request": "true"}


class Hand:
    """One person, signed in, before the page of one sample."""

    def __init__(self, client, account, sample):
        self.client, self.sample = client, sample
        answer = client.post(
            reverse("front:sign-in"), {"account": account, "password": PASSWORD}
        )
        assert answer.status_code in {302, 303}, answer.content.decode()

    def types(self, code, at="", name="reading", **texts):
        """Type each text into its box of the set that the page shows, and leave it, as Enter does."""
        if at:
            clock.set_to(plant.at(at))
        place = self.open_set(code)
        for key, text in texts.items():
            answer = self.client.post(
                self._address(name, code),
                {"box": key, f"{key}-text": text, "set": place},
                headers=HTMX,
            )
            assert answer.status_code == 200, answer.content.decode()
        return answer.content.decode()

    def notes(self, code, at="", **texts):
        return self.types(code, at, name="condition", **texts)

    def puts_aside(self, code, place, reason):
        return self.client.post(
            self._address("aside", code), {"place": place, "reason": reason}
        )

    def reads_page(self):
        return self.client.get(
            reverse("bench:sample", args=[self.sample])
        ).content.decode()

    def open_set(self, code):
        """The set whose boxes the page shows."""
        form = self.reads_page().split(self._address("set", code))[1]
        return re.search(r'name="set" value="(\d+)"', form)[1]

    def signs_out(self):
        self.client.post(reverse("front:sign-out"))

    def _address(self, name, code):
        return reverse(f"bench:{name}", args=[self.sample, code])


def sign_release(client, lot):
    return client.post(
        reverse("decisions:sign", args=[lot.number]),
        {
            "disposition": "release",
            "password": PASSWORD,
            "seen": review_of(lot).seen,
            "remark": "",
        },
    )


def issue(client, lot, *, customer="TT", packs="4"):
    """Allot some packs and issue their certificate; the data that is embedded in its file."""
    answer = client.post(
        reverse("certificates:allot", args=[lot.number]),
        {
            "customer": Customer.objects.get(code=customer).pk,
            "order": f"{customer}-7781",
            "pack_count": packs,
        },
    )
    allotment = re.search(r"allotments/(\d+)/", answer["Location"])[1]
    client.post(
        reverse("certificates:issue-now", args=[allotment]),
        {"delivery_note": "DN-26-0912", "language": "en"},
    )
    issued = CertificateRevision.objects.get(certificate__fill_lot=lot)
    return read_paper(client, issued)


def read_paper(client, issued):
    answer = client.get(
        reverse("certificates:pdf", args=[issued.certificate.number, 0])
    )
    content = b"".join(answer.streaming_content) if answer.streaming else answer.content
    with pikepdf.open(io.BytesIO(content)) as pdf:
        return pdf.attachments["certificate.json"].get_file().read_bytes().decode()


def rows_of(data):
    return {row["characteristic"]: row for row in json.loads(data)["rows"]}
