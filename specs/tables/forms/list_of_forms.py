"""Every form by the kind of file that it is of."""

from collections.abc import Mapping

from specs.tables.forms.columns_of_lines import LINE, REVISION
from specs.tables.forms.figures import FIGURES
from specs.tables.forms.form import Form, FormColumn, Reads
from specs.tables.forms.history import HISTORY
from specs.tables.forms.logs import LOG

YES, NO = "yes", "no"
FAMILIES = (
    "lithium soap",
    "lithium complex",
    "calcium soap",
    "calcium complex",
    "calcium sulfonate complex",
    "aluminium complex",
    "sodium soap",
    "clay",
    "polyurea",
)
PLACES = ("kettle", "after mill", "pack", "tote", "bulk")

SPECIFICATIONS = Form(
    "specifications",
    "Products and specifications",
    "product",
    (
        FormColumn(
            "product",
            "Product",
            note="Its code. Empty in the rows below that belong to it.",
            required=True,
            of="product",
            also=("Product code", "Code", "Grade", "Produkt", "Sorte"),
            fills_down=True,
        ),
        FormColumn(
            "name",
            "Name",
            note="Of a product that is not kept here yet; once is enough.",
            also=("Product name", "Description", "Bezeichnung"),
        ),
        FormColumn(
            "family",
            "Thickener",
            note="Of a new product.",
            choices=FAMILIES,
            reads=Reads.CHOICE,
            also=("Family", "Soap", "Verdicker", "Seife"),
            means={
                "lithium": "lithium soap",
                "calcium": "calcium soap",
                "sodium": "sodium soap",
                "aluminum complex": "aluminium complex",
                "diurea": "polyurea",
                "polyharnstoff": "polyurea",
                "bentonite": "clay",
            },
        ),
        FormColumn(
            "sampling_plan",
            "Sampling plan",
            note="Of a new product: the code of a plan that is kept here.",
            reads=Reads.NAME,
            of="sampling plan",
            also=("Plan", "Probenplan"),
        ),
        FormColumn("base_oil", "Base oil", also=("Grundöl",)),
        FormColumn("nlgi_aim", "NLGI", also=("NLGI number", "NLGI grade", "Grade aimed at")),
        FormColumn(
            "designation", "Designation", note="DIN 51502 or ISO 6743-9.", also=("DIN 51502",)
        ),
        FormColumn(
            "pack_target",
            "Target in the pack",
            unit="0.1 mm",
            note="Worked penetration.",
            reads=Reads.NUMBER,
            also=("Pack target", "Target penetration"),
        ),
        FormColumn(
            "kettle_offset",
            "Pack less kettle",
            unit="0.1 mm",
            note="With its sign.",
            reads=Reads.NUMBER,
            also=("Kettle offset",),
        ),
        FormColumn("safety_sheet", "Safety data sheet", also=("SDS", "Sicherheitsdatenblatt")),
        FormColumn(
            "shelf_life_months",
            "Shelf life, months",
            reads=Reads.WHOLE,
            also=("Shelf life", "Haltbarkeit"),
        ),
        FormColumn(
            "customer",
            "Customer",
            note="The code, for a line agreed with one; empty for the product's own.",
            reads=Reads.NAME,
            of="customer",
            also=("Customer code", "Kunde"),
        ),
        *REVISION,
        *LINE,
    ),
)  # fmt: skip

CUSTOMERS = Form(
    "customers",
    "Customers and specifications",
    "code",
    (
        FormColumn(
            "code",
            "Customer",
            note="A short code. Empty in the rows below that belong to it.",
            required=True,
            of="customer",
            also=("Customer code", "Code", "Kunde", "Kundennummer", "Customer number"),
            fills_down=True,
        ),
        FormColumn(
            "name",
            "Name",
            note="Of a customer that is not kept here yet; once is enough.",
            also=("Customer name", "Firm", "Company", "Firma"),
        ),
        FormColumn("address", "Address", also=("Adresse", "Anschrift")),
        FormColumn("mail", "Mail", also=("E-mail", "Email", "Mail address")),
        FormColumn(
            "language",
            "Language",
            note="Of the certificate.",
            choices=("en", "de", "fr", "es", "pl"),
            reads=Reads.CHOICE,
            also=("Sprache",),
            means={
                "english": "en",
                "englisch": "en",
                "german": "de",
                "deutsch": "de",
                "french": "fr",
                "français": "fr",
                "französisch": "fr",
                "spanish": "es",
                "español": "es",
                "spanisch": "es",
                "polish": "pl",
                "polski": "pl",
                "polnisch": "pl",
            },
        ),
        FormColumn(
            "product",
            "Product",
            note="Where lines are agreed for it: its code.",
            reads=Reads.NAME,
            of="product",
            also=("Product code", "Produkt"),
            fills_down=True,
        ),
        *REVISION,
        *(
            FormColumn(**{**vars(it), "required": False}) if it.required else it
            for it in LINE
        ),
    ),
)

INSTRUMENTS = Form(
    "instruments",
    "Instruments and their checks",
    "number",
    (
        FormColumn(
            "number",
            "Instrument",
            note="As on its plate, with a digit: PEN-02. Empty in rows below with further checks.",
            required=True,
            of="instrument",
            also=("Number", "No", "Instrument number", "Nummer", "Prüfmittel", "Id", "Gerät"),
            fills_down=True,
        ),
        FormColumn(
            "kind",
            "Kind",
            note="Of an instrument that is not kept here yet.",
            also=("Type", "Kind of instrument", "Art", "Geräteart"),
        ),
        FormColumn("note", "Note", also=("Remark", "Bemerkung", "Location", "Standort")),
        FormColumn(
            "done_on",
            "Checked on",
            note="A day.",
            reads=Reads.DAY,
            also=("Check date", "Calibrated", "Calibrated on", "Last check", "Geprüft am"),
        ),
        FormColumn(
            "due_on",
            "Next check due",
            note="A day after that; empty where the instrument was found unfit.",
            reads=Reads.DAY,
            also=("Due", "Due date", "Next check", "Next calibration", "Fällig am"),
            is_ahead=True,
        ),
        FormColumn(
            "found", "Found", note="What was found.", also=("Result", "Finding", "Befund")
        ),
        FormColumn(
            "fit",
            "Fit for use",
            choices=(YES, NO),
            reads=Reads.CHOICE,
            also=("Fit", "In order", "Status", "Verwendbar"),
            means={
                "true": YES, "ja": YES, "y": YES, "j": YES, "fit": YES, "in order": YES, "i.o.": YES,
                "false": NO, "nein": NO, "n": NO, "unfit": NO, "n.i.o.": NO, "not fit": NO,
            },
        ),
    ),
)  # fmt: skip

SAMPLES = Form(
    "samples",
    "Samples to be tested",
    "of",
    (
        FormColumn(
            "of",
            "Batch or fill lot",
            note="A number that is registered: the batch for the kettle, the fill lot for a pack.",
            required=True,
            reads=Reads.NAME,
            of="batch or fill lot",
            also=("Batch", "Fill lot", "Lot", "Charge", "Los", "Batch number"),
        ),
        FormColumn(
            "place",
            "Taken from",
            required=True,
            choices=PLACES,
            reads=Reads.CHOICE,
            also=("Place", "Where", "Where sampled", "Stelle", "Probenahmestelle"),
            means={
                "kessel": "kettle", "mill": "after mill", "nach mühle": "after mill",
                "drum": "pack", "gebinde": "pack", "container": "tote", "ibc": "tote",
            },
        ),
        FormColumn("detail", "Detail", note="drum 11 of 30", also=("Which", "Einzelheit")),
        FormColumn(
            "taken_at",
            "Taken at",
            note="Day and time where the laboratory stands: 2026-03-05 07:40.",
            required=True,
            reads=Reads.MOMENT,
            also=("Time", "Date and time", "Taken", "Sampled", "Sampled at", "Zeitpunkt", "Datum"),
        ),
        FormColumn(
            "taken_by",
            "Taken by",
            note="Empty: whoever brings the file in.",
            also=("Sampler", "By", "Probenehmer"),
        ),
    ),
)  # fmt: skip

FORMS: Mapping[str, Form] = {
    it.kind: it
    for it in (SPECIFICATIONS, CUSTOMERS, FIGURES, INSTRUMENTS, SAMPLES, LOG, HISTORY)
}
