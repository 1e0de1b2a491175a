"""A certificate's data, composed and printed."""

from lims.certificates.data import CertificateData, Fact
from lims.documents.finding import finding_words
from lims.documents.pages import page, qr
from lims.documents.rows import table_of
from lims.documents.statement import statement_of
from lims.documents.words import Words, capital, held

ADDRESS_ON_ONE_LINE = 36  # characters that fit beside the QR code
HEAD_DIGITS = 16


def print_certificate(data: CertificateData) -> bytes:
    """The certificate's PDF; equal data give equal bytes."""
    if data.is_preview:
        raise ValueError("A certificate has a number; this is a preview.")
    return _rendered(data)


def print_preview(data: CertificateData) -> bytes:
    """The PDF of a preview, marked as such across every page."""
    if not data.is_preview:
        raise ValueError("A preview has no number; this is a certificate.")
    return _rendered(data)


def _rendered(data: CertificateData) -> bytes:
    from lims.documents.pdf import render  # late: it takes half a second

    return render(as_html(data), data)


def as_html(data: CertificateData) -> str:
    """The page that is printed."""
    words = Words.of(data.language)
    return page(
        "certificate/certificate.html",
        {
            "data": data,
            "words": words.phrases,
            **_names(data, words),
            **_head(data, words),
            "facts": _facts(data, words),
            "finding": finding_words(data),
            "table": table_of(data.rows, words),
            "typical": _typical(data, words),
            "specification": words.specification(data.specification),
            "statement": statement_of(data, words),
            "signatures": _signatures(data, words),
            "record": _record(data, words),
        },
    )


def _names(data: CertificateData, words: Words) -> dict[str, str]:
    """What the paper calls itself: in its title, its margins and the PDF's properties."""
    lot_words = (
        f"{data.product.code}, {words['batch']} {data.batch}, {words['lot']} {data.lot}"
    )
    if data.language == "en" and data.lot_words:
        lot_words = data.lot_words
    moment = words.moment(data.issued_at)
    if data.is_preview:
        name, ident = words["preview"], ""
        lead = words["preview_running"]
        running = f"{lead} · {lot_words} · {words['printed']} {moment}"
    else:
        name = words["title"]
        ident = f"{data.number}, {words['revision']} {data.revision}"
        running = f"{ident} · {lot_words}"
    return {
        "name": name,
        "ident": ident,
        "title": f"{name} {ident}".strip(),
        "running": running,
        "about": lot_words,
        "sheet": _sheet(data),
    }


def _sheet(data: CertificateData) -> str:
    """The class that picks the page of the stylesheet: state, language where drawn, size."""
    state = "preview" if data.is_preview else ""
    language = data.language if state and data.language != "en" else ""
    size = "letter" if data.paper == "letter" else ""
    return "-".join(part for part in (state, language, size) if part)


def _head(data: CertificateData, words: Words) -> dict[str, object]:
    name, code = data.product.name, data.product.code
    head: dict[str, object] = {
        "product": name if name.startswith(code) else f"{code} {name}",
        "issued": words.issued_on(data.issued_at),
    }
    if data.code is not None:
        address = data.check_root + data.code
        head |= {
            "address": address,
            "address_is_long": len(data.check_root) > ADDRESS_ON_ONE_LINE,
            "code_groups": _groups(data.code),
            "qr": qr(address),
        }
    return head


def _groups(code: str) -> list[str]:
    """The code in fives, the last a six: as it is read aloud."""
    return [code[at : at + 5] for at in range(0, 20, 5)] + [code[20:]]


def _facts(
    data: CertificateData, words: Words
) -> list[tuple[str, list[tuple[str, str]]]]:
    """The three small tables: item, dates, customer; those without a row are left out."""

    def shown(facts: tuple[Fact, ...]) -> list[tuple[str, str]]:
        return [(words.label(fact.label), held(fact.value)) for fact in facts]

    days = [
        (words.label(each.label), words.days(each.first_day, each.last_day))
        for each in data.dates
    ]
    tables = (
        (words["item"], shown(data.item)),
        (words["dates"], days),
        (words["customer"], shown(data.customer)),
    )
    return [table for table in tables if table[1]]


def _typical(data: CertificateData, words: Words) -> str:
    if not data.typical:
        return ""
    values = words["then"].join(
        f"{fact.label} {words.value(fact.value)}" for fact in data.typical
    )
    return held(f"{capital(values)}. {words['typical_note']}")


def _signatures(data: CertificateData, words: Words) -> list[dict[str, str]]:
    return [
        {
            "name": signed.name,
            "function": words.functions(signed.function),
            "meaning": words.say("meaning", meaning=words.label(signed.meaning)),
            "moment": words.moment(signed.at, signed.zone),
        }
        for signed in data.signatures
    ]


def _record(data: CertificateData, words: Words) -> str:
    if data.record is None:
        return ""
    entries, head = data.record.entries, data.record.head[:HEAD_DIGITS]
    return words.counted("record", entries, entries=str(entries), head=head)
