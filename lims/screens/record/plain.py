"""The words in which the record names things and fields to a reader, and what stands only under everything that was written."""

from lims.record.telling import Told

SIGNATURE = "record.Signature"
VERDICT = "decisions.FrozenVerdict"

KINDS = {
    VERDICT: "signed line",
    "batches.HeldAgainst": "specification",
    "batches.RetainException": "decision without a retain",
    "bench.Determination": "set",
    "bench.ReportedValue": "reported value",
    "certificates.Allotment": "packs for an order",
    "certificates.CertificateRevision": "revision of the certificate",
    "people.RoleGiven": "role",
    "products.Revision": "specification",
}

# The name of a field in its table stands before the name that it has anywhere.
WORDS = {
    ("batches.HeldAgainst", "revision"): "held against",
    ("batches.Sample", "place"): "taken from",
    ("batches.Sample", "detail"): "where exactly",
    ("bench.Determination", "place"): "number of the set",
    ("bench.Determination", "reported"): "value of the set",
    ("bench.Determination", "says"): "the set",
    ("bench.ReportedValue", "says"): "how",
    ("bench.Test", "characteristic"): "test",
    ("certificates.CertificateRevision", "data"): "fingerprint of the data",
    ("decisions.Decision", "alone reason"): "decided alone because",
    ("methods.Characteristic", "place"): "place in lists",
    ("record.Signature", "about kind"): "signed about",
    ("record.Signature", "about key"): "its number",
    ("record.Signature", "content"): "fingerprint of what was signed",
    ("record.Signature", "content hash"): "the same, as kept",
    ("", "asks"): "still asked",
    ("", "bars"): "why it cannot count",
    ("", "comparing"): "compared by",
    ("", "counts"): "counts for its lot",
    ("", "edition"): "method",
    ("", "elsewhere"): "in other languages",
    ("", "is complete"): "complete",
    ("", "is active"): "may sign in",
    ("", "is fit"): "fit for use",
    ("", "is given back"): "given back",
    ("", "is own"): "the product's own",
    ("", "is required"): "asked for by the specification",
    ("", "is signed"): "written with its sign",
    ("", "is withdrawn"): "withdrawn",
    ("", "mass kg"): "mass, kg",
    ("", "nlgi aim"): "NLGI grade aimed at",
    ("", "only"): "the one site",
    ("", "pack count"): "packs",
    ("", "pack kg"): "mass of a pack, kg",
    ("", "parts"): "worked out of it",
    ("", "sequence"): "running number",
    ("", "sha256"): "fingerprint of the file",
    ("", "slot"): "box",
    ("", "sources"): "made from",
    ("", "text"): "as typed",
    ("", "why not"): "why it does not count",
}

# Follows from the rest, or only a program needs it.
FOLDED = {
    ("batches.HeldAgainst", "is own"),
    ("bench.Determination", "place"),
    ("bench.Determination", "test"),
    ("bench.Determination", "value"),
    ("bench.ReportedValue", "test"),
    ("bench.ReportedValue", "value"),
    ("bench.Test", "due at"),
    ("bench.Test", "edition"),
    ("bench.Test", "sample"),
    ("certificates.Certificate", "allotment"),
    ("certificates.Certificate", "sequence"),
    ("certificates.Certificate", "site"),
    ("certificates.Certificate", "year"),
    ("certificates.CertificateRevision", "certificate"),
    ("certificates.CertificateRevision", "decision"),
    ("certificates.CertificateRevision", "file"),
    ("decisions.Decision", "disposition"),
    ("instruments.Instrument", "due on"),
    ("methods.Characteristic", "place"),
    ("", "asks"),
    ("", "is complete"),
    ("", "is required"),
    ("", "only"),
    ("", "parts"),
    ("", "sha256"),
    ("", "signature"),
    ("", "sources"),
    ("", "state since"),
    ("", "version"),
}


def words_of(one: Told) -> str:
    """A field as a reader calls it."""
    return WORDS.get((one.model, one.field)) or WORDS.get(("", one.field), one.field)


def is_folded(one: Told) -> bool:
    """Whether a difference stands only under everything that was written."""
    if one.model in (SIGNATURE, VERDICT):
        return True
    is_first = one.field in ("state", "password") and one.before is None
    return is_first or not FOLDED.isdisjoint({(one.model, one.field), ("", one.field)})
