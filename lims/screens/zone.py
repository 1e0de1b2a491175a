"""The site and its zone as the screens ask for them."""

from datetime import UTC, tzinfo
from zoneinfo import ZoneInfo

from lims.people.here import close_request, open_request, site

__all__ = ["close_request", "open_request", "site", "zone"]


def zone() -> tzinfo:
    """The zone of the laboratory's clock."""
    found = site()
    return ZoneInfo(found.zone) if found is not None else UTC
