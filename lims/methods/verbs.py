"""What the record calls the acts of this room."""

from lims.record.words import register

register(
    {
        "reference_loaded": "Reference data of the methods added",
        "characteristic_added": "Characteristic added",
        "method_added": "Method added",
        "edition_added": "Edition of a method added",
        "precision_set": "Precision of an edition set",
        "figures_checked": "Figures of an edition checked",
    }
)
