"""What may not be changed, and by whom not: lines for those who do not draft, a revision in force for everybody."""

import pytest

from lims.products import queries
from tests.lims.screens.specifications.conftest import (
    address,
    line_of,
    line_sent,
    new_line,
    text_of,
)


@pytest.mark.parametrize("account", ["qm-1", "aud-1", "desk-1", "tech-a"])
def test_who_may_not_draft_changes_no_line(account, as_, penetration):
    draft = penetration.revision

    answered = as_(account).post(
        address("line-change", penetration.pk), line_sent(draft, penetration)
    )

    assert answered.status_code == 403


def test_a_revision_in_force_is_changed_by_no_address(as_, opened):
    own = queries.in_force(queries.product("LX2"))
    row = line_of(own, "worked-penetration")
    client = as_("chem-1")
    before = list(own.requirements.values())
    sent = line_sent(own, row, lower="200")

    answers = [
        client.post(address("draft-change", own.pk), {"number": "9", "version": 1}),
        client.post(new_line(own, "dropping-point-bath"), sent),
        client.post(address("line-change", row.pk), sent),
        client.post(address("line-remove", row.pk), {"version": own.version}),
        as_("qm-1").post(address("approve", own.pk), {"password": "x", "version": 1}),
        client.get(address("line-change", row.pk)),
        client.get(address("line-new", own.pk)),
        client.get(address("draft-change", own.pk)),
    ]

    assert [it.status_code for it in answers] == [409] * 8
    assert all("cannot change" in text_of(it) for it in answers)
    assert list(own.requirements.values()) == before
    page = text_of(client.get(address("revision", own.pk)))
    assert "A revision in force cannot change; open a draft." in page
