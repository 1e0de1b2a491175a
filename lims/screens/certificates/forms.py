"""The forms of the certificates: a filter, packs for an order, what one certificate shall say, why packs go back."""

from typing import Any

from django import forms

from lims.certificates.composing import Wishes
from lims.certificates.models import CertificateRevision
from lims.products.models import Customer, Product
from lims.screens.fields import DayField, WholeNumberField

NO_LIMIT = "Write it in at most {} characters."
ALL = ("", "all")


class FilterForm(forms.Form):
    """Which certificates of the list are shown."""

    q = forms.CharField(label="Number, order or lot", required=False, max_length=60)
    customer = forms.ChoiceField(label="Customer", required=False)
    state = forms.ChoiceField(
        label="State",
        required=False,
        choices=[
            ALL,
            *((state.value, state.value) for state in CertificateRevision.State),
        ],
    )
    product = forms.ChoiceField(label="Product", required=False)
    issued_from = DayField(
        label="Issued from",
        required=False,
        widget=forms.TextInput({"placeholder": "2026-03-31", "inputmode": "numeric"}),
        error_messages={"invalid": "Write a day like 2026-03-31."},
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        names = Customer.objects.values_list("code", "name")
        codes = Product.objects.values_list("code", flat=True)
        self.fields["customer"].choices = [ALL, *names]  # type: ignore[attr-defined]
        self.fields["product"].choices = [  # type: ignore[attr-defined]
            ALL,
            *((code, code) for code in codes),
        ]
        for field in self.fields.values():
            field.widget.attrs |= {"class": "in", "autocomplete": "off"}


class LotForm(forms.Form):
    """The fill lot whose packs shall leave."""

    lot = forms.CharField(
        label="Fill lot",
        help_text="Scan it, or type it like Q1-26-0417 A",
        max_length=40,
        widget=forms.TextInput({"class": "code", "autocomplete": "off"}),
        error_messages={"required": "Scan or type the number of the fill lot."},
    )


class AllotForm(forms.Form):
    """Packs of the lot for a customer's order."""

    customer = forms.ModelChoiceField(
        Customer.objects.none(),
        label="Customer",
        empty_label="Choose the customer",
        error_messages={
            "required": "Choose the customer.",
            "invalid_choice": "Choose a customer of the list.",
        },
    )
    order = forms.CharField(
        label="Order",
        help_text="As the customer wrote it",
        max_length=40,
        widget=forms.TextInput({"class": "code", "autocomplete": "off"}),
        error_messages={
            "required": "Write the customer's order.",
            "max_length": NO_LIMIT.format(40),
        },
    )
    pack_count = WholeNumberField(
        label="Packs",
        min_value=1,
        max_value=100_000,
        error_messages={
            "required": "Write how many packs: at least 1.",
            "invalid": "Write how many packs, as a whole number.",
            "min_value": "Write how many packs: at least 1.",
            "max_value": "No lot has so many packs.",
        },
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["customer"].queryset = Customer.objects.all()  # type: ignore[attr-defined]


class WishesForm(forms.Form):
    """What despatch adds for one certificate; all of it may stay empty."""

    ship_to = forms.CharField(
        label="Ship to",
        required=False,
        max_length=200,
        error_messages={"max_length": NO_LIMIT.format(200)},
    )
    delivery_note = forms.CharField(
        label="Delivery note",
        required=False,
        max_length=40,
        widget=forms.TextInput({"class": "code", "autocomplete": "off"}),
        error_messages={"max_length": NO_LIMIT.format(40)},
    )
    part_number = forms.CharField(
        label="Part number",
        required=False,
        max_length=40,
        widget=forms.TextInput({"class": "code", "autocomplete": "off"}),
        error_messages={"max_length": NO_LIMIT.format(40)},
    )
    language = forms.ChoiceField(label="Language", choices=Customer.Language.choices)

    @property
    def wishes(self) -> Wishes:
        return Wishes(**self.cleaned_data)


class GiveBackForm(forms.Form):
    """Why packs go back to the lot."""

    reason = forms.CharField(
        label="Why the packs are given back",
        help_text="The record keeps it",
        max_length=300,
        error_messages={
            "required": "Say why the packs are given back.",
            "max_length": NO_LIMIT.format(300),
        },
    )
