"""The entries that this room writes, in words."""

from lims.record.words import register

register(
    {
        "packs_allotted": "Packs allotted",
        "packs_given_back": "Packs given back",
        "certificate_issued": "Certificate issued",
        "certificate_printed": "Certificate printed",
        "certificate_numbers_begun": "First number of the certificates set",
    }
)
