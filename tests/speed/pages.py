"""What is measured: the reading with its verdict, the pages that a shift has open, one certificate on paper."""

from collections.abc import Iterator
from itertools import cycle

from django.test import Client
from django.urls import NoReverseMatch, reverse

from lims.batches.models import FillLot, Sample
from lims.bench.models import Reading
from lims.certificates.data import CertificateData
from lims.certificates.models import CertificateRevision
from lims.documents.certificate import print_certificate
from lims.people.queries import person
from tests.speed.measuring import Act

READING, PAGE, PAPER = 50.0, 150.0, 1500.0  # aims in milliseconds


class UnexpectedAnswerError(Exception):
    """A page that was to be measured did not answer as it should."""


def client_of(account: str) -> Client:
    client = Client()
    client.force_login(person(account))
    return client


def opening(account: str, *addresses: str) -> Act:
    """Opens the addresses in turn, as a person would."""
    client, turn = client_of(account), cycle(addresses)

    def act() -> None:
        address = next(turn)
        answer = client.get(address)
        if answer.status_code != 200:
            raise UnexpectedAnswerError(f"{address} answers {answer.status_code}.")

    return act


def third_readings() -> Act:
    """Saves the third cone of another lot each time; as many times as there are such lots."""
    client, turn = client_of("tech-a"), iter(_before_the_third())

    def act() -> None:
        number = next(turn)
        address = reverse("bench:reading", args=[number, "worked-penetration"])
        sent = {"box": "cone_3", "cone_3-text": "280"}
        answer = client.post(address, sent, headers={"HX-Request": "true"})
        if answer.status_code != 200 or b"280" not in answer.content:
            raise UnexpectedAnswerError(f"{address} answers {answer.status_code}.")

    return act


def _before_the_third() -> list[str]:
    read = Reading.objects.filter(
        determination__test__characteristic__code="worked-penetration"
    )
    of = "determination__test__sample"
    two = read.filter(slot="cone_2").values(of)
    three = read.filter(slot="cone_3").values(of)
    return list(
        Sample.objects.filter(pk__in=two)
        .exclude(pk__in=three)
        .order_by("pk")
        .values_list("number", flat=True)
    )


def how_many_third_readings() -> int:
    return len(_before_the_third())


def pages() -> Iterator[tuple[str, Act]]:
    """Each page by its name; a place without pages yet is left out."""
    for name, make in _PAGES.items():
        try:
            yield name, make()
        except NoReverseMatch:
            continue


def _bench() -> Act:
    return opening("tech-a", reverse("bench:list"))


def _sample() -> Act:
    numbers = _before_the_third()[-3:]
    return opening("tech-a", *(reverse("bench:sample", args=[n]) for n in numbers))


def _lot_page(state: FillLot.State) -> Act:
    lots = FillLot.objects.filter(state=state).order_by("-filled_at", "-pk")[:3]
    return opening("mgr-1", *(reverse("decisions:lot", args=[x.number]) for x in lots))


def _check() -> Act:
    codes = CertificateRevision.objects.order_by("-pk").values_list("code", flat=True)
    client = Client()  # whoever checks has no account
    turn = cycle([reverse("front:check-code", args=[code]) for code in codes[:3]])

    def act() -> None:
        address = next(turn)
        if client.get(address).status_code != 200:
            raise UnexpectedAnswerError(f"{address} does not answer.")

    return act


_PAGES = {
    "the bench list": _bench,
    "a sample": _sample,
    "a lot awaiting its decision": lambda: _lot_page(FillLot.State.AWAITING_DECISION),
    "a lot released": lambda: _lot_page(FillLot.State.RELEASED),
    "the decisions list": lambda: opening("mgr-1", reverse("decisions:list")),
    "the batches list": lambda: opening("chem-1", reverse("batches:list")),
    "the check page": _check,
    "the certificates list": lambda: opening("desk-1", reverse("certificates:list")),
}


def printing() -> Act:
    """Prints a certificate from its frozen data, as issuing does."""
    issued = CertificateRevision.objects.order_by("-pk")[0]

    def act() -> None:
        print_certificate(CertificateData.from_json(issued.data))

    return act
