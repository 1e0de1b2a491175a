"""Short ways for tests to send the curve of a run as its forms do, without a script."""

import re

from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from lims.bench.models import Determination
from tests.factories import curves

CODE = curves.INDUCTION
CONTENT = curves.run_of(23)


def address(name, test, *more):
    return reverse(f"bench:{name}", args=[test.sample.number, CODE, *more])


def sends(client, test, content=CONTENT, name="run-1.csv", **fields):
    """The file as its form sends it; None sends the form without a file."""
    given = {"set": "1", **fields}
    if content is not None:
        given["trace"] = SimpleUploadedFile(name, content)
    return client.post(address("curve", test), given)


def types_times(client, test, **changes):
    """Every box of the set at once, as the button of the set sends them."""
    texts = {"calorimeter": "DSC-1", "temperature": "180", **curves.TIMES, **changes}
    fields = {f"{key}-text": text for key, text in texts.items()}
    return client.post(address("set", test), {"set": "1", **fields})


def page_of(client, test):
    return client.get(
        reverse("bench:sample", args=[test.sample.number])
    ).content.decode()


def judges(client, test, answer="accepted", *, place=1, **fields):
    """Press one of the two buttons beneath the curve that the page shows."""
    form = page_of(client, test).split(address("curve-judge", test))
    seen = next(
        re.search(r'name="seen" value="(\w*)"', it)[1]
        for it in form[1:]
        if f'name="place" value="{place}"' in it
    )
    given = {"place": place, "seen": seen, "answer": answer, **fields}
    return client.post(address("curve-judge", test), given)


def told(answer):
    return " ".join(answer.content.decode().split())


def sets(test):
    return list(Determination.objects.filter(test=test).order_by("place"))
