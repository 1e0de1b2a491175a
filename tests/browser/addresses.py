"""Every place of the invented plant, by the account that looks at it; nobody is signed in for the empty account."""

from collections.abc import Callable

from django.urls import reverse

from lims.certificates.models import Allotment, CertificateRevision
from lims.imports.models import HistoryLine, Import
from lims.methods.models import FiguresRevision, Method
from lims.products.models import Revision
from lims.record.models import Entry


def to(name, *args, query=""):
    return reverse(name, args=args) + query


def not_known():
    """A code that no certificate has, and an address that no page has."""
    return [to("front:check-code", "0" * 26), "/nowhere/"]


def public():
    return [
        to("front:sign-in"),
        to("front:check"),
        to("front:check-code", CertificateRevision.objects.earliest("pk").code),
        *not_known(),
    ]


def technician():
    return [
        to("front:home"),
        to("bench:list"),
        to("bench:sample", "Q1-26-0417-A-01"),
        to("bench:sample", "Q1-26-0412-A-01"),
        to("bench:sample", "Q1-26-0413-A-01"),
        to("bench:sample", "Q1-26-0420-K-01"),
        to("batches:list"),
        to("batches:batch", "Q1-26-0417"),
        to("batches:lot", "Q1-26-0416-A"),
        to("batches:sample-new", query="?lot=Q1-26-0416-A"),
        to("batches:retain", "Q1-26-0418-A-01"),
        to("batches:retains"),
        to("batches:new"),
        to("batches:new-lot", "Q1-26-0420"),
        to("front:find", query="?q=0417"),
        to("front:find", query="?q=nothing"),
    ]


def manager():
    return [
        to("front:home"),
        to("bench:sample", "Q1-26-0411-A-01"),
        to("decisions:list"),
        to("decisions:lot", "Q1-26-0414-A"),
        to("decisions:lot", "Q1-26-0408-A"),
        to("decisions:lot", "Q1-26-0406-A"),
        to("trends:list"),
        to("trends:product", "LX2"),
        to("trends:one", "LX2", "worked-penetration"),
        to("trends:one", "CS2", "dropping-point-block"),
        to("trends:one", "LX2", "copper-strip", query="?along=batches"),
        to("imports:list"),
        to("imports:new"),
        to("imports:one", Import.objects.earliest("pk").pk),
        to("imports:lines", Import.objects.earliest("pk").pk),
        to("imports:history", HistoryLine.objects.earliest("pk").pk),
        to("record:archive"),
        to("instruments:list"),
        to("instruments:one", "PEN-01"),
        to("instruments:check", "PEN-01"),
        to("instruments:new"),
        to("front:help"),
        to("front:password"),
        to("front:parts"),
    ]


def despatch():
    issued = CertificateRevision.objects.earliest("pk").certificate
    given = Allotment.objects.latest("pk")
    return [
        to("front:home"),
        to("specifications:customer-new"),
        to("certificates:list"),
        to("certificates:can-leave"),
        to("certificates:one", issued.number),
        to("certificates:allot", "Q1-26-0406-A"),
        to("certificates:allotment", given.pk),
    ]


def technologist():
    revision = Revision.objects.earliest("pk")
    figures = FiguresRevision.objects.earliest("pk")
    return [
        to("front:home"),
        to("specifications:list"),
        to("specifications:product", "LX2"),
        to("specifications:revision", revision.pk),
        to("specifications:preview", revision.pk),
        to("specifications:published-list"),
        to("specifications:published", "ASTM D4950 GC-LB"),
        to("specifications:symbols", query="?symbol=KP2K-30"),
        to("specifications:customer-list"),
        to("specifications:customer", "TT"),
        to("specifications:product-new"),
        to("specifications:product-change", "LX2"),
        to("methods:list"),
        to("methods:one", Method.objects.earliest("pk").pk),
        to("methods:figures", figures.pk),
        to("methods:figures-draft", figures.edition_id),
        to("methods:check-figures", figures.edition_id),
        to("methods:characteristic-list"),
        to("methods:characteristic", "worked-penetration"),
        to("methods:own-uncertainty", "worked-penetration"),
    ]


def auditor():
    return [
        to("front:home"),
        to("record:list"),
        to("record:entry", Entry.objects.latest("seq").seq),
        to("record:about", "fill lot", "Q1-26-0406-A"),
        to("record:verify"),
    ]


def administrator():
    return [
        to("front:home"),
        to("setup:list"),
        to("setup:site"),
        to("setup:people"),
        to("setup:person", "tech-a"),
        to("setup:person-new"),
    ]


PAGES: dict[str, Callable[[], list[str]]] = {
    "": public,
    "tech-a": technician,
    "mgr-1": manager,
    "desk-1": despatch,
    "chem-1": technologist,
    "aud-1": auditor,
    "adm-1": administrator,
    "qm-1": lambda: [to("front:home")],
}
