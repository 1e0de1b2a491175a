"""A form that met somebody else's change shows the thing as it is now, and may be sent again from there."""

from django import forms
from django.test import RequestFactory

from lims.record.refusals import BadInput, ChangedSince
from lims.screens import answering


class ThingForm(forms.Form):
    text = forms.CharField()
    version = forms.IntegerField()


def answered(monkeypatch, act, data):
    monkeypatch.setattr(
        answering,
        "render",
        lambda request, template, context, status: (context, status),
    )
    form = ThingForm(data)
    request = RequestFactory().post("/", data)
    return answering.answer(request, "x.html", form, act, lambda: {"version": 7})


def test_what_was_done_leads_on(monkeypatch):
    response = answered(
        monkeypatch, lambda given: "/done/", {"text": "a", "version": "1"}
    )

    assert (response.status_code, response.url) == (303, "/done/")


def test_a_change_by_somebody_else_keeps_the_text_and_takes_the_new_version(
    monkeypatch,
):
    def act(given):
        raise ChangedSince("It was changed.")

    context, status = answered(monkeypatch, act, {"text": "a", "version": "1"})

    assert status == 409
    assert context["form"]["text"].value() == "a"
    assert context["form"]["version"].value() == "7"


def test_a_refused_box_keeps_the_version_that_was_seen(monkeypatch):
    def act(given):
        raise BadInput("Another text.", field="text")

    context, status = answered(monkeypatch, act, {"text": "a", "version": "1"})

    assert status == 422
    assert context["form"].errors["text"] == ["Another text."]
    assert context["form"]["version"].value() == "1"
