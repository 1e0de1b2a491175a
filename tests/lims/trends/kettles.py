"""More samples from a kettle."""

import datetime as dt

from lims.bench.actions.samples import receive_sample
from lims.people.queries import person, site_zone
from lims.record import clock
from tests.factories import fills


def another(batch, cones, code="worked-penetration"):
    """A further sample from the kettle, tested now."""
    sample = receive_sample(
        batch=batch,
        place="kettle",
        taken_at=clock.now(),
        taken_by="",
        by=person("tech-a"),
    )
    test = sample.tests.get(characteristic__code=code)
    ended = clock.now().astimezone(site_zone()) - dt.timedelta(seconds=90)
    fills.fill(cones, test=test, strokes_end=f"{ended:%H:%M:%S}")
    return sample
