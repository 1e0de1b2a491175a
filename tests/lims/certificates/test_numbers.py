"""Certificates begin at the number that the site sets, and only while none is issued."""

import pytest

from lims.certificates import actions, rules
from lims.certificates.models import Certificate
from lims.people.models import Site
from lims.people.queries import person as person_of
from lims.products.models import Customer
from lims.record import clock
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import plant


@pytest.fixture
def keeper(works):
    return person_of("adm-1")


def issue(by, order="TT-7781"):
    allotment = actions.allot(
        fill_lot=plant.lot(),
        customer=Customer.objects.get(code="TT"),
        order=order,
        pack_count=4,
        by=by,
    )
    return actions.issue(allotment=allotment, by=by).certificate


def test_the_first_certificate_has_the_number_set_and_the_next_follows(desk, keeper):
    actions.begin_numbers_at(first=231, by=keeper)

    first, second = issue(desk), issue(desk, "TT-7782")

    assert [first.number, second.number] == ["Q1-C-2026-00231", "Q1-C-2026-00232"]
    assert Entry.objects.filter(verb="certificate_numbers_begun").count() == 1


def test_a_later_year_begins_at_one(desk, keeper):
    actions.begin_numbers_at(first=231, by=keeper)
    issue(desk)

    clock.set_to(plant.at("2027-01-04 09:00"))
    site = Site.objects.get()
    number = actions._first_of_the_year(site.code)

    assert number == 1


def test_once_a_certificate_is_issued_the_numbers_stay(desk, keeper):
    issue(desk)

    assert not rules.can_begin_numbers()
    with pytest.raises(WrongMove, match="the last is Q1-C-2026-00001"):
        actions.begin_numbers_at(first=231, by=keeper)
    assert Site.objects.get().first_certificate == 1


@pytest.mark.parametrize("first", [0, -3, 100_000])
def test_a_number_that_cannot_be_printed_is_refused(keeper, first):
    with pytest.raises(BadInput) as refusal:
        actions.begin_numbers_at(first=first, by=keeper)

    assert refusal.value.field == "first_certificate"
    assert not Certificate.objects.exists()


def test_setting_the_number_that_stands_is_refused(keeper):
    with pytest.raises(WrongMove, match="begin at 1 already"):
        actions.begin_numbers_at(first=1, by=keeper)


def test_only_who_keeps_the_site_sets_the_number(desk):
    with pytest.raises(NotAllowed):
        actions.begin_numbers_at(first=231, by=desk)
