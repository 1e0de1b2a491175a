"""What is done to products, customers and specifications. Only these functions write them."""

from lims.products.actions.approval import approve_revision
from lims.products.actions.customers import add_customer, change_customer
from lims.products.actions.drafts import (
    change_draft,
    open_draft,
    remove_requirement,
    set_requirement,
)
from lims.products.actions.products import (
    add_product,
    add_sampling_plan,
    change_product,
)
from lims.products.actions.published import (
    check_origin,
    copy_published_lines,
    load_published,
)

__all__ = [
    "add_customer",
    "add_product",
    "add_sampling_plan",
    "approve_revision",
    "change_customer",
    "change_draft",
    "change_product",
    "check_origin",
    "copy_published_lines",
    "load_published",
    "open_draft",
    "remove_requirement",
    "set_requirement",
]
