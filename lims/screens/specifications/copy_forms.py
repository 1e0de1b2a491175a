"""What is typed when lines of a published specification are copied, and when somebody checked where a line comes from."""

from django import forms

from lims.products.models import PublishedSpecification
from lims.screens.specifications import words
from lims.screens.specifications.line_forms import radio
from specs.judging.rules import SIMPLE_ACCEPTANCE


class CopyForm(forms.Form):
    """Which published specification, and how its limits are compared."""

    published = forms.ModelChoiceField(
        label="Published specification",
        queryset=PublishedSpecification.objects.all(),
        to_field_name="code",
        empty_label="choose",
        error_messages={"required": "Choose the published specification."},
    )
    comparing = radio("Comparing", words.COMPARING, "There is no default: choose one")
    rule = radio(
        "Decision rule",
        {SIMPLE_ACCEPTANCE: words.RULES[SIMPLE_ACCEPTANCE]},
        "Another rule needs an uncertainty of its own: change it line by line",
    )
    version = forms.IntegerField(widget=forms.HiddenInput)


class OriginForm(forms.Form):
    """Who compared a line with the laboratory's own copy."""

    checked_by = forms.CharField(
        label="Checked by",
        required=False,
        max_length=80,
        help_text="Who compared the line with the laboratory's own copy",
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )
    version = forms.IntegerField(widget=forms.HiddenInput)
