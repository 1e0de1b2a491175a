"""A blank cell stands for the one above it, where a form means that."""

import datetime as dt

import pytest

from specs.tables.forms import Kept, check, proposed
from specs.tables.forms.form import Form, FormColumn
from specs.tables.saying import Answers
from tests.factories import tables

KEPT = Kept(dt.date(2026, 3, 4))
NESTED = Form(
    "nested",
    "Nested",
    "code",
    (
        FormColumn("code", "Code", required=True, fills_down=True),
        FormColumn("oil", "Oil", fills_down=True),
        FormColumn("mass", "Mass"),
    ),
)


@pytest.mark.parametrize(
    ("second", "oil"),
    [
        (("", "", "2"), "M150"),  # belongs to the row above
        (("LX2", "", "2"), "M150"),  # says so itself
        (("LX3", "", "2"), None),  # is about something else
        (("", "P100", "2"), "P100"),
    ],
)
def test_the_second_column_fills_down_only_within_the_first(second, oil):
    sheet = tables.sheet(("Code", "Oil", "Mass"), ("LX2", "M150", "1"), second)
    block = tables.block(sheet)
    mapping = proposed(block, NESTED)

    it = check(NESTED, sheet, block, mapping, answers=Answers(), kept=KEPT)

    assert it.rows[1].values.get("oil") == oil
