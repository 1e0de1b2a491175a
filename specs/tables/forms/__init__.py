"""The forms of tables that are no results: what each asks, which column is which, what is wrong with a cell."""

from specs.tables.forms.checking import check
from specs.tables.forms.form import Form, FormColumn, Reads
from specs.tables.forms.kept import Kept
from specs.tables.forms.list_of_forms import FORMS
from specs.tables.forms.objections import Objection
from specs.tables.forms.proposing import LEFT_OUT, proposed

__all__ = [
    "FORMS",
    "LEFT_OUT",
    "Form",
    "FormColumn",
    "Kept",
    "Objection",
    "Reads",
    "check",
    "proposed",
]
