"""What is typed about batches, fill lots, samples and retains; cleaned to what the actions take."""

from typing import Any

from django import forms

from lims.batches.models import FillLot, Sample
from lims.batches.rules import IN_PROCESS
from lims.products.models import Product
from lims.screens.fields import DayField, MomentField, WholeNumberField

DAY_LIKE = "Year, month, day: 2026-03-04"
TIME_LIKE = "Like 2026-03-04 14:10, or 14:10 for the last time the clock showed it"
NONE_CHOSEN = ("", "all of them")


def _short(**attrs: str) -> forms.TextInput:
    return forms.TextInput(attrs={"class": "short", "autocomplete": "off", **attrs})


class BatchForm(forms.Form):
    """One kettle charge."""

    number = forms.CharField(
        label="Number",
        max_length=20,
        help_text="The next of this year; change it when the plant numbered it otherwise",
        widget=_short(),
    )
    product = forms.ModelChoiceField(
        Product.objects.none(),
        label="Product",
        empty_label="choose",
        to_field_name="code",
        error_messages={"required": "Choose the product."},
    )
    kettle = forms.CharField(label="Kettle", max_length=10, widget=_short())
    mass_kg = forms.CharField(
        label="Mass, kg", max_length=12, widget=_short(inputmode="decimal")
    )
    charged_on = DayField(label="Charged on", help_text=DAY_LIKE)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["product"].queryset = Product.objects.all()  # type: ignore[attr-defined]
        self.fields["product"].label_from_instance = lambda it: f"{it.code}, {it.name}"  # type: ignore[attr-defined]


class FillLotForm(forms.Form):
    """One filling run of a batch."""

    pack = forms.CharField(
        label="Pack",
        max_length=20,
        help_text="One of them: drum, pail, cartridge, tote",
        widget=_short(),
    )
    pack_kg = forms.CharField(
        label="Mass of one pack, kg", max_length=10, widget=_short(inputmode="decimal")
    )
    pack_count = WholeNumberField(
        label="Packs filled",
        error_messages={"invalid": "Write how many packs were filled: a whole number."},
    )
    filled_at = MomentField(label="Filling ended", help_text=TIME_LIKE)
    leaves_on = DayField(
        label="Must leave on",
        required=False,
        help_text="If it is known, like 2026-03-09",
    )
    order_note = forms.CharField(
        label="Order", required=False, max_length=60, help_text="If it waits for one"
    )


class SampleForm(forms.Form):
    """A sample as it comes to the laboratory."""

    place = forms.ChoiceField(label="Taken from", widget=forms.RadioSelect)
    detail = forms.CharField(
        label="Where exactly",
        required=False,
        max_length=60,
        help_text="Such as drum 11 of 30",
    )
    taken_at = MomentField(label="Taken at", help_text=TIME_LIKE)
    taken_by = forms.CharField(label="Taken by", required=False, max_length=80)

    def __init__(self, *args: Any, lot: FillLot | None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["place"].choices = places_of(lot)  # type: ignore[attr-defined]


def places_of(lot: FillLot | None) -> list[tuple[str, str]]:
    """Where a sample of a fill lot, or one of a batch still in the making, can be taken."""
    in_process = lot is None
    return [
        (value, label.capitalize())
        for value, label in Sample.Place.choices
        if (value in IN_PROCESS) == in_process
    ]


class RetainForm(forms.Form):
    """Where the sealed retain stands."""

    place = forms.CharField(
        label="Place",
        max_length=30,
        help_text="As on the shelf's label, such as R-12-04",
        widget=_short(autofocus="autofocus"),
    )


class WithoutRetainForm(forms.Form):
    """Why a lot may be decided on without a retain."""

    reason = forms.CharField(
        label="Reason",
        max_length=300,
        help_text="Read by the auditor, kept for good",
        widget=forms.Textarea(attrs={"rows": "3"}),
    )


class BatchFilter(forms.Form):
    """Which batches the list shows."""

    number = forms.CharField(label="Number", required=False, max_length=20)
    product = forms.ChoiceField(label="Product", required=False)
    state = forms.ChoiceField(
        label="State of a fill lot",
        required=False,
        choices=[NONE_CHOSEN, *((state, state) for state in FillLot.State.values)],
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        codes = Product.objects.values_list("code", flat=True)
        self.fields["product"].choices = [  # type: ignore[attr-defined]
            NONE_CHOSEN,
            *((code, code) for code in codes),
        ]


class RetainFilter(forms.Form):
    """Which retains the list shows."""

    q = forms.CharField(
        label="Place, fill lot or product", required=False, max_length=40
    )
