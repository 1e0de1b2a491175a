"""What is sent about the curve of a run: its file, and whether it stands."""

from typing import Any

from django import forms

from lims.bench import traces
from lims.bench.rules import NeedsReason
from lims.record.refusals import BadInput

NOTHING_CHOSEN = (
    "Choose the file of the curve: two columns as text, time in minutes and signal."
)
CHOOSE_AGAIN = "Nothing is saved, and a page does not keep a file: choose it again."


def _why() -> forms.CharField:
    return forms.CharField(
        label="Reason",
        required=False,
        max_length=300,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )


class TraceForm(forms.Form):
    """The file that an instrument wrote, and why it takes the place of another."""

    trace = forms.FileField(
        label="File",
        allow_empty_file=True,  # what is in it is the action's to judge
        error_messages={"required": NOTHING_CHOSEN},
    )
    reason = _why()

    def clean_trace(self) -> Any:
        """Refuse by size before anything is read."""
        found = self.cleaned_data["trace"]
        try:
            traces.check_size(found.size or 0)
        except BadInput as refusal:
            raise forms.ValidationError(refusal.sentence) from refusal
        return found

    def refuse(self, refusal: BadInput) -> None:
        """Beside its field; a file has to be chosen anew whatever was wrong."""
        if refusal.field == "reason":
            self.add_error("reason", refusal.sentence)
            self.add_error("trace", CHOOSE_AGAIN)
        else:
            self.add_error("trace", refusal.sentence)


class CurveForm(forms.Form):
    """What a person says of a curve; `seen` is the print of the picture that was shown."""

    place = forms.IntegerField(widget=forms.HiddenInput)
    seen = forms.CharField(required=False, max_length=40, widget=forms.HiddenInput)
    answer = forms.CharField(required=False, max_length=20)
    reason = _why()

    def refuse(self, refusal: BadInput) -> None:
        is_reason = isinstance(refusal, NeedsReason) or refusal.field == "reason"
        self.add_error("reason" if is_reason else "answer", refusal.sentence)
