"""What is done with files that are brought in. Only these functions write them."""

from lims.imports.actions.receiving import (
    answer,
    content_of,
    map_columns,
    receive,
    set_reading,
)
from lims.imports.actions.taking import leave, refuse, take_in, withdraw

__all__ = [
    "answer",
    "content_of",
    "leave",
    "map_columns",
    "receive",
    "refuse",
    "set_reading",
    "take_in",
    "withdraw",
]
