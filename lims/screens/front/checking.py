"""The check page: whoever holds a paper looks up whether it is genuine, without signing in."""

import re
import unicodedata
from dataclasses import replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from lims.certificates.data import CertificateData
from lims.certificates.models import CertificateRevision
from lims.certificates.queries import by_code
from lims.documents.finding import finding_words
from lims.documents.statement import statement_of
from lims.documents.words import Words
from lims.record import clock
from lims.screens.access import open_to_all
from lims.screens.results import in_fours, product_words, shown_table
from lims.screens.zone import site, zone
from lims.wording.catalogue.whole import CHECK, COUNTED_SHELVES
from lims.wording.languages import LANGUAGES, Language, known

State = CertificateRevision.State
LONGEST = 64  # of a typed text that is looked at at all
LENGTH = 26  # of a code
# A certificate's number as `canonical` leaves it; always shorter than a code.
NUMBER = re.compile(r"[0-9A-Z]{1,10}C2[0-9]{8,9}")
MISREAD = str.maketrans("ILO", "110")
STATES = {  # state: the word of its mark, the tone
    State.CURRENT: ("genuine and current", "good"),
    State.SUPERSEDED: ("superseded", "care"),
    State.WITHDRAWN: ("withdrawn", "bad"),
}


@require_safe
@open_to_all
def ask(request: HttpRequest) -> HttpResponse:
    """The form for a code that is typed; what cannot be a code stays in the box and is told."""
    typed = request.GET.get("code", "")
    code = canonical(typed)
    if len(code) == LENGTH:
        chosen = _chosen(request)
        to = reverse("front:check-code", args=[code])
        return redirect(f"{to}?language={chosen}" if chosen else to)
    return _asked(request, typed, 422) if typed.strip() else _asked(request, "", 200)


@require_safe
@open_to_all
def check(request: HttpRequest, code: str) -> HttpResponse:
    """What the code stands for. Every code that is not known gets one and the same answer."""
    if len(canonical(code)) != LENGTH:
        return _asked(request, code, 404)
    issued = by_code(canonical(code))
    if issued is None:
        context = _shared(request)
        page = render(request, "front/check_unknown.html", context, status=404)
    else:
        page = render(request, "front/check.html", _known(request, issued))
    return _told_to_nobody(page)


def _asked(request: HttpRequest, typed: str, status: int) -> HttpResponse:
    context = _shared(request)
    context["typed"] = typed[: 4 * LONGEST]
    context["wrong"] = (
        _why_no_code(typed, context["says"], context["language"]) if typed else ""
    )
    page = render(request, "front/check_ask.html", context, status=status)
    return _told_to_nobody(page)


def _why_no_code(typed: str, says: dict[str, str], language: Language) -> str:
    """What is amiss, from the typed text alone: nothing is looked up."""
    code = canonical(typed)
    if NUMBER.fullmatch(code):
        return says["is_number"]
    if len(code) > LENGTH:
        return says["too_long"]
    told = COUNTED_SHELVES["check"]["too_short"].into(len(code), language)
    return told.format(n=len(code))


def canonical(typed: str) -> str:
    """A code as it is kept, however typed: I and L are read as 1, O as 0."""
    plain = unicodedata.normalize("NFKC", typed[: 4 * LONGEST]).upper()
    return re.sub(r"[^0-9A-Z]", "", plain).translate(MISREAD)[:LONGEST]


def _chosen(request: HttpRequest) -> str:
    """The language asked for; empty when none is."""
    asked = request.GET.get("language", "")
    return asked if asked in LANGUAGES else ""


def _shared(request: HttpRequest, usual: str = "") -> dict[str, Any]:
    """What every answer of this page shows, in the language asked for, else the certificate's, else the site's; nothing else of it depends on the code."""
    here = site()
    chosen = _chosen(request)
    language = known(chosen or usual or (here.language if here else "en"))
    says = {key: said.into(language) for key, said in CHECK.items()}
    says["unknown_more"] = says["unknown_more"].format(site=here.name if here else "")
    return {
        "says": says,
        "language": language,
        "languages": LANGUAGES,
        "chosen": chosen,
    }


def _known(request: HttpRequest, issued: CertificateRevision) -> dict[str, Any]:
    data = CertificateData.from_json(issued.data)
    shared = _shared(request, data.language)
    says, language = shared["says"], shared["language"]
    words, of_paper = Words.of(language), Words.of(data.language)
    state = State(issued.state)
    word, tone = STATES[state]
    return shared | {
        "data": data,
        "product": product_words(data.product),
        "state": state.value,
        "word": word,
        "tone": tone,
        "told": says[state.value],
        "told_more": _told_more(issued, says),
        "finding": finding_words(replace(data, language=language)),
        "words": of_paper.phrases,
        "specification": of_paper.specification(data.specification),
        "table": shown_table(data.rows, of_paper),
        "statement": statement_of(data, of_paper)[0],
        "issued": words.moment(data.issued_at),
        "signed": [_signed(each, words, says) for each in data.signatures],
        "looked_up": words.moment(clock.now().astimezone(zone()).isoformat()),
        "sha256": issued.sha256,
        "fingerprint": in_fours(issued.sha256),
    }


def _signed(signed: Any, words: Words, says: dict[str, str]) -> str:
    """The function of who authorised, and the day: never the name."""
    on = says["signed_on"].format(day=words.issued_on(signed.at))
    return f"{words.functions(signed.function)}, {on}"


def _told_more(issued: CertificateRevision, says: dict[str, str]) -> str:
    if issued.state != State.SUPERSEDED:
        return says[f"{issued.state}_more"]
    newer = (
        CertificateRevision.objects.filter(
            certificate=issued.certificate_id, revision__gt=issued.revision
        )
        .order_by("-revision")
        .values_list("revision", flat=True)
        .first()
    )
    if newer is None:
        return says["superseded_bare"]
    return says["superseded_more"].format(revision=newer)


def _told_to_nobody(response: HttpResponse) -> HttpResponse:
    """No index holds the page, no cache keeps it, no other site learns its address."""
    response["X-Robots-Tag"] = "noindex, nofollow"
    response["Referrer-Policy"] = "no-referrer"
    response["Cache-Control"] = "no-store"
    return response
