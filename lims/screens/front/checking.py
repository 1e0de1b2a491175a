"""The check page: whoever holds a paper looks up whether it is genuine, without signing in."""

import re
import unicodedata
from dataclasses import replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from lims.certificates.data import CertificateData
from lims.certificates.models import CertificateRevision
from lims.certificates.queries import by_code
from lims.documents.finding import finding_words
from lims.documents.words import Words
from lims.record import clock
from lims.screens.access import open_to_all
from lims.screens.front.check_words import BOOKS
from lims.screens.results import in_fours, product_words, shown_table
from lims.screens.zone import site, zone
from lims.wording.dates import day_time
from lims.wording.languages import LANGUAGES, Language, known

State = CertificateRevision.State
LONGEST = 64  # of a typed code that is looked up at all
MISREAD = str.maketrans("ILO", "110")
STATES = {  # state: the word of its mark, the tone
    State.CURRENT: ("genuine and current", "good"),
    State.SUPERSEDED: ("superseded", "care"),
    State.WITHDRAWN: ("withdrawn", "bad"),
}


@require_safe
@open_to_all
def ask(request: HttpRequest) -> HttpResponse:
    """The form for a code that is typed."""
    code = canonical(request.GET.get("code", ""))
    if code:
        return redirect("front:check-code", code=code)
    language = _language(request)
    context = _shared(language)
    return _told_to_nobody(render(request, "front/check_ask.html", context))


@require_safe
@open_to_all
def check(request: HttpRequest, code: str) -> HttpResponse:
    """What the code stands for. Whatever is not known gets one and the same answer."""
    issued = by_code(canonical(code))
    if issued is None:
        context = _shared(_language(request))
        page = render(request, "front/check_unknown.html", context, status=404)
    else:
        page = render(request, "front/check.html", _known(request, issued))
    return _told_to_nobody(page)


def canonical(typed: str) -> str:
    """A code as it is kept, however typed: I and L are read as 1, O as 0."""
    plain = unicodedata.normalize("NFKC", typed[: 4 * LONGEST]).upper()
    return re.sub(r"[^0-9A-Z]", "", plain).translate(MISREAD)[:LONGEST]


def _language(request: HttpRequest, usual: str = "") -> Language:
    """The language asked for, else the certificate's, else the site's."""
    here = site()
    asked = request.GET.get("language", "")
    if asked in LANGUAGES:
        return known(asked)
    return known(usual or (here.language if here else "en"))


def _shared(language: Language) -> dict[str, Any]:
    """What every answer of this page shows; nothing of it depends on the code."""
    here = site()
    says = dict(BOOKS[language])
    says["unknown_more"] = says["unknown_more"].format(site=here.name if here else "")
    return {"says": says, "language": language, "languages": LANGUAGES}


def _known(request: HttpRequest, issued: CertificateRevision) -> dict[str, Any]:
    data = CertificateData.from_json(issued.data)
    language = _language(request, data.language)
    data = replace(data, language=language)
    words = Words.of(language)
    state = State(issued.state)
    word, tone = STATES[state]
    shared = _shared(language)
    says = shared["says"]
    return shared | {
        "data": data,
        "product": product_words(data.product),
        "state": state.value,
        "word": word,
        "tone": tone,
        "told": says[state.value],
        "told_more": _told_more(issued, says),
        "finding": finding_words(data),
        "words": words.phrases,
        "specification": words.specification(data.specification),
        "table": shown_table(data.rows, words),
        "issued": words.moment(data.issued_at),
        "signed": [_signed(each, words, says) for each in data.signatures],
        "looked_up": day_time(clock.now(), zone(), language),
        "sha256": issued.sha256,
        "fingerprint": in_fours(issued.sha256),
    }


def _signed(signed: Any, words: Words, says: dict[str, str]) -> str:
    """The function of who authorised, and the day: never the name."""
    on = says["signed_on"].format(day=words.issued_on(signed.at))
    return f"{words.label(signed.function)}, {on}"


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
