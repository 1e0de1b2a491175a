"""Every act of this room: on accounts and their roles, and on the site's settings."""

from lims.people.actions.accounts import (
    accept_invitation,
    change_own_password,
    change_person,
    deactivate,
    give_role,
    invite,
    invite_first_administrator,
    reactivate,
    start_password_reset,
    take_role,
)
from lims.people.actions.site import change_site, found_site

__all__ = [
    "accept_invitation",
    "change_own_password",
    "change_person",
    "change_site",
    "deactivate",
    "found_site",
    "give_role",
    "invite",
    "invite_first_administrator",
    "reactivate",
    "start_password_reset",
    "take_role",
]
