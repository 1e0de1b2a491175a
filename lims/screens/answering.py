"""A page with a form: shown, answered, or shown again with the refusal and all that was typed."""

from collections.abc import Callable, Mapping
from typing import Any

from django.forms import Form
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from lims.record.refusals import Refusal
from lims.screens.batches.answers import see_other, take_refusal

Given = dict[str, Any]
Act = Callable[[Given], str]  # does what was asked and says where to go on
Told = Callable[[], Mapping[str, Any]]  # the page as it stands now


def answer(
    request: HttpRequest, template: str, form: Form, act: Act, told: Told
) -> HttpResponse:
    """Do what a form asks; the page is put together only when it is shown."""
    status = 200
    if request.method == "POST":
        status = 422
        if form.is_valid():
            try:
                return see_other(act(dict(form.cleaned_data)))
            except Refusal as refusal:
                status = take_refusal(form, refusal)
    context = told()
    if status == 409 and "version" in form.fields and "version" in context:
        _look_again(form, context["version"])
    return render(request, template, {"form": form, **context}, status=status)


def _look_again(form: Form, version: int) -> None:
    """The page shows the thing as it is now, so the form may be sent again from there."""
    form.data = dict(form.data.items()) | {form.add_prefix("version"): str(version)}
