"""What is made and sold, and what it must meet: products, customers, specifications with their revisions and requirements."""

from lims.products.models.goods import (
    Customer,
    Product,
    PublishedLine,
    PublishedSpecification,
    SamplingPlan,
)
from lims.products.models.specifications import Requirement, Revision, Specification

__all__ = [
    "Customer",
    "Product",
    "PublishedLine",
    "PublishedSpecification",
    "Requirement",
    "Revision",
    "SamplingPlan",
    "Specification",
]
