"""Whoever brings tables in, and what the laboratory keeps before."""

import pytest

from lims.imports import actions, kinds
from specs.tables.saying import Answers
from tests.factories import bringing, methods, products, tables


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def technologist(person):
    return person("technologist")


@pytest.fixture
def book(technologist):
    """The method book and a sampling plan."""
    methods.with_reference()
    return products.sampling_plan(by=technologist)


class Table:
    """A table of one kind as a person brings it in: looked at, answered, taken in."""

    def __init__(self, kind, *rows, **more):
        self.kind = kind
        self.sheet = tables.sheet(*rows)
        self.block = tables.block(self.sheet, **more)
        self.mapping = kinds.proposed(kind, self.block)
        self.choices = {}
        self.instead = {}

    def look(self):
        answers = Answers(self.choices, self.instead)
        return kinds.check(self.kind, self.sheet, self.block, self.mapping, answers)

    def asks(self):
        return {it.key: it for it in self.look().questions}

    def take_in(self, *, by, content=b"a table"):
        row = bringing.received(by=by, kind=self.kind, content=content)
        return actions.take_in(import_of=row, tables=[self.look()], by=by)


@pytest.fixture
def table():
    return Table
