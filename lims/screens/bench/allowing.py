"""Letting a reading count that was made on an instrument not in service: the page with the reason."""

from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from lims.bench.actions.allowing import allow_use
from lims.bench.models import Condition
from lims.people.permissions import Permission
from lims.screens.access import needs
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of


class AllowForm(forms.Form):
    """Why the reading may count."""

    reason = forms.CharField(
        label="Reason",
        max_length=300,
        help_text="Such as what was found when the instrument was checked",
        error_messages={"required": "Say why the reading may count."},
    )


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Permission.ALLOW_USES)
def allow(request: HttpRequest, number: str, code: str, key: int) -> HttpResponse:
    """Ask for the reason and let the set count; a refusal stands beside what was typed."""
    use = get_object_or_404(
        Condition.objects.select_related(
            "instrument", "determination__test__sample", "saved_by"
        ).exclude(instrument=None),
        pk=key,
        determination__test__sample__number=number,
        determination__test__characteristic__code=code,
    )
    form = AllowForm(request.POST if request.method == "POST" else None)

    def act(given: dict[str, Any]) -> str:
        allow_use(condition=use, **given, by=person_of(request))
        messages.success(request, f"The reading on {use.instrument} counts.")
        return reverse("bench:sample", args=[number]) + f"#t-{code}"

    def told() -> dict[str, Any]:
        return {"use": use, "test": use.determination.test}

    return answer(request, "bench/allow.html", form, act, told)
