"""What is typed about the site and the people; cleaned to what the actions take."""

from typing import Any

from django import forms

from lims.people.roles import ROLES
from lims.screens.fields import WholeNumberField
from lims.wording.languages import IN_ENGLISH

LANGUAGES = list(IN_ENGLISH.items())
SAY_WHY = {"required": "Say why, in a few words; the record keeps it."}
ROLE_CHOICES = [(role.key, role.words.capitalize()) for role in ROLES.values()]
NO_ROLE = {"required": "Choose one of the roles."}


class Reason(forms.CharField):
    """Why it is done; the record keeps it."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(
            label="Reason",
            help_text="Read by the auditor, kept for good",
            max_length=300,
            error_messages=SAY_WHY,
            **kwargs,
        )


class SiteForm(forms.Form):
    """Whose laboratory this is, and how it works."""

    name = forms.CharField(label="Site", max_length=120)
    laboratory = forms.CharField(
        label="Laboratory", max_length=200, help_text="As certificates name it"
    )
    address = forms.CharField(
        label="Postal address", widget=forms.Textarea(attrs={"rows": "3"})
    )
    mail = forms.CharField(label="Mail of the laboratory", max_length=254)
    quality_mail = forms.CharField(
        label="Mail of the quality manager",
        max_length=254,
        help_text="Where readers of a certificate ask",
    )
    check_address = forms.CharField(
        label="Address where certificates are checked",
        max_length=200,
        help_text="The code on new certificates leads there; those that went out keep theirs",
    )
    zone = forms.CharField(
        label="Time zone", max_length=60, help_text="By its name, such as Europe/Berlin"
    )
    language = forms.ChoiceField(
        label="Language of certificates",
        choices=LANGUAGES,
        help_text="Where the customer asks for none",
    )
    allow_deputy_alone = forms.BooleanField(
        label="A deputy alone on duty may release what they tested",
        required=False,
        help_text="Off, a second person always decides on a lot. On, whoever recorded its readings may "
        "release it alone and has to say why. Have it on only where a shift has no second person.",
    )
    reason = Reason()
    version = forms.IntegerField(widget=forms.HiddenInput)


class NumbersForm(forms.Form):
    """Where certificates begin here."""

    first_certificate = WholeNumberField(
        label="Number of the first certificate",
        help_text="Such as 231, when the series before ended at 230",
        error_messages={
            "required": "Write the number.",
            "invalid": "Write a whole number, such as 231.",
        },
    )


class InviteForm(forms.Form):
    """One account for one human being."""

    account = forms.CharField(
        label="Account",
        max_length=40,
        help_text="Typed when signing in; never changed and never used again",
        widget=forms.TextInput(attrs={"class": "short", "autocomplete": "off"}),
    )
    name = forms.CharField(
        label="Printed name",
        max_length=120,
        help_text="Stands beside each signature",
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )
    mail = forms.CharField(label="Mail", required=False, max_length=254)
    roles = forms.MultipleChoiceField(
        label="Roles",
        required=False,
        choices=ROLE_CHOICES,
        widget=forms.CheckboxSelectMultiple,
        help_text="Nobody sees anything without one",
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        notes = {role.key: role.sentence for role in ROLES.values()}
        self.fields["roles"].notes = notes  # type: ignore[attr-defined]


class PersonForm(forms.Form):
    """The printed name and the mail address."""

    name = forms.CharField(
        label="Printed name",
        max_length=120,
        help_text="What was signed keeps the old one",
    )
    mail = forms.CharField(label="Mail", required=False, max_length=254)
    reason = Reason()


class GiveForm(forms.Form):
    """One more role."""

    role = forms.ChoiceField(
        label="Role",
        choices=[("", "choose"), *ROLE_CHOICES],
        error_messages=NO_ROLE,
    )


class TakeForm(GiveForm):
    """A role taken back."""

    reason = Reason()


class ReasonForm(forms.Form):
    """Why an account is closed, opened or given a new password."""

    reason = Reason()
