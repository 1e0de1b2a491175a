"""Certificates of the invented plant: the good batch, German, forty rows, a preview, one not met."""

from dataclasses import replace
from datetime import UTC, datetime

from lims.certificates.data import (
    ON_LOT,
    PERIODIC,
    CertificateData,
    Dated,
    Fact,
    Issuer,
    ProductNamed,
    RecordHead,
    Row,
    Signed,
    Statement,
    TestedOn,
)
from lims.documents.internal import InternalCopy
from lims.documents.internal_lines import LineTold
from lims.documents.internal_sets import SetTold, TestTold

ISSUER = Issuer(
    name="Quernstone Grease Works",
    laboratory="Laboratory, site Q1",
    address="Millrace Lane 1, Quernstone",
    mail="lab@quernstone.example",
)
PERIODIC_TEST = TestedOn(
    batch="Q1-26-0310",
    first_day="2026-01-12",
    last_day="2026-01-16",
    valid_until="2026-07-12",
    valid_batches=20,
)


def row(
    line: int, characteristic: str, method: str, result: str, **more: object
) -> Row:
    given = {"verdict": "met", "evidence": ON_LOT, **more}
    return Row(
        line=line, characteristic=characteristic, method=method, result=result, **given
    )


ROWS = (
    row(
        *(1, "Worked penetration", "ASTM D217-21a", "280"),
        conditions="60 double strokes, 25 °C",
        unit="0.1 mm",
        lower="265",
        upper="295",
    ),
    row(
        *(2, "Change of penetration", "ASTM D217-21a", "+22"),
        conditions="100000 double strokes",
        unit="0.1 mm",
        lower="-30",
        upper="+30",
    ),
    row(3, "Dropping point", "ASTM D2265-20", "202", unit="°C", lower="190"),
    row(
        *(4, "Oil separation", "ASTM D6184-17", "2.8"),
        conditions="30 h, 100 °C",
        unit="mass %",
        upper="5.0",
    ),
    row(
        *(5, "Copper strip", "ASTM D4048-22", "1a"),
        conditions="24 h, 100 °C",
        unit="1a to 4c",
        upper="1b",
    ),
    row(
        *(6, "Appearance", "Q1-M-031:2024", "smooth, homogeneous"),
        must="smooth, homogeneous",
    ),
    row(
        *(7, "Oxidation", "ASTM D942-19", "38"),
        conditions="100 h, 99 °C, pressure drop",
        unit="kPa",
        upper="70",
        evidence=PERIODIC,
        tested_on=PERIODIC_TEST,
    ),
)

ONE_LOT = CertificateData(
    number="Q1-C-2026-00231",
    revision=0,
    issuer=ISSUER,
    issued_at="2026-03-06T16:05:00+01:00",
    code="7K3M9QX2VD0BTHR5WN8GAZ4CJE",
    check_address="https://lab.example",
    product=ProductNamed(
        code="LX2", name="lithium EP grease, NLGI 2", designation="KP2K-30"
    ),
    batch="Q1-26-0417",
    lot="A",
    quantity="4 drums, 720 kg net",
    item=(
        Fact("DIN 51502", "KP2K-30"),
        Fact("Fill lot", "A, 30 drums of 180 kg"),
        Fact("Delivered", "4 drums, 720 kg net"),
        Fact("Sample", "Q1-26-0417-A-01"),
        Fact("SDS", "LX2, issue 7"),
    ),
    dates=(
        Dated("Filled", "2026-03-04"),
        Dated("Sampled", "2026-03-05"),
        Dated("Tested", "2026-03-05", "2026-03-06"),
        Dated("Best before", "2029-03-04"),
    ),
    customer=(
        Fact("Customer", "Tallow & Thimble Bearings"),
        Fact("Ship to", "Spindle Wharf 12, Hythe"),
        Fact("Order", "TT-7781, line 10"),
        Fact("Delivery note", "DN-26-0912"),
        Fact("Part number", "40-117-02"),
    ),
    specification="specification LX2, revision 5",
    in_force_on="2026-01-12",
    rows=ROWS,
    typical=(Fact("density at 25 °C", "0.90 g/cm³"),),
    statement=Statement(
        rule="simple acceptance",
        procedure="rounding",
        sampling_plan="plan SP-02",
        product_from="the pack",
    ),
    signatures=(
        Signed(
            name="Mara Ellingsworth",
            function="laboratory manager",
            meaning="reviewed and authorised",
            at="2026-03-06T14:48:12+00:00",
            zone="Europe/Berlin",
        ),
    ),
    record=RecordHead(entries=48213, head="9f86d081884c7d65" + "0" * 48),
)

PREVIEW = replace(
    ONE_LOT, number=None, revision=None, code=None, record=None, signatures=()
)

NOT_MET = replace(
    ONE_LOT,
    number="Q1-C-2026-00238",
    rows=(
        replace(
            ROWS[0],
            result="298",
            verdict="not met",
            note="supplied under customer concession BM-CON-19",
        ),
        *ROWS[1:3],
        replace(ROWS[3], result="", verdict="not tested"),
        replace(ROWS[4], result="", verdict="not evaluated"),
        replace(ROWS[5], must=None, verdict=""),
    ),
)

LETTER = replace(ONE_LOT, paper="letter")

GERMAN = replace(
    ONE_LOT,
    number="Q1-C-2026-00268",
    language="de",
    product=ProductNamed(
        code="LC2",
        name="LC2 Hochtemperatur-Langzeit-Wälzlagerfett, Lithiumkomplexseife, NLGI 2",
    ),
    batch="Q1-26-0455",
    lot="B",
    quantity="120 Hobbocks, 2160 kg netto",
    specification="specification OL-4-118, revision C",
    in_force_on="2026-02-01",
    dates=(Dated("Tested", "2026-04-25", "2026-05-08"),),
    rows=(
        row(
            *(1, "Walkpenetration", "ISO 2137:2020", "281"),
            unit="0.1 mm",
            lower="265",
            upper="295",
        ),
        row(
            *(2, "Änderung der Walkpenetration", "ISO 2137:2020", "-3"),
            unit="0.1 mm",
            lower="-15",
            upper="+25",
        ),
        row(3, "Tropfpunkt", "ISO 6299:1998", ">288", unit="°C", lower="250"),
        row(
            *(
                4,
                "Ölabscheidung unter statischen Bedingungen",
                "DIN 51817:2014",
                "1.25",
            ),
            conditions="18 h, 40 °C",
            unit="Massen-%",
            upper="3.00",
        ),
        row(
            *(5, "Oxidationsbeständigkeit", "ASTM D942-19", "38"),
            conditions="100 h, 99 °C",
            unit="kPa",
            upper="70",
            evidence=PERIODIC,
            tested_on=PERIODIC_TEST,
        ),
    ),
)

FORTY_ROWS = replace(
    ONE_LOT,
    rows=tuple(
        replace(
            ROWS[n % 5], line=n, characteristic=f"Characteristic {n}", conditions=""
        )
        for n in range(1, 41)
    ),
)

INTERNAL = InternalCopy(
    subject="certificate Q1-C-2026-00231, revision 0",
    record="record at entry 48213, head 9f86d081884c7d65",
    facts=(("Product", "LX2"), ("Held against", "LX2 revision 5")),
    lines=(
        LineTold(
            number=1,
            title="Worked penetration, 60 double strokes, 25 °C",
            said=(("Limits", "265 to 295"), ("Verdict", "met")),
            memory=("From memory, used in the reported value: repeatability 7.",),
            is_met=True,
            tests=(
                TestTold(
                    "Worked penetration, sample Q1-26-0417-A-01",
                    (
                        SetTold(
                            place=1,
                            readings=("Cone reading 1 276", "Cone reading 2 284"),
                            circumstances=("Penetrometer PEN-01 (in service)",),
                            value="",
                            says="spread 8",
                            state="set aside",
                            why=("void seen at cup wall",),
                            who=("Tamsin Orlebar, 5 March 2026, 08:55 CET",),
                        ),
                    ),
                ),
            ),
        ),
    ),
    also=(),
    made_at=datetime(2026, 3, 9, 9, 0, tzinfo=UTC),
)
