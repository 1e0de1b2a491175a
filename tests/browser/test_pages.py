"""Every page of the plant in mid-shift: silent console, axe without findings, room on a phone, a name."""

import pytest

from tests.browser import addresses, seeing
from tests.browser.driving import Seat

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

NOT_FOUND = "the server responded with a status of 404"  # Chromium's word on a code that is not known


def test_every_page_can_be_read_and_used_by_everybody(
    mid_shift, live_server, new_context
):
    found = []

    for account, pages in addresses.PAGES.items():
        seat = Seat(new_context().new_page(), live_server.url)
        if account:
            seat.signs_in(account)
        for where in pages():
            found += faults_of(seat, where, account)
        seat.page.context.close()

    assert found == []


def faults_of(seat, where, account):
    expected = 404 if where in addresses.not_known() else 200
    answer = seat.page.goto(seat.server + where)
    name = f"{where} ({account or 'signed out'})"
    found = seeing.look(seat.page, name)
    if answer.status != expected:
        found.append(f"{name}: answers {answer.status}")
    if where.startswith("/bench/"):
        found += [f"{name}: small: {it}" for it in seeing.small_targets(seat.page)]
    found += [f"{name}: console: {it}" for it in seat.said if NOT_FOUND not in it]
    seat.said.clear()
    return found
