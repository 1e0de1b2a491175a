"""Sets of cone readings filled, put aside and corrected as the page of a sample does it."""

from django.urls import reverse

from lims.bench.models import Test
from tests.lims.screens.bench.walking import address, conditions, cones, told

WORKED = "worked-penetration"


def fill(client, sample, *texts):
    conditions(
        client,
        sample,
        WORKED,
        penetrometer="PEN-01",
        temperature="25.1",
        strokes_end="08:59:30",
    )
    return told(cones(client, sample, WORKED, *texts))


def page(client, sample):
    return told(client.get(reverse("bench:sample", args=[sample.number])))


def put_aside(client, sample, place, reason="void seen at cup wall", code=WORKED):
    return client.post(
        address("aside", sample, code), {"place": place, "reason": reason}
    )


def correct(client, sample, place, code=WORKED, **fields):
    return client.post(
        reverse("bench:correct", args=[sample.number, code, place]), fields
    )


def the_test(sample, code=WORKED):
    return Test.objects.get(sample=sample, characteristic__code=code)
