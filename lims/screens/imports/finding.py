"""One import out of its address, and what the person who asks may do with it."""

from django.http import Http404

from lims.imports import queries, rules
from lims.imports.models import Import
from lims.people.models import Person
from lims.people.permissions import Permission, allowed
from lims.sheets import looking
from lims.sheets.looking import BlockLook, Looked


def import_or_404(pk: int) -> Import:
    """The import of that key, without its packed sheets."""
    found = queries.imports().filter(pk=pk).first()
    if found is None:
        raise Http404
    return found


def waiting(pk: int, person: Person) -> tuple[Import, Looked]:
    """An import that waits, and the last look at it; refused to who may not bring such files in, and once it waits no more."""
    found = import_or_404(pk)
    rules.check_may(person, found.kind)
    rules.check_waits(found)
    look = looking.looked(found)
    if look is None:
        raise Http404
    return found, look


def block_or_404(look: Looked, place: int) -> BlockLook:
    """One table of a file, counted from 1."""
    if not 1 <= place <= len(look.blocks):
        raise Http404
    return look.blocks[place - 1]


def may_see_cells(person: Person, import_of: Import) -> bool:
    """Whether the file itself may be seen, which may name persons: who brings such files in, and who compares results by person."""
    may_bring_in = rules.may_bring_in(person, import_of.kind)
    return may_bring_in or allowed(person, Permission.SEE_PERSONS)


def check_may_see_cells(person: Person, import_of: Import) -> None:
    """Refuse whoever may see neither cells nor file, naming who may."""
    if not may_see_cells(person, import_of):
        rules.check_may(person, import_of.kind)
