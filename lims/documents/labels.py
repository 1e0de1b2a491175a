"""The label of a sample, 62 x 29 mm, whose QR code holds the sample number alone."""

from dataclasses import dataclass

from lims.documents.pages import page, qr
from lims.documents.words import Words
from lims.wording.languages import Language


@dataclass(frozen=True, slots=True, kw_only=True)
class SampleLabel:
    number: str
    product: str  # "LX2 lithium EP grease, NLGI 2"
    lot: str  # "Q1-26-0417 A"
    taken_on: str  # ISO
    language: Language = "en"


def print_label(label: SampleLabel) -> bytes:
    """The PDF of one label."""
    from lims.documents.pdf import pressed  # late: it takes half a second

    return pressed(label_html(label), "label.css", label.number)


def label_html(label: SampleLabel) -> str:
    """The page that is printed. A short code is a sturdy one: it types straight into the bench."""
    words = Words.of(label.language)
    return page(
        "certificate/label.html",
        {
            "label": label,
            "words": words.phrases,
            "taken": words.say("taken", day=words.day(label.taken_on)),
            "qr": qr(label.number, error="q"),
        },
    )
