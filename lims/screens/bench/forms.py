"""What the bench sends: one box, a set put aside, a time corrected, a test to add."""

import datetime as dt
import re

from django import forms

from lims.bench.rules import NeedsReason, TypeAgain
from lims.bench.typed import moment_of
from lims.products.models import Requirement
from lims.record.refusals import BadInput

REASONS = (
    ("", "choose"),
    ("typing slip", "typing slip"),
    ("read again", "read again"),
    ("wrong sample", "wrong sample"),
    ("other", "other"),
)
OTHER = "other"
FIGURES = re.compile(r"(\d{2})(\d{2})(\d{2})?")


class BoxForm(forms.Form):
    """One box; its prefix is the key of the reading or condition."""

    text = forms.CharField(required=False)
    again = forms.CharField(required=False)
    reason = forms.CharField(required=False)
    why = forms.CharField(required=False, max_length=200)

    @property
    def text_typed(self) -> str:
        self.is_valid()
        return str(self.cleaned_data.get("text", ""))

    @property
    def again_typed(self) -> str:
        self.is_valid()
        return str(self.cleaned_data.get("again", ""))

    @property
    def chosen(self) -> str:
        self.is_valid()
        return str(self.cleaned_data.get("reason", ""))

    @property
    def why_typed(self) -> str:
        self.is_valid()
        return str(self.cleaned_data.get("why", ""))

    @property
    def reason_told(self) -> str:
        """The reason in words: the choice, or what was written beside it."""
        chosen, why = self.chosen, self.why_typed
        if chosen in ("", OTHER):
            return why
        return f"{chosen}: {why}" if why else chosen


class AsideForm(forms.Form):
    """Why a set is put aside; `place` is the set that was seen."""

    place = forms.IntegerField(widget=forms.HiddenInput)
    reason = forms.CharField(
        label="What was seen?",
        required=False,
        max_length=300,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )


class CorrectForm(forms.Form):
    """Another text for something that an earlier set holds, with the reason."""

    key = forms.ChoiceField(label="What was typed wrongly")
    text = forms.CharField(
        label="Right value",
        required=False,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )
    reason = forms.CharField(
        label="Reason",
        required=False,
        max_length=300,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )
    again = forms.CharField(required=False, widget=forms.HiddenInput)
    again_asked = ""  # what was typed and is to be typed once more

    def __init__(self, choices: list[tuple[str, str]], data: object = None) -> None:
        super().__init__(data)  # type: ignore[arg-type]
        self.fields["key"].choices = choices  # type: ignore[attr-defined]

    def refuse(self, refusal: BadInput) -> None:
        """Beside its field; what is implausible is asked for a second time."""
        is_reason = isinstance(refusal, NeedsReason)
        self.again_asked = (
            self.cleaned_data["text"] if isinstance(refusal, TypeAgain) else ""
        )
        self.add_error("reason" if is_reason else "text", refusal.sentence)


class TimeForm(forms.Form):
    """Another time for a saved reading, with the reason."""

    slot = forms.CharField()
    read_at = forms.CharField(required=False)
    reason = forms.CharField(required=False, max_length=300)


class AddTestForm(forms.Form):
    """A periodic test to be made on this sample."""

    characteristic = forms.ChoiceField(label="Test")

    def __init__(self, lines: list[Requirement], data: object = None) -> None:
        super().__init__(data)  # type: ignore[arg-type]
        self.lines = {line.characteristic.code: line for line in lines}
        field = self.fields["characteristic"]
        field.choices = [  # type: ignore[attr-defined]
            (code, line.characteristic.in_full) for code, line in self.lines.items()
        ]

    @property
    def chosen(self) -> Requirement:
        return self.lines[self.cleaned_data["characteristic"]]


def as_time(text: str) -> str:
    """Figures alone are a time of day: ``085210`` is 08:52:10. Other text stays as it is."""
    found = FIGURES.fullmatch(text.strip())
    if found is None:
        return text
    return ":".join(part for part in found.groups() if part)


def moment_typed(text: str) -> dt.datetime | None:
    """The time of a reading that was not read just now; nothing typed means now. Raises BadInput."""
    text = text.strip()
    return moment_of(as_time(text), field="read_at") if text else None


def time_needed(text: str) -> dt.datetime:
    """A time that must be there. Raises BadInput."""
    moment = moment_typed(text)
    if moment is None:
        raise BadInput("Write when it was read.", field="read_at")
    return moment
