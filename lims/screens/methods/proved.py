"""The proof of the arithmetic: every calculation, the source of its formula, its known answers; and the report to sign."""

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.documents.proof import finding, print_proof, told
from lims.methods.known_answers import arithmetic_fingerprint, shipped
from lims.people.queries import site_zone, the_site
from lims.record.clock import now
from lims.screens.access import staff
from lims.wording.numbers import counts


@require_safe
@staff
def show_all(request: HttpRequest) -> HttpResponse:
    proof = shipped()
    context = {
        "answer": _answer(),
        "rows": proof.listed,
        "arithmetic": arithmetic_fingerprint(),
        "cases": proof.cases_fingerprint,
    }
    return render(request, "methods/proved.html", context)


@require_safe
@staff
def show_one(request: HttpRequest, name: str) -> HttpResponse:
    """One calculation with each of its cases."""
    it = next((row for row in shipped().listed if row.name == name), None)
    if it is None:
        raise Http404
    cases = [
        {
            "case": case,
            "expected": told(case.expected),
            "got": told(case.error or case.got),
        }
        for case in shipped().results
        if case.calculation == name
    ]
    context: dict[str, Any] = {"it": it, "cases": cases}
    return render(request, "methods/proved_one.html", context)


@require_safe
@staff
def report(request: HttpRequest) -> HttpResponse:
    """The dated report, to be printed and signed."""
    site = the_site()
    content = print_proof(
        shipped(), at=now(), zone=site_zone(), site=f"{site.name}, {site.laboratory}"
    )
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = 'inline; filename="proof-of-the-arithmetic.pdf"'
    return response


def _answer() -> str:
    proof = shipped()
    agree = len(proof.results) - proof.failed
    count = f"{counts(agree)} of {counts(len(proof.results))} known answers agree"
    return f"{count}. {finding(proof)}"
