"""Characteristics and editions for tests: the reference data as shipped."""

from lims.methods import actions, queries, reference
from lims.methods.figures import Figure
from lims.record.models import Entry
from tests.factories.people import PASSWORD
from tests.factories.remembering import built


def with_reference():
    """Put down the shipped reference data; again is no harm."""
    if not Entry.objects.filter(verb="reference_loaded").exists():
        built("reference", load)


def load():
    """Load it as `manage.py reference` does."""
    actions.load_reference(data=reference.shipped(), by=None)


def characteristic(code="worked-penetration"):
    """A characteristic of the reference data."""
    with_reference()
    return queries.characteristic(code)


def edition(designation="ASTM D217", name="21a"):
    """An edition of the reference data."""
    with_reference()
    return queries.edition(designation, name)


def figure(what="repeatability", value="7", **more):
    """A figure of the worked penetration, read in the laboratory's own copy."""
    given = {
        "characteristic": "worked-penetration",
        "source": "the laboratory's own copy",
        "standing": "published",
    }
    return Figure(what=what, value=value, **given | more)


def draft(of=None, *, by, figures=()):
    """A draft of an edition's figures with the given ones set in it."""
    revision = actions.open_figures_draft(edition=of or edition(), by=by)
    for it in figures:
        actions.set_figure(revision=revision, figure=it, by=by)
    return revision


def in_force(of=None, *, by, figures):
    """Figures drafted and approved by one person."""
    return approved(draft(of, by=by, figures=figures), by=by)


def approved(revision, *, by):
    """A draft of figures, put in force."""
    return actions.approve_figures(revision=revision, password=PASSWORD, by=by)


def bare_edition(*, by):
    """An edition of a house method that states no figure yet."""
    with_reference()
    house = actions.add_method(designation="QG-P9", title="House method", by=by)
    return bare_edition_of(house, by=by)


def bare_edition_of(method, *, by):
    """An edition of a method that states no figure yet."""
    return actions.add_edition(
        method=method,
        edition="1",
        characteristics=["worked-penetration"],
        source="own procedure",
        standing="common practice",
        by=by,
    )
