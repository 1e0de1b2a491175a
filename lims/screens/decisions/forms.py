"""The one form of a decision: disposition, remark, password."""

from collections.abc import Mapping
from typing import Any

from django import forms

from lims.decisions.models import Decision

Disposition = Decision.Disposition
LABELS = {
    Disposition.RELEASE: "Release",
    Disposition.HOLD: "Hold",
    Disposition.END_HOLD: "End the hold",
}


class Dispositions(forms.RadioSelect):
    """Radio buttons of which some are closed."""

    closed: frozenset[str] = frozenset()

    def create_option(self, *args: Any, **kwargs: Any) -> dict[str, Any]:
        option = super().create_option(*args, **kwargs)
        if str(option["value"]) in self.closed:
            option["attrs"]["disabled"] = True
        return option


class SignForm(forms.Form):
    """What a person decides and signs. The password is never shown again."""

    disposition = forms.ChoiceField(
        label="Disposition",
        widget=Dispositions,
        error_messages={"required": "Choose what to decide."},
    )
    remark = forms.CharField(
        label="Remark",
        required=False,
        max_length=300,
        help_text="Needed for anything but release",
    )
    alone_reason = forms.CharField(
        label="Why you decide alone",
        required=False,
        max_length=300,
        help_text="You recorded readings of this lot; the record and the review will say so",
    )
    password = forms.CharField(
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
        error_messages={"required": "Type your password to sign."},
    )
    seen = forms.CharField(widget=forms.HiddenInput, max_length=64)
    stood = forms.IntegerField(widget=forms.HiddenInput, min_value=0, required=False)

    def __init__(
        self,
        data: Mapping[str, Any] | None = None,
        *,
        offered: Mapping[str, str],
        closed: frozenset[str],
        asks_alone: bool,
        name: str,
        **given: Any,
    ) -> None:
        super().__init__(data, **given)
        choice = self.fields["disposition"]
        choice.choices = [  # type: ignore[attr-defined]
            (key, LABELS[Disposition(key)]) for key in offered
        ]
        choice.notes = dict(offered)  # type: ignore[attr-defined]
        choice.widget.closed = closed
        self.fields["password"].label = f"Password of {name}"
        if not asks_alone:
            del self.fields["alone_reason"]
