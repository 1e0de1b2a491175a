"""What is typed about products, customers, sampling plans and drafts; cleaned to what the actions take."""

from typing import Any

from django import forms

from lims.products.models import (
    Customer,
    Product,
    PublishedSpecification,
    SamplingPlan,
)
from lims.products.rules import PLACES
from lims.screens.fields import WholeNumberField

SHORT = {"class": "short", "autocomplete": "off"}
CHOOSE = ("", "choose")


def whole_number(label: str, hint: str, *, required: bool = False) -> Any:
    """A count, typed in a text box."""
    return WholeNumberField(label=label, help_text=hint, required=required)


def short(label: str, hint: str, length: int, *, required: bool = False) -> Any:
    """A code or a number as text."""
    return forms.CharField(
        label=label,
        help_text=hint,
        max_length=length,
        required=required,
        widget=forms.TextInput(attrs=SHORT),
    )


class ProductForm(forms.Form):
    """A grease as sold."""

    name = forms.CharField(label="Name", max_length=100)
    family = forms.ChoiceField(
        label="Thickener family",
        choices=[CHOOSE, *Product.Family.choices],
        error_messages={"required": "Choose the thickener family."},
    )
    base_oil = forms.CharField(
        label="Base oil",
        required=False,
        max_length=100,
        help_text="Such as mineral, 150 mm²/s at 40 °C",
    )
    nlgi_aim = short("Aimed NLGI number", "Such as 2", 5)
    designation = short("Designation", "Such as KP2K-30", 40)
    published = forms.ModelChoiceField(
        label="Published specification",
        queryset=PublishedSpecification.objects.all(),
        required=False,
        empty_label="none",
        to_field_name="code",
        help_text="What a draft of its lines may begin from",
    )
    sampling_plan = forms.ModelChoiceField(
        label="Sampling plan",
        queryset=SamplingPlan.objects.all(),
        empty_label="choose",
        help_text="Which samples count for release",
        error_messages={"required": "Choose the sampling plan."},
    )
    pack_target = short("Pack target", "Worked penetration in the pack, × 0.1 mm", 10)
    kettle_offset = short(
        "Pack less kettle", "Difference by experience, such as -4; × 0.1 mm", 10
    )
    safety_sheet = forms.CharField(
        label="Safety data sheet",
        required=False,
        max_length=60,
        help_text="Number and issue",
    )
    shelf_life_months = whole_number("Shelf life, months", "Leave out where none")
    version = forms.IntegerField(widget=forms.HiddenInput)


class NewProductForm(ProductForm):
    """The same with its code, which stays for good."""

    code = short("Code", "Such as LX2; it stays for good", 20, required=True)
    field_order = ("code",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        del self.fields["version"]


class CustomerForm(forms.Form):
    """Whom the plant delivers to."""

    name = forms.CharField(label="Name", max_length=100)
    address = forms.CharField(label="Address", required=False, max_length=200)
    mail = forms.CharField(
        label="Mail",
        required=False,
        max_length=254,
        help_text="Where certificates are sent",
    )
    language = forms.ChoiceField(
        label="Language of certificates", choices=Customer.Language.choices
    )
    version = forms.IntegerField(widget=forms.HiddenInput)


class NewCustomerForm(CustomerForm):
    """The same with its code, which stays for good."""

    code = short("Code", "Such as OL; it stays for good", 10, required=True)
    field_order = ("code",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        del self.fields["version"]


class PlanForm(forms.Form):
    """Which samples count for release."""

    code = short("Code", "Such as SP-02", 20, required=True)
    words = forms.CharField(
        label="In words", max_length=200, help_text="As the bench and the papers say it"
    )
    places = forms.MultipleChoiceField(
        label="Taken from",
        choices=[(place, place) for place in PLACES],
        widget=forms.CheckboxSelectMultiple,
        help_text="A sample from the kettle counts for no release",
        error_messages={"required": "Say where the samples are taken."},
    )
    hours_after_filling = whole_number(
        "Hours after filling", "How long the pack rests before it counts", required=True
    )


class DraftForm(forms.Form):
    """The head of a draft."""

    number = short("Revision", "Its number on the paper", 10, required=True)
    part_number = short("Customer's part number", "If there is one", 40)
    note = forms.CharField(
        label="Note",
        required=False,
        max_length=200,
        help_text="Why there is a new revision, for whoever approves it",
    )
    version = forms.IntegerField(widget=forms.HiddenInput)


class OpenDraftForm(DraftForm):
    """Whose specification the draft is to be, and its head."""

    customer = forms.ModelChoiceField(
        label="Specification",
        queryset=Customer.objects.all(),
        required=False,
        empty_label="the product's own",
        to_field_name="code",
        help_text="The product's own, or one agreed with a customer",
    )
    field_order = ("customer", "number")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        del self.fields["version"]


class ApproveForm(forms.Form):
    """The signature. The password is never shown again."""

    password = forms.CharField(
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
        error_messages={"required": "Type your password to sign."},
    )
    version = forms.IntegerField(widget=forms.HiddenInput)
    stood = forms.IntegerField(widget=forms.HiddenInput, min_value=0, required=False)

    def __init__(self, *args: Any, name: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["password"].label = f"Password of {name}"


class VersionForm(forms.Form):
    """The version that was seen."""

    version = forms.IntegerField(widget=forms.HiddenInput)
