"""What the record calls the acts of this room."""

from lims.record.words import register

register(
    {
        "sampling_plan_added": "Sampling plan added",
        "product_added": "Product added",
        "product_changed": "Product changed",
        "customer_added": "Customer added",
        "customer_changed": "Customer changed",
        "draft_opened": "Draft of a specification opened",
        "draft_changed": "Draft of a specification changed",
        "requirement_set": "Requirement of a draft set",
        "requirement_removed": "Requirement of a draft removed",
        "published_loaded": "Published specifications loaded",
        "published_lines_copied": "Lines of a published specification copied",
        "origin_checked": "Origin of a requirement checked",
        "revision_approved": "Specification approved and in force",
    }
)
