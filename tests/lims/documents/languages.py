"""The same certificate in each language, as composing would word it; what a firm writes itself has no language here."""

import json
from dataclasses import replace
from pathlib import Path

from lims.batches.models import FillLot
from lims.certificates import packs
from lims.certificates.data import CertificateData, Fact, Issuer, ProductNamed, Row
from lims.wording.languages import Language
from tests.lims.documents import samples

BOOK = Path(__file__).parents[3] / "fixtures" / "reference" / "characteristics.json"
CHARACTERISTICS = {
    row["code"]: row for row in json.loads(BOOK.read_text(encoding="utf-8"))
}
CODES = (
    *("worked-penetration", "penetration-change-100000", "dropping-point-block"),
    *("oil-separation", "copper-strip", "oxidation-drop"),
)
LOT = FillLot(letter="A", pack="drum", pack_kg="17.5", pack_count=30)


def named(code: str, language: Language) -> tuple[str, str]:
    row = CHARACTERISTICS[code]
    names = row if language == "en" else row["elsewhere"][language]
    return names["name"], names.get("conditions", "")


def in_language(
    language: Language, data: CertificateData = samples.ONE_LOT
) -> CertificateData:
    """A paper of six lines; `data` gives number, signatures and what else is left as it is."""
    measured = [row for row in samples.ROWS if row.characteristic != "Appearance"]
    return replace(
        data,
        language=language,
        issuer=Issuer(name="QG", laboratory="Q1", address="Q 1", mail="q@q.example"),
        product=ProductNamed(code="LX2", name="NLGI 2"),
        quantity=packs.delivered(LOT, 3, language),
        item=(
            Fact("Fill lot", packs.filled(LOT, language)),
            Fact("Delivered", packs.delivered(LOT, 3, language)),
        ),
        customer=(Fact("Customer", "T & T"), Fact("Part number", "40-117-02")),
        rows=tuple(
            _row(row, line, code, language)
            for line, (row, code) in enumerate(zip(measured, CODES, strict=True), 1)
        ),
        typical=(Fact("Q1", "0.90 g/cm³"),),
    )


def _row(row: Row, line: int, code: str, language: Language) -> Row:
    name, conditions = named(code, language)
    return replace(row, line=line, characteristic=name, conditions=conditions)


def not_all_met(language: Language) -> CertificateData:
    """The same, with each verdict once, a rule of its own and a result in words."""
    whole = in_language(language)
    first, second, third, fourth, fifth, sixth = whole.rows
    rows = (
        replace(first, result="298", verdict="not met"),
        replace(second, result="", verdict="not tested"),
        replace(third, result=">288"),
        replace(fourth, result="", verdict="not evaluated"),
        replace(fifth, result="fail", verdict=""),
        replace(sixth, procedure="absolute"),
    )
    return replace(whole, rows=rows)
