"""What narrows the record, and the head that was taken out of the house."""

from typing import Any

from django import forms

from lims.record import queries
from lims.record.words import VERBS
from lims.screens.fields import DayField, WholeNumberField


class FilterForm(forms.Form):
    """Which entries the page shows."""

    about = forms.CharField(
        label="Lot, sample, certificate or other name",
        required=False,
        max_length=80,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )
    person = forms.ChoiceField(label="By", required=False)
    verb = forms.ChoiceField(label="Done", required=False)
    day = DayField(
        label="Day",
        required=False,
        widget=forms.DateInput(
            attrs={"placeholder": "2026-03-31", "autocomplete": "off"},
            format="%Y-%m-%d",
        ),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        names = [
            (account, f"{name} ({account})") for account, name in queries.authors()
        ]
        verbs = sorted(VERBS.items(), key=lambda it: it[1])
        self.fields["person"].choices = [("", "everybody"), *names]  # type: ignore[attr-defined]
        self.fields["verb"].choices = [("", "everything"), *verbs]  # type: ignore[attr-defined]


class HeadForm(forms.Form):
    """An entry number and the head that was noted with it."""

    seq = WholeNumberField(
        label="Entry",
        required=False,
        min_value=1,
        error_messages={"invalid": "Write the number of the entry, such as 18702."},
    )
    head = forms.CharField(
        label="Its head",
        required=False,
        max_length=100,
        help_text="At least its first 8 signs",
        widget=forms.TextInput(attrs={"class": "code", "autocomplete": "off"}),
    )

    def clean_head(self) -> str:
        head = "".join(str(self.cleaned_data["head"]).split()).lower()
        if head and (len(head) < 8 or set(head) - set("0123456789abcdef")):
            raise forms.ValidationError(
                "A head has the signs 0 to 9 and a to f: write at least the first 8."
            )
        return head

    def clean(self) -> dict[str, Any]:
        given = super().clean() or self.cleaned_data
        if (
            "head" in given
            and "seq" in given
            and bool(given["head"]) != bool(given["seq"])
        ):
            missing = "seq" if given["head"] else "head"
            self.add_error(missing, "Write both, or neither.")
        return given
