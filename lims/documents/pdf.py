"""HTML to PDF/A-3a that is PDF/UA-1 too, the data attached; reaches neither network nor disk."""

import os
from datetime import datetime
from functools import cache
from pathlib import Path
from threading import Lock

# Whatever writes a time into a font or a file takes this one: equal data give equal bytes.
os.environ.setdefault("SOURCE_DATE_EPOCH", "1700000000")

import weasyprint
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

from lims.certificates.data import CertificateData

ASSETS = Path(__file__).resolve().parent / "assets"
KINDS = {".css": "text/css", ".ttf": "font/ttf", ".svg": "image/svg+xml"}
PICTURE = "data:image/svg+xml;base64,"

# PDF/UA's mark, and the description of it that PDF/A asks for.
UA_MARK = (
    b'<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/" pdfuaid:part="1"/>'
    b'<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"'
    b' xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"'
    b' xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">'
    b'<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">'
    b"<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>"
    b"<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>"
    b"<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>"
    b'<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">'
    b"<pdfaProperty:name>part</pdfaProperty:name>"
    b"<pdfaProperty:valueType>Integer</pdfaProperty:valueType>"
    b"<pdfaProperty:category>internal</pdfaProperty:category>"
    b"<pdfaProperty:description>PDF/UA part</pdfaProperty:description>"
    b"</rdf:li></rdf:Seq></pdfaSchema:property></rdf:li></rdf:Bag>"
    b"</pdfaExtension:schemas></rdf:Description></rdf:RDF>"
)

_press = Lock()  # the fonts below belong to one page at a time


class ForeignAddressError(Exception):
    """A page asked for something that is not part of the paper."""


class PaperFetcher(URLFetcher):
    """Pictures written into the page, and the paper's own files by name; all else is refused."""

    def fetch(
        self, url: str, headers: dict[str, str] | None = None
    ) -> URLFetcherResponse:
        if url.startswith(PICTURE):
            return super().fetch(url, headers)
        path = _assets().get(url)
        if path is None:
            raise FatalURLFetchingError(f"not part of the paper: {url[:80]}")
        kind = {"Content-Type": KINDS[path.suffix]}
        return URLFetcherResponse(url, body=path.read_bytes(), headers=kind)


def render(html: str, data: CertificateData) -> bytes:
    """The PDF of a certificate's page, with its data attached; a preview carries none."""
    if data.is_preview:
        return pressed(html, "certificate.css", identifier="preview")
    at = datetime.fromisoformat(data.issued_at)
    attachment = weasyprint.Attachment(
        string=data.to_json(),
        name="certificate.json",
        description="The certificate's data",
        relationship="Data",
        created=at,
        modified=at,
    )
    identifier = f"{data.number}-{data.revision}"
    return pressed(html, "certificate.css", identifier, attachments=[attachment])


def pressed(
    html: str,
    stylesheet: str,
    identifier: str,
    *,
    attachments: list[weasyprint.Attachment] | None = None,
) -> bytes:
    """The PDF of a page under one of the paper's stylesheets."""
    with _press:
        try:
            made = weasyprint.HTML(string=html, url_fetcher=_fetcher()).write_pdf(
                stylesheets=[_stylesheet(stylesheet)],
                font_config=_fonts(),
                pdf_variant="pdf/a-3a",
                pdf_identifier=identifier.encode(),
                attachments=attachments,
                finisher=_mark_as_ua,
            )
        except FatalURLFetchingError as refused:  # stands outside Exception
            raise ForeignAddressError(str(refused)) from None
    return bytes(made)


def _mark_as_ua(document: object, pdf: weasyprint.pdf.pydyf.PDF) -> None:
    """Write the mark of PDF/UA into the metadata that the variant PDF/A-3a has written."""
    metadata = pdf.objects[int(pdf.catalog["Metadata"].split()[0])]
    text = b"".join(
        part if isinstance(part, bytes) else part.encode() for part in metadata.stream
    )
    metadata.stream = [text.replace(b"</rdf:RDF>", UA_MARK)]


@cache
def _assets() -> dict[str, Path]:
    return {
        f"asset:{path.relative_to(ASSETS).as_posix()}": path
        for path in ASSETS.rglob("*")
        if path.suffix in KINDS
    }


@cache
def _fetcher() -> PaperFetcher:
    return PaperFetcher(allowed_protocols=("data", "asset"), allow_redirects=False)


@cache
def _fonts() -> FontConfiguration:
    return FontConfiguration()


@cache
def _stylesheet(name: str) -> weasyprint.CSS:
    css = (ASSETS / name).read_text(encoding="utf-8")
    return weasyprint.CSS(string=css, url_fetcher=_fetcher(), font_config=_fonts())
