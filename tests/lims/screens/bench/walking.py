"""Short ways for tests to send boxes as the page does."""

from django.urls import reverse

HTMX = {"HX-Request": "true"}


def address(name, sample, code):
    return reverse(f"bench:{name}", args=[sample.number, code])


def send(client, sample, code, key, text, *, name="reading", **more):
    """Send one box the way its change does; `more` are the fields of its line."""
    fields = {f"{key}-{field}": value for field, value in more.items()}
    return client.post(
        address(name, sample, code),
        {"box": key, f"{key}-text": text, **fields},
        headers=HTMX,
    )


def told(response):
    return response.content.decode()


def readings(client, sample, code, texts):
    """Send several readings in their order; the last answer."""
    return [send(client, sample, code, key, text) for key, text in texts.items()][-1]


def conditions(client, sample, code, **texts):
    for key, text in texts.items():
        answer = send(client, sample, code, key, text, name="condition")
        assert answer.status_code == 200, told(answer)


def cones(client, sample, code, *texts):
    named = {f"cone_{place}": text for place, text in enumerate(texts, 1)}
    return readings(client, sample, code, named)
