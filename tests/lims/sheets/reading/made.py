"""Workbooks made by hand, part by part, so that a test can put into one what no program writes."""

import io
import zipfile

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
TIES = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml"
SHEET = "xl/worksheets/sheet1.xml"


def types(*more):
    return (
        f'<Types xmlns="{PACKAGE}/content-types">'
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Default Extension="xml" ContentType="{KIND}.worksheet+xml"/>'
        f'<Override PartName="/xl/workbook.xml" ContentType="{KIND}.sheet.main+xml"/>'
        f"{''.join(more)}</Types>"
    )


def ties(*rows):
    """Relationships: (id, kind, target)."""
    told = "".join(
        f'<Relationship Id="{key}" Type="{TIES}/{kind}" Target="{target}"/>'
        for key, kind, target in rows
    )
    return f'<Relationships xmlns="{PACKAGE}/relationships">{told}</Relationships>'


def workbook(sheets='<sheet name="Pen" sheetId="1" r:id="r1"/>', before=""):
    return (
        f'<workbook xmlns="{MAIN}" xmlns:r="{TIES}">{before}'
        f"<sheets>{sheets}</sheets></workbook>"
    )


def sheet(rows, before="", after=""):
    return (
        f'<worksheet xmlns="{MAIN}">{before}<sheetData>{rows}</sheetData>'
        f"{after}</worksheet>"
    )


def text_cell(address, text):
    return f'<c r="{address}" t="inlineStr"><is><t>{text}</t></is></c>'


ONE_ROW = f'<row r="1">{text_cell("A1", "Batch")}<c r="B1"><v>280.5</v></c></row>'


def parts(rows=ONE_ROW, *, before="", after="", **more):
    """The parts of a workbook of one sheet; more parts by their names come last."""
    return {
        "[Content_Types].xml": types(),
        "_rels/.rels": ties(("r1", "officeDocument", "xl/workbook.xml")),
        "xl/workbook.xml": workbook(),
        "xl/_rels/workbook.xml.rels": ties(
            ("r1", "worksheet", "worksheets/sheet1.xml")
        ),
        SHEET: sheet(rows, before, after),
    } | more.get("parts", {})


def zipped(parts, **how):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, **how) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return out.getvalue()


def book(rows=ONE_ROW, **more):
    return zipped(parts(rows, **more))
