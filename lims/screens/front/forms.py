"""The forms of one's own account: signing in, changing the password, choosing the first."""

from django import forms

TOLD_APART = "The two passwords differ. Type the new one twice alike."


class SignInForm(forms.Form):
    """Who somebody is, and their password."""

    account = forms.CharField(
        label="Account",
        max_length=200,
        widget=forms.TextInput(
            {
                "autocomplete": "username",
                "autocapitalize": "none",
                "spellcheck": "false",
            }
        ),
        error_messages={
            "required": "Type your account.",
            "max_length": "No account name is so long.",
        },
    )
    password = forms.CharField(
        label="Password",
        strip=False,
        widget=forms.PasswordInput({"autocomplete": "current-password"}),
        error_messages={"required": "Type your password."},
    )


class ChosenForm(forms.Form):
    """A new password, typed twice."""

    password = forms.CharField(
        label="New password",
        strip=False,
        help_text="At least 15 characters, any you like: four or five words that do not belong together are easy to keep",
        widget=forms.PasswordInput({"autocomplete": "new-password"}),
        error_messages={"required": "Type the new password."},
    )
    again = forms.CharField(
        label="The same once more",
        strip=False,
        widget=forms.PasswordInput({"autocomplete": "new-password"}),
        error_messages={"required": "Type the new password once more."},
    )

    def clean_again(self) -> str:
        again: str = self.cleaned_data["again"]
        chosen = self.cleaned_data.get("password")
        if chosen is not None and chosen != again:
            raise forms.ValidationError(TOLD_APART)
        return again


class PasswordForm(ChosenForm):
    """The present password, then the new one."""

    old = forms.CharField(
        label="Present password",
        strip=False,
        widget=forms.PasswordInput({"autocomplete": "current-password"}),
        error_messages={"required": "Type your present password."},
    )
    field_order = ("old", "password", "again")
