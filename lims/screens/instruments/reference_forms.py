"""What is typed about reference materials and their readings."""

from typing import Any

from django import forms

from lims.instruments.models import Instrument, ReferenceMaterial
from lims.instruments.reference_queries import materials_for
from lims.methods.models import Characteristic
from lims.people.days import today
from lims.screens.fields import DayField

SHORT = {"class": "short", "autocomplete": "off"}
TYPED = {**SHORT, "inputmode": "decimal"}


class ReadForm(forms.Form):
    """A set of readings of one material, a box each."""

    version = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(
        self, *args: Any, of: Instrument, material: ReferenceMaterial, **more: Any
    ) -> None:
        super().__init__(*args, **more)
        self.material = material
        found = [(it.pk, str(it)) for it in materials_for(of.kind, on=today())]
        self.fields["material"] = forms.TypedChoiceField(
            label="Material", choices=found, coerce=int, initial=material.pk
        )
        unit = material.characteristic.unit
        for place in range(1, material.count + 1):
            self.fields[f"reading_{place}"] = forms.CharField(
                label=f"Reading {place}",
                max_length=20,
                help_text=f"In {unit}" if unit else "",
                widget=forms.TextInput(
                    TYPED | ({"autofocus": True} if place == 1 else {})
                ),
                error_messages={"required": "Write what was read."},
            )

    @property
    def boxes(self) -> list[forms.BoundField]:
        return [self[key] for key in self.fields if key.startswith("reading_")]

    @property
    def texts(self) -> list[str]:
        return [
            self.cleaned_data[key] for key in self.fields if key.startswith("reading_")
        ]


class MaterialForm(forms.Form):
    """A reference material as its certificate says."""

    name = forms.CharField(
        label="Name", max_length=80, help_text="Such as reference grease"
    )
    lot = forms.CharField(label="Lot", max_length=40, widget=forms.TextInput(SHORT))
    kind = forms.CharField(
        label="Read on",
        max_length=40,
        help_text="The kind of instrument, written as in its list",
        widget=forms.TextInput({"list": "kinds"}),
    )
    characteristic = forms.ModelChoiceField(
        label="Characteristic", queryset=Characteristic.objects.all()
    )
    assigned = forms.CharField(
        label="Assigned value", max_length=20, widget=forms.TextInput(TYPED)
    )
    basis = forms.CharField(
        label="What the assigned value rests on",
        max_length=200,
        help_text="Certificate, round robin, or own readings",
    )
    deviation = forms.CharField(
        label="Site standard deviation",
        required=False,
        max_length=20,
        help_text="Empty: taken from the readings on each instrument once there are 15",
        widget=forms.TextInput(TYPED),
    )
    deviation_basis = forms.CharField(
        label="What the standard deviation rests on",
        required=False,
        max_length=200,
        help_text="Needed when one is written",
    )
    count = forms.IntegerField(
        label="Readings in a set", initial=3, widget=forms.TextInput(SHORT)
    )
    every_days = forms.IntegerField(
        label="Read every so many days",
        initial=7,
        help_text="1 for each day of use",
        widget=forms.TextInput(SHORT),
    )
    expires_on = DayField(
        label="Expires on",
        widget=forms.DateInput({"type": "date", "class": "short"}, format="%Y-%m-%d"),
    )
