"""From the file to what stands in the record: received, looked at, mapped as proposed, answered, taken in."""

import io

import pytest

from lims.imports import actions
from lims.imports.models import Log
from lims.instruments.models import Check, Instrument
from lims.methods import queries as method_queries
from lims.products import queries
from lims.products.models import Product
from lims.record import verify
from lims.record.refusals import WrongMove
from lims.sheets import jobs, looking, templates
from tests.factories import bringing


def brought(content, kind, name, *, by):
    """A file that was looked at, its columns mapped as they are proposed."""
    it = bringing.received(by=by, kind=kind, content=content, name=name)
    jobs.look(it)
    blocks = looking.looked(it).blocks
    mapping = {block.block.key: dict(block.uses) for block in blocks}
    it.refresh_from_db()
    actions.map_columns(import_of=it, mapping=mapping, by=by)
    jobs.look(it)
    return it


def answered(it, choices, instead=None, *, by):
    key = looking.looked(it).blocks[0].block.key
    actions.answer(
        import_of=it, choices={key: choices}, instead={key: instead or {}}, by=by
    )
    jobs.look(it)


def questions(it):
    return {
        one.key: one for block in looking.looked(it).blocks for one in block.questions
    }


def filled(kind, *rows):
    """The template of a kind, filled in as somebody would."""
    from openpyxl import load_workbook

    book = load_workbook(io.BytesIO(templates.template(kind)))
    sheet = book.worksheets[0]
    places = {cell.value: cell.column for cell in sheet[1]}
    for number, row in enumerate(rows, 3):
        for heading, text in row.items():
            sheet.cell(number, places[heading], text)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


LINE = {
    "Compared by": "rounding",
    "Decision rule": "simple acceptance",
    "Tested": "per fill lot",
}


def test_a_filled_template_of_specifications(book, technologist):
    content = filled(
        "specifications",
        {
            "Product": "LX3",
            "Name": "lithium EP grease, NLGI 3",
            "Thickener": "lithium soap",
            "Sampling plan": "SP-02",
            "Shelf life, months": 36,
            "Characteristic": "Worked penetration, 60 double strokes, 25 °C",
            "Method and edition": "ASTM D217-21a",
            "Lower limit": 220,
            "Upper limit": 250,
            **LINE,
        },
        {
            "Characteristic": "Oil separation, cone sieve, 30 h, 100 °C",
            "Method and edition": "ASTM D6184",
            "Upper limit": 2.5,
            **LINE,
        },
    )
    it = brought(content, "specifications", "greases.xlsx", by=technologist)

    assert questions(it) == {}
    assert looking.looked(it).is_ready
    jobs.take(it, by=technologist)

    product = Product.objects.get(code="LX3")
    lines = queries.requirements_of(queries.draft_of(product))
    assert product.shelf_life_months == 36
    assert [line.limits for line in lines] == ["220 to 250", "at most 2.5"]
    assert verify.verify().first_wrong is None


def test_a_filled_template_of_figures(book, technologist):
    about = {"Source": "own copy, 12.2", "Standing": "published", "Unit": "mass %"}
    content = filled(
        "figures",
        {
            "Method and edition": "ASTM D6184-17",
            "Characteristic": "Oil separation, cone sieve, 30 h, 100 °C",
            "Figure": "repeatability",
            "Value": "1.2 √m",
            "Level from": 0.1,
            "Level to": 23.7,
            **about,
        },
        {"Figure": "reporting step", "Value": 0.05, **about},
    )
    it = brought(content, "figures", "figures.xlsx", by=technologist)
    answered(it, {"A/other figures": "stay"}, by=technologist)

    assert questions(it) == {}
    jobs.take(it, by=technologist)

    draft = method_queries.figures_draft(method_queries.edition("ASTM D6184", "17"))
    values = {one.what: one.value for one in method_queries.figures_of(draft)}
    assert values["repeatability"] == "1.2 √m"
    assert values["reporting step"] == "0.05"
    assert verify.verify().first_wrong is None


def test_a_sheet_of_figures_as_a_plant_keeps_it(book, technologist):
    content = (
        "Kennwerte der Prüfverfahren;;;;;;;;\n"
        "Methode;Merkmal;Kenngröße;Wert;Einheit;Gültig von;Gültig bis;Quelle;Status\n"
        "D217-21a;Walkpenetration, 60 Doppelhübe, 25 °C;r;6,5;0,1 mm;130;475;Norm 12.2;veröffentlicht\n"
        ";;R;19;0,1 mm;130;475;Norm 12.2;veröffentlicht\n"
        ";;Bestimmungen je Ergebnis;2;;;;Hausregel 7;übliche Praxis\n"
        ";;Auswertung;Mittelwert;;;;Hausregel 7;übliche Praxis\n"
    ).encode("cp1252")
    it = brought(content, "figures", "kennwerte.csv", by=technologist)

    assert set(questions(it)) == {"A/other figures"}
    answered(it, {"A/other figures": "stay"}, by=technologist)
    jobs.take(it, by=technologist)

    draft = method_queries.figures_draft(method_queries.edition("ASTM D217", "21a"))
    mine = {
        one.what: one.value
        for one in method_queries.figures_of(draft)
        if one.characteristic == "worked-penetration"
    }
    assert mine["repeatability"] == "6.5"
    assert mine["reproducibility"] == "19"
    assert mine["determinations a result"] == "2"
    assert mine["how they combine"] == "mean"


def test_a_list_of_instruments_as_a_plant_keeps_it(person):
    by = person("laboratory_manager")
    content = (
        "Prüfmittelliste Labor;;;;;\n"
        "Gerät;Geräteart;Geprüft am;Fällig am;Befund;Verwendbar\n"
        "PEN-02;Penetrometer;02.02.2026;02.08.2026;286 statt 286;ja\n"
        ";;13.08.2025;02.02.2026;285 statt 286;ja\n"
        "OFN-1;Trockenschrank;15.01.2026;;Regler defekt;nein\n"
    ).encode("cp1252")
    it = brought(content, "instruments", "liste.csv", by=by)

    assert questions(it) == {}
    jobs.take(it, by=by)

    assert Check.objects.count() == 3
    assert Instrument.objects.get(number="OFN-1").state == "out of service"


def test_a_loggers_file_in_utf_16(person):
    by = person("technician")
    rows = "\r\n".join(f"{it * 60}\t{758 - it},4\t98,9" for it in range(8))
    content = f"Zeit [s]\tVessel 3 [psi]\tBad [°C]\r\n{rows}\r\n".encode("utf-16")
    it = brought(content, "log", "vessel3.txt", by=by)

    assert set(questions(it)) == {"B/subject", "C/subject"}
    answered(it, {"B/subject": "heading"}, {"C1": "bath of vessel 3"}, by=by)
    jobs.take(it, by=by)

    assert list(Log.objects.values_list("subject", "unit", "count")) == [
        ("Vessel 3", "psi", 8),
        ("bath of vessel 3", "°C", 8),
    ]
    assert verify.verify().first_wrong is None


def test_nothing_is_taken_in_before_all_is_answered(person):
    by = person("technician")
    it = brought(b"Time (min);P (kPa)\n0;758\n1;757\n", "log", "v.csv", by=by)

    with pytest.raises(WrongMove, match="1 question about this file"):
        jobs.take(it, by=by)

    assert not Log.objects.exists()
