"""Characteristics and editions for tests: the reference data as shipped."""

from lims.methods import actions, queries, reference


def with_reference():
    """Load the shipped reference data; again is no harm."""
    actions.load_reference(data=reference.shipped(), by=None)


def characteristic(code="worked-penetration"):
    """A characteristic of the reference data."""
    with_reference()
    return queries.characteristic(code)


def edition(designation="ASTM D217", name="21a"):
    """An edition of the reference data."""
    with_reference()
    return queries.edition(designation, name)
