"""Short ways for tests to put determinations before the rules of an edition, without a database."""

from lims.bench.models import Determination
from lims.bench.repeating import settled_by
from lims.methods.asked import Asked
from lims.methods.figures import Figure, What
from lims.methods.models import Characteristic, Method, MethodEdition

EDITION = MethodEdition(method=Method(designation="ASTM D217"), edition="21a")
NUMBER = Characteristic(
    code="worked-penetration", procedure="cone penetration", kind="number", step="1"
)
RATING = Characteristic(code="copper", procedure="copper strip", kind="rating")
LADDER = Characteristic(code="weld", procedure="load of a ladder", kind="ladder")
FINDING = Characteristic(code="rust", procedure="appearance", kind="pass or fail")


def figure(what, value, level_from="", level_to=""):
    return Figure(
        "worked-penetration", what, value, "a table", "published", level_from, level_to
    )


def asked(*figures, of=NUMBER):
    """What an edition asks, as pairs of what and value."""
    return Asked(EDITION, of, tuple(figure(*each) for each in figures))


ISO_4259 = [(What.SCHOOL, "ISO 4259"), (What.REPEATABILITY, "7")]
ISO_5725_6 = [
    (What.SCHOOL, "ISO 5725-6"),
    (What.ROUTE, "one more, then a fourth"),
    (What.REPEATABILITY, "7"),
]


def sets(*values, first=1):
    """Accepted determinations, numbered by their place."""
    return [
        Determination(
            pk=place,
            place=place,
            state="accepted",
            value=value,
            reported=value,
            says=f"mean of {value}",
        )
        for place, value in enumerate(values, first)
    ]


def ruled(figures, *values, of=NUMBER, **more):
    return settled_by(asked(*figures, of=of), sets(*values), **more)
