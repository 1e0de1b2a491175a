"""Every address once: how it is asked, who may, and what each of them is answered. T technician, L laboratory manager, Q quality manager, C technologist, D despatch, A auditor, X administrator."""

from dataclasses import dataclass, field

ALL = "TLQCDAX"
SAMPLE, LOT, CODE = "Q1-26-0418-A-01", "Q1-26-0417-A", "worked-penetration"


@dataclass(frozen=True)
class Row:
    """Whoever is in `may` gets `answer`; every other role gets 403; a stranger is sent to sign in."""

    name: str
    may: str
    answer: int
    args: tuple[object, ...] = ()
    method: str = "get"
    data: dict[str, str] = field(default_factory=dict)
    public: bool = False
    stranger: int = 0  # what a stranger gets from a public page, when it differs


def reads(name, *args, answer=200):
    return Row(name, ALL, answer, args)


def posts(name, may, answer, *args, **data):
    return Row(name, may, answer, args, "post", data)


def asks(name, may, *args, answer=200, **data):
    return Row(name, may, answer, args, "get", data)


def public(name, answer, *args, method="get", stranger=0):
    return Row(name, ALL, answer, args, method, public=True, stranger=stranger)


FRONT = [
    reads("front:home"),
    public("front:sign-in", 302, stranger=200),
    public("front:sign-out", 303, method="post"),
    asks("front:password", ALL),
    public("front:invitation", 410, "none", "none"),
    reads("front:find"),
    public("front:help", 200),
    public("front:theme", 303, method="post"),
    reads("front:parts"),
    public("front:check", 200),
    public("front:check-code", 404, "0" * 26),
    public("front:check-code-slash", 404, "0" * 26),
]
BENCH = [
    reads("bench:list"),
    asks("bench:open", ALL, answer=302, code=SAMPLE),
    reads("bench:sample", SAMPLE),
    posts("bench:add-test", "TL", 409, SAMPLE),
    posts("bench:reading", "TL", 404, SAMPLE, CODE),
    posts("bench:condition", "TL", 404, SAMPLE, CODE),
    posts("bench:set", "TL", 303, SAMPLE, CODE),
    asks("bench:allow", "LQ", SAMPLE, CODE, 0, answer=404),
    posts("bench:correct", "TL", 404, SAMPLE, CODE, 1),
    posts("bench:aside", "TL", 409, SAMPLE, CODE),
    posts("bench:time", "TL", 404, SAMPLE, CODE),
    posts("bench:curve", "TL", 404, SAMPLE, CODE),
    posts("bench:curve-judge", "TL", 404, SAMPLE, CODE),
    reads("bench:curve-received", SAMPLE, CODE, 1, answer=404),
]
BATCHES = [
    reads("batches:list"),
    asks("batches:new", "TLC"),
    reads("batches:retains"),
    asks("batches:sample-new", "TL", lot=LOT),
    asks("batches:retain", "TL", SAMPLE),
    reads("batches:lot", LOT),
    asks("batches:without-retain", "LQ", LOT),
    reads("batches:batch", "Q1-26-0417"),
    asks("batches:new-lot", "TLC", "Q1-26-0417"),
]
DECISIONS = [
    reads("decisions:list"),
    reads("decisions:lot", LOT),
    posts("decisions:sign", "LQ", 422, LOT),
]
CERTIFICATES = [
    reads("certificates:list"),
    reads("certificates:can-leave"),
    asks("certificates:issue", "LQD"),
    asks("certificates:allot", "D", "Q1-26-0310-A"),
    asks("certificates:allotment", "LQD", "ALLOTMENT"),
    asks("certificates:preview", "LQD", "ALLOTMENT"),
    posts("certificates:issue-now", "LQD", 303, "ISSUED", language="en"),
    posts("certificates:give-back", "D", 422, "ALLOTMENT"),
    reads("certificates:one", "Q1-C-2026-00001"),
    posts("certificates:print", "LQD", 303, "Q1-C-2026-00001"),
    reads("certificates:pdf", "Q1-C-2026-00001", 0),
    reads("certificates:internal-copy", "Q1-C-2026-00001"),
    reads("certificates:internal-copy-of-lot", LOT),
]
TRENDS = [
    reads("trends:list"),
    reads("trends:product", "LX2"),
    reads("trends:one", "LX2", CODE),
    asks("trends:one", "LQ", "LX2", CODE, person="Tamsin Orlebar"),
    reads("trends:compare", "LX2", CODE),
]
SPECIFICATIONS = [
    reads("specifications:list"),
    asks("specifications:plan-new", "LC"),
    asks("specifications:product-new", "LC"),
    asks("specifications:product-change", "LC", "LX2"),
    asks("specifications:open-draft", "LC", "LX2"),
    reads("specifications:product", "LX2"),
    reads("specifications:customer-list"),
    asks("specifications:customer-new", "QD"),
    asks("specifications:customer-change", "QD", "TT"),
    reads("specifications:customer", "TT"),
    asks("specifications:symbols", ALL, symbol="KP2K-30"),
    reads("specifications:published-list"),
    reads("specifications:published", "NLGI 2"),
    reads("specifications:revision", "DRAFT"),
    reads("specifications:preview", "DRAFT"),
    asks("specifications:published-copy", "LC", "DRAFT"),
    asks("specifications:origin", "LC", "LINE"),
    asks("specifications:draft-change", "LC", "DRAFT"),
    asks("specifications:line-new", "LC", "DRAFT"),
    asks("specifications:approve", "Q", "DRAFT"),
    asks("specifications:line-change", "LC", "LINE"),
    posts("specifications:line-remove", "LC", 409, "LINE"),
]
METHODS = [
    reads("methods:proved"),
    reads("methods:proof-report"),
    reads("methods:proved-one", "judge"),
    reads("methods:list"),
    asks("methods:method-new", "LQC"),
    reads("methods:one", "METHOD"),
    asks("methods:edition-new", "LQC", "METHOD"),
    asks("methods:check-figures", "LQC", "EDITION"),
    asks("methods:figures-draft", "LQC", "EDITION"),
    reads("methods:figures", "FIGURES"),
    asks("methods:figure", "LQC", "FIGURES"),
    posts("methods:figure-remove", "LQC", 409, "FIGURES"),
    asks("methods:figures-approve", "QC", "FIGURES"),
    posts("methods:figures-discard", "LQC", 409, "FIGURES"),
    reads("methods:characteristic-list"),
    asks("methods:characteristic-new", "LQC"),
    reads("methods:characteristic", CODE),
    asks("methods:own-uncertainty", "QC", CODE),
]
INSTRUMENTS = [
    reads("instruments:list"),
    asks("instruments:new", "LQ"),
    reads("instruments:one", "PEN-01"),
    asks("instruments:check", "TL", "PEN-01"),
    posts("instruments:take-out", "LQ", 422, "PEN-01"),
    posts("instruments:put-back", "LQ", 422, "PEN-01"),
    posts("instruments:retire", "LQ", 422, "PEN-01"),
    reads("instruments:materials"),
    asks("instruments:material-new", "LQ"),
    reads("instruments:chart", "PEN-01"),
    asks("instruments:reference", "TL", "PEN-01"),
    reads("instruments:look-back", "PEN-01", answer=404),
]
IMPORTS = [
    reads("imports:list"),
    asks("imports:new", "TLQCD"),
    reads("imports:template", "history"),
    reads("imports:history", "HISTORY"),
    reads("imports:log", 1, answer=404),
    reads("imports:one", "WAITING"),
    reads("imports:progress", "WAITING"),
    asks("imports:file", "LQC", "WAITING"),
    asks("imports:columns", "LQC", "WAITING"),
    asks("imports:questions", "LQC", "WAITING"),
    asks("imports:cells", "LQC", "WAITING"),
    reads("imports:lines", "TAKEN"),
    asks("imports:lines", "LQC", "WAITING"),
    posts("imports:look", "LQC", 303, "WAITING"),
    posts("imports:reading", "LQC", 422, "WAITING"),
    posts("imports:take", "LQC", 422, "WAITING"),
    posts("imports:leave", "LQC", 422, "WAITING"),
    posts("imports:withdraw", "LQC", 422, "WAITING"),
]
RECORD = [
    reads("record:list"),
    reads("record:verify"),
    posts("record:verify", "LQA", 200),
    reads("record:archive"),
    posts("record:archive", "LQ", 200),
    reads("record:entry", 1),
    reads("record:about", "fill-lot", LOT),
]
SETUP = [
    reads("setup:list"),
    asks("setup:site", "X"),
    posts("setup:certificate-numbers", "X", 422),
    reads("setup:people"),
    asks("setup:person-new", "X"),
    reads("setup:person", "tech-a"),
    posts("setup:person-act", "X", 422, "tech-a", "deactivate"),
]
ROWS = [
    *FRONT,
    *BENCH,
    *BATCHES,
    *DECISIONS,
    *CERTIFICATES,
    *TRENDS,
    *SPECIFICATIONS,
    *METHODS,
    *INSTRUMENTS,
    *IMPORTS,
    *RECORD,
    *SETUP,
]
