"""Two invented published specifications and their combination, and copying them into a draft."""

from lims.products import actions
from lims.products.models import PublishedSpecification

MEMORY = {"source": "the standard, a copy not at hand", "standing": "from memory"}
PRINTED = {"source": "the standard, clause 4", "standing": "published"}


def told(code, *lines, parts=()):
    """A published specification as the fixtures have it."""
    return {
        "code": code,
        "title": f"Requirements {code}",
        "issuer": "Some Body",
        "parts": list(parts),
        **PRINTED,
        "lines": list(lines),
    }


def line(characteristic, given=PRINTED, **limits):
    return {"characteristic": characteristic, **limits, **given}


FIRST = told(
    "X1",
    line("worked-penetration", lower="220", upper="340", conditions="ASTM D217"),
    line("oil-separation", MEMORY, upper="10"),
    line("copper-strip", upper="2a"),
    line("appearance", must="uniform, soft"),
)
SECOND = told(
    "X2",
    line("worked-penetration", lower="210.0", upper="330"),
    line("oil-separation", upper="6.0"),
    line("copper-strip", upper="1b"),
    line("appearance", must="black"),
    line("dropping-point-block", lower="220"),
)
BOTH = told("X1-X2", parts=["X1", "X2"])


def one(code):
    return PublishedSpecification.objects.get(code=code)


def copied_into(draft, code, *, by, comparing="rounding", rule="simple acceptance"):
    return actions.copy_published_lines(
        revision=draft, published=one(code), comparing=comparing, rule=rule, by=by
    )
