"""The columns that state one line of a specification, shared by the forms of products and of customers."""

from specs.judging.rules import RULES
from specs.tables.forms.form import FormColumn, Reads

LIMIT, REPORT_ONLY, TYPICAL = "limit", "report only", "typical"
FILL_LOT, BATCH, PERIODIC = "per fill lot", "per batch", "periodic"
ROUNDING, ABSOLUTE = "rounding", "absolute"

WHAT = (
    FormColumn(
        "characteristic",
        "Characteristic",
        note="What is measured: its code, or its name with the conditions.",
        required=True,
        reads=Reads.NAME,
        of="characteristic",
        also=("Property", "Test", "Parameter", "Merkmal", "Prüfung", "Eigenschaft"),
    ),
    FormColumn(
        "edition",
        "Method and edition",
        note="As in ASTM D217-21a. Leave it empty for what is told in words.",
        reads=Reads.NAME,
        of="edition",
        also=("Method", "Test method", "Edition", "Standard", "Methode", "Norm"),
    ),
    FormColumn(
        "kind",
        "Kind of line",
        note="limit, report only or typical; empty where the limits say it.",
        choices=(LIMIT, REPORT_ONLY, TYPICAL),
        reads=Reads.CHOICE,
        also=("Kind", "Type", "Art"),
        means={"report": REPORT_ONLY, "nur angeben": REPORT_ONLY, "typisch": TYPICAL},
    ),
)
LIMITS = (
    FormColumn(
        "limits",
        "Limits",
        note="Both in one cell: 265-295, at least 190, at most 70, at most 1b; or the next two columns.",
        reads=Reads.LIMITS,
        also=("Limit", "Requirement", "Spec", "Specification", "Grenzwerte", "Forderung"),
    ),
    FormColumn(
        "lower",
        "Lower limit",
        note="In the unit of the characteristic.",
        also=("Min", "Minimum", "Lower", "Low", "Untergrenze", "UG"),
    ),
    FormColumn(
        "upper",
        "Upper limit",
        note="In the unit of the characteristic; of a rating the worst mark allowed.",
        also=("Max", "Maximum", "Upper", "High", "Obergrenze", "OG"),
    ),
    FormColumn(
        "must",
        "In words",
        note="What is to be seen, where the limits are no numbers.",
        also=("Must be", "Words", "Description", "In Worten"),
    ),
    FormColumn(
        "unit",
        "Unit",
        note="The unit of the limits, to compare with that of the characteristic.",
        also=("Units", "Einheit", "UoM"),
    ),
)  # fmt: skip
DECIDING = (
    FormColumn(
        "comparing",
        "Compared by",
        note="The procedure for comparing a result with the limits.",
        choices=(ROUNDING, ABSOLUTE),
        reads=Reads.CHOICE,
        also=("Comparing", "Rounding procedure", "Vergleich"),
        means={"runden": ROUNDING, "gerundet": ROUNDING, "absolut": ABSOLUTE},
    ),
    FormColumn(
        "rule",
        "Decision rule",
        note="Other rules than simple acceptance rest on an uncertainty.",
        choices=tuple(RULES),
        reads=Reads.CHOICE,
        also=("Rule", "Entscheidungsregel"),
    ),
    FormColumn(
        "basis",
        "Uncertainty from",
        note="Empty with simple acceptance.",
        choices=("own uncertainty", "reproducibility"),
        reads=Reads.CHOICE,
        also=("Basis",),
    ),
    FormColumn("uncertainty", "u or R", note="In the unit of the limits.", also=("u", "R")),
    FormColumn("confidence", "Confidence", note="0.95, one-sided."),
)  # fmt: skip
FREQUENCY = (
    FormColumn(
        "scope",
        "Tested",
        note="On each fill lot, once a batch, or now and then.",
        choices=(FILL_LOT, BATCH, PERIODIC),
        reads=Reads.CHOICE,
        also=("Scope", "Frequency", "How often", "Häufigkeit"),
        means={
            "each lot": FILL_LOT,
            "every lot": FILL_LOT,
            "each batch": BATCH,
            "every batch": BATCH,
            "je charge": BATCH,
            "periodisch": PERIODIC,
        },
    ),
    FormColumn(
        "every_batches",
        "Every so many batches",
        note="Of a periodic line.",
        reads=Reads.WHOLE,
    ),
    FormColumn(
        "every_months",
        "Every so many months",
        note="Of a periodic line.",
        reads=Reads.WHOLE,
    ),
    FormColumn(
        "internal_lower",
        "Internal from",
        note="The plant's own band inside the limits.",
        also=("Internal lower", "Warning low", "Action low"),
    ),
    FormColumn(
        "internal_upper",
        "Internal to",
        note="The plant's own band inside the limits.",
        also=("Internal upper", "Warning high", "Action high"),
    ),
    FormColumn(
        "typical",
        "Typical value",
        note="As it is to be read; it is no result.",
        also=("Typical", "Typ", "Richtwert"),
    ),
)
LINE = (*WHAT, *LIMITS, *DECIDING, *FREQUENCY)
REVISION = (
    FormColumn(
        "revision",
        "Revision",
        note="The number that the draft gets; empty for the next one.",
        also=("Rev", "Issue", "Version", "Ausgabe", "Stand"),
    ),
    FormColumn(
        "part_number",
        "Customer's part number",
        note="Of a customer's specification.",
        also=("Part number", "Part no", "Material number", "Artikelnummer"),
    ),
    FormColumn(
        "note",
        "Note to the revision",
        note="Why there is a new one.",
        also=("Note", "Remark", "Bemerkung"),
    ),
)
