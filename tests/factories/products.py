"""Products, customers and specifications for tests, brought to their state by the actions."""

from lims.products import actions, queries
from lims.products.lines import Line
from lims.products.models import SamplingPlan
from tests.factories.methods import characteristic, edition
from tests.factories.people import PASSWORD


def sampling_plan(*, by):
    """The plan SP-02: from the pack, twelve hours after filling."""
    found = SamplingPlan.objects.filter(code="SP-02").first()
    return found or actions.add_sampling_plan(
        code="SP-02", words="From the pack", places=["pack"], by=by
    )


def product(*, by, code="LX2", **fields):
    """A lithium grease that aims at NLGI 2."""
    given = {
        "name": "lithium EP grease, NLGI 2",
        "family": "lithium soap",
        "nlgi_aim": "2",
        "pack_target": "280",
        "kettle_offset": "-4",
    } | fields
    return actions.add_product(
        code=code, sampling_plan=sampling_plan(by=by), by=by, **given
    )


def customer(*, by, code="OL", name="Osprey-Lune Drivetrain"):
    """A customer of the plant."""
    return actions.add_customer(code=code, name=name, by=by)


def worked_line(lower="265", upper="295", **fields):
    """The worked penetration, by the rounding procedure and simple acceptance."""
    given = {
        "comparing": "rounding",
        "rule": "simple acceptance",
        "edition": edition(),
    } | fields
    return Line(characteristic=characteristic(), lower=lower, upper=upper, **given)


def draft(of, *, by, customer=None, number="5", lines=None):
    """A draft of the product's or the customer's specification with the lines given."""
    revision = actions.open_draft(product=of, customer=customer, number=number, by=by)
    for line in [worked_line()] if lines is None else lines:
        actions.set_requirement(revision=revision, line=line, by=by)
    return revision


def in_force(of, *, by, approver, customer=None, number="5", lines=None):
    """A revision drafted by one person and approved by another."""
    revision = draft(of, by=by, customer=customer, number=number, lines=lines)
    actions.approve_revision(revision=revision, password=PASSWORD, by=approver)
    return queries.in_force(of, customer)


def dropping_line(lower="190", **fields):
    """The dropping point in the block, at least so much."""
    given = {
        "comparing": "rounding",
        "rule": "simple acceptance",
        "edition": edition("ASTM D2265", "20"),
    } | fields
    return Line(
        characteristic=characteristic("dropping-point-block"), lower=lower, **given
    )


def copper_line(upper="1b", **fields):
    """The copper strip, no worse than a mark."""
    given = {
        "comparing": "absolute",
        "rule": "simple acceptance",
        "edition": edition("ASTM D4048", "22"),
    } | fields
    return Line(characteristic=characteristic("copper-strip"), upper=upper, **given)


def appearance_line(must="smooth, brown, free of lumps", **fields):
    """What is to be seen, in words."""
    given = {"comparing": "absolute", "rule": "simple acceptance"} | fields
    return Line(characteristic=characteristic("appearance"), must=must, **given)


def unworked_line(**fields):
    """The unworked penetration, reported and held against nothing."""
    return Line(
        characteristic=characteristic("unworked-penetration"),
        edition=edition(),
        kind="report only",
        **fields,
    )


def oxidation_line(upper="70", **fields):
    """The periodic oxidation: every 20 batches or six months."""
    given = {
        "comparing": "rounding",
        "rule": "simple acceptance",
        "scope": "periodic",
        "every_batches": 20,
        "every_months": 6,
        "edition": edition("ASTM D942", "19"),
    } | fields
    return Line(characteristic=characteristic("oxidation-drop"), upper=upper, **given)
