"""The people, the site and the instruments of the invented plant."""

import datetime as dt
from collections.abc import Mapping, MutableMapping
from typing import Any

from lims.instruments import actions as instruments
from lims.instruments.models import Instrument
from lims.methods import actions as methods
from lims.methods import queries, reference
from lims.people import actions as people
from lims.people import tokens
from lims.people.models import Person
from lims.people.queries import person
from lims.products import reference as published
from lims.products.actions import load_published
from lims.record import clock


def make_house(told: Mapping[str, Any], passwords: MutableMapping[str, str]) -> None:
    """Found the site, let its people in, put its instruments in service, state its own uncertainty."""
    first, *others = told["people"]
    administrator = people.invite_first_administrator(
        account=first["account"], name=first["name"]
    )
    _choose_password(administrator, passwords)
    people.found_site(**told["site"], by=administrator)
    for one in others:
        invited = people.invite(
            account=one["account"],
            name=one["name"],
            given=[one["role"]],
            by=administrator,
        )
        _choose_password(invited, passwords)
    methods.load_reference(data=reference.shipped(), by=None)
    load_published(data=published.shipped(), by=None)
    for one in told["instruments"]:
        put_in_service(one)
    quality_manager = person("qm-1")
    for one in told["own_uncertainties"]:
        methods.state_own_uncertainty(
            **one | {"characteristic": queries.characteristic(one["characteristic"])},
            password=passwords[quality_manager.account],
            by=quality_manager,
        )


def _choose_password(invited: Person, passwords: MutableMapping[str, str]) -> None:
    people.accept_invitation(
        person=invited,
        token=tokens.token_for(invited),
        password=passwords[invited.account],
        by=invited,
    )


def put_in_service(told: Mapping[str, Any]) -> Instrument:
    """Add an instrument with its first check."""
    keeper = person("mgr-1")
    instrument = instruments.add_instrument(
        number=told["number"], kind=told["kind"], note=told.get("note", ""), by=keeper
    )
    instruments.record_check(
        instrument=instrument,
        done_on=clock.now().date(),
        due_on=dt.date.fromisoformat(told["due"]),
        found=told["found"],
        is_fit=True,
        by=keeper,
    )
    return instrument
