"""The shipped method book, to be asked in tests."""

from decimal import Decimal

from lims.methods import reference
from lims.methods.figures import What
from lims.methods.models import Characteristic
from specs.judging.precision import read_expression

Kind = Characteristic.Kind
SHIPPED = reference.shipped()
ROWS = {row["code"]: row for row in SHIPPED["characteristics"]}
EDITIONS = {
    f"{method['designation']}-{edition['edition']}": edition
    for method in SHIPPED["methods"]
    for edition in method["editions"]
}
PRECISIONS = (What.DETERMINABILITY, What.REPEATABILITY, What.REPRODUCIBILITY)


def method(designation):
    [found] = [it for it in SHIPPED["methods"] if it["designation"] == designation]
    return found["editions"][0]


def said(edition, code, what):
    return [
        it for it in edition["figures"] if (it["characteristic"], it["what"]) == (code, what)
    ]  # fmt: skip


def value(designation, code, what):
    [found] = said(method(designation), code, what)
    return found["value"]


def at(designation, code, what, level):
    return read_expression(value(designation, code, what)).at(Decimal(level))


def kind_of(code):
    return ROWS[code].get("kind", Kind.NUMBER)
