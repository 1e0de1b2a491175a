"""What is typed about instruments; cleaned to what the actions take."""

import datetime as dt
from typing import Any

from django import forms

from lims.instruments.models import Instrument
from lims.people.days import today
from lims.screens.fields import DayField
from specs.control.kinds import kind_of

FIT, UNFIT = "fit", "unfit"
DAY = forms.DateInput(attrs={"type": "date", "class": "short"}, format="%Y-%m-%d")


def proposed_due(row: Instrument) -> dt.date | None:
    """When the next check is due if it is done today, by the interval that its kind starts from."""
    kind = kind_of(row.kind)
    return today() + dt.timedelta(days=kind.days) if kind and kind.days else None


class NewForm(forms.Form):
    """One instrument as its plate says."""

    number = forms.CharField(
        label="Number",
        max_length=20,
        help_text="As on its plate, such as PEN-02",
        widget=forms.TextInput(attrs={"class": "short", "autocomplete": "off"}),
        error_messages={"required": "Write the number that is on its plate."},
    )
    kind = forms.CharField(
        label="What it is",
        max_length=40,
        help_text="Written as for the others of its kind: the bench offers it by this",
        widget=forms.TextInput(attrs={"list": "kinds"}),
        error_messages={"required": "Say what it is, such as penetrometer."},
    )
    note = forms.CharField(
        label="Note",
        required=False,
        max_length=200,
        help_text="If there is one to make",
    )


class CheckForm(forms.Form):
    """A check: when, what was found, whether it may be used."""

    done_on = DayField(label="Day of the check", widget=DAY)
    found = forms.CharField(
        label="What was found",
        max_length=200,
        help_text="The reading and what it was held against, such as 286.7 on the reference grease, assigned 286",
        error_messages={"required": "Say what was found."},
    )
    is_fit = forms.ChoiceField(
        label="May it be used?",
        widget=forms.RadioSelect,
        choices=[(FIT, "Fit for use"), (UNFIT, "Not fit")],
        error_messages={"required": "Say whether it is fit for use."},
    )
    due_on = DayField(
        label="Next check by",
        required=False,
        widget=DAY,
        help_text="Needed when it is fit; after that day it is overdue",
    )
    version = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["done_on"].initial = today
        self.fields["is_fit"].notes = {  # type: ignore[attr-defined]
            FIT: "An instrument out of service stays out until it is put back.",
            UNFIT: "It is out of service at once. Readings on it are kept, but no verdict rests on them.",
        }

    def clean_is_fit(self) -> bool:
        return bool(self.cleaned_data["is_fit"] == FIT)


class ReasonForm(forms.Form):
    """Why an instrument changes its state."""

    reason = forms.CharField(
        label="Reason",
        max_length=200,
        help_text="Shown beside the instrument, kept for good",
        error_messages={"required": "Say why, in a few words."},
    )
    version = forms.IntegerField(widget=forms.HiddenInput)
