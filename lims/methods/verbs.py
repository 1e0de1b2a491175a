"""What the record calls the acts of this room."""

from lims.record.words import register

register(
    {
        "reference_loaded": "Reference data of the methods added",
        "characteristic_added": "Characteristic added",
        "method_added": "Method added",
        "edition_added": "Edition of a method added",
        "figures_draft_opened": "Draft of figures opened",
        "figure_set": "Figure of a draft set",
        "figure_removed": "Figure taken out of a draft",
        "figures_draft_discarded": "Draft of figures discarded",
        "figures_approved": "Figures of an edition approved and put in force",
        "figures_checked": "Figures of an edition checked",
        "own_uncertainty_stated": "Own uncertainty stated",
        "precision_set": "Precision of an edition set",
        "figures_carried_over": "Precisions of editions carried over into figures",
    }
)
