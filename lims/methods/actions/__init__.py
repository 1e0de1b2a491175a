"""What is done to characteristics, methods, editions and their figures. Only these functions write them."""

from lims.methods.actions.adding import (
    add_characteristic,
    add_edition,
    add_method,
    load_reference,
)
from lims.methods.actions.approval import approve_figures
from lims.methods.actions.checking import check_figures
from lims.methods.actions.drafts import (
    discard_draft,
    open_figures_draft,
    remove_figure,
    set_figure,
)
from lims.methods.actions.uncertainty import state_own_uncertainty

__all__ = [
    "add_characteristic",
    "add_edition",
    "add_method",
    "approve_figures",
    "check_figures",
    "discard_draft",
    "load_reference",
    "open_figures_draft",
    "remove_figure",
    "set_figure",
    "state_own_uncertainty",
]
