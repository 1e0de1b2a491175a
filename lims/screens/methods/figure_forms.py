"""What is typed about figures: a draft's note, one figure, the signature, a check, an own uncertainty."""

from collections.abc import Iterable
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from lims.methods.figures import MEAN, MEDIAN, PRECISIONS, WORDS, Figure, What
from lims.methods.models import Characteristic, FiguresRevision, MethodEdition
from lims.screens.fields import DayField
from lims.screens.methods.forms import CHOOSE, short, source, standing
from lims.wording.numbers import unit_shown

DAY = forms.DateInput(attrs={"type": "date", "class": "short"}, format="%Y-%m-%d")
HINTS = {
    What.DETERMINATIONS: "A whole number, such as 3",
    What.STEP: "Such as 1 or 0.1, or 3 digits for significant ones",
    What.PLAUSIBLE_FROM: "Outside it a reading is questioned, never refused",
    What.PLAUSIBLE_TO: "Outside it a reading is questioned, never refused",
}
EXPRESSION = (
    "A number; or in the level m of the results, such as 0.42 √m, 23 % or 2 + 5 %"
)
SEEN = forms.IntegerField(widget=forms.HiddenInput)


class NoteForm(forms.Form):
    """Why there is to be a new revision of the figures."""

    note = forms.CharField(
        label="Note",
        required=False,
        max_length=200,
        help_text="Why there is a new revision, for whoever approves it",
    )


class ChooseForm(forms.Form):
    """What the figure is to say, and of what."""

    characteristic = forms.ModelChoiceField(
        label="Characteristic",
        queryset=Characteristic.objects.all(),
        to_field_name="code",
        empty_label="choose",
        error_messages={"required": "Choose what the figure is for."},
    )
    what = forms.ChoiceField(
        label="What it says",
        choices=[CHOOSE, *((str(it), str(it)) for it in What)],
        error_messages={"required": "Choose what the figure says."},
    )

    def __init__(self, edition: MethodEdition, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        measured = Characteristic.objects.filter(code__in=edition.characteristics)
        field = self.fields["characteristic"]
        field.queryset = measured  # type: ignore[attr-defined]
        field.label_from_instance = lambda it: it.in_full  # type: ignore[attr-defined]


class FigureForm(forms.Form):
    """One figure: its value, over which levels, from where and how it is known."""

    value = forms.CharField(label="Value", max_length=60)
    level_from = short("Level from", "Empty where the range has no beginning")
    level_to = short("Level to", "Empty where the range has no end")
    source = source()
    standing = standing()
    version = SEEN

    def __init__(
        self, characteristic: Characteristic, what: str, *args: Any, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.characteristic, self.what = characteristic, What(what)
        if self.what not in PRECISIONS:
            del self.fields["level_from"], self.fields["level_to"]
        self.fields["value"] = self._value()

    def _value(self) -> forms.Field:
        label = self.what[:1].upper() + self.what[1:]
        if self.what in WORDS:
            words = [it for it in WORDS[self.what] if self._may_say(it)]
            return forms.ChoiceField(
                label=label,
                choices=[CHOOSE, *((it, it) for it in words)],
                error_messages={"required": "Choose one, or leave the figure out."},
            )
        unit = unit_shown(self.characteristic.unit)
        has_unit = unit and self.what != What.DETERMINATIONS
        return forms.CharField(
            label=f"{label}, {unit}" if has_unit else label,
            max_length=60,
            help_text=HINTS.get(self.what, EXPRESSION),
            error_messages={"required": "Write the figure, or leave it out."},
            widget=forms.TextInput(attrs={"class": "short", "autocomplete": "off"}),
        )

    def _may_say(self, word: str) -> bool:
        is_number = self.characteristic.kind == Characteristic.Kind.NUMBER
        return is_number or word not in {MEAN, MEDIAN}

    @property
    def figure(self) -> Figure:
        """What the action takes."""
        given = {key: it for key, it in self.cleaned_data.items() if key != "version"}
        return Figure(
            characteristic=self.characteristic.code, what=str(self.what), **given
        )


class PlaceForm(forms.Form):
    """Which figure of a draft is meant, at the version that was seen."""

    characteristic = forms.CharField(widget=forms.HiddenInput, max_length=60)
    what = forms.CharField(widget=forms.HiddenInput, max_length=40)
    level_from = forms.CharField(
        widget=forms.HiddenInput, max_length=20, required=False
    )
    level_to = forms.CharField(widget=forms.HiddenInput, max_length=20, required=False)
    version = SEEN


class VersionForm(forms.Form):
    """The version that was seen."""

    version = SEEN


class ApproveForm(forms.Form):
    """The signature. The password is never shown again."""

    password = forms.CharField(
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
        error_messages={"required": "Type your password to sign."},
    )
    version = SEEN

    def __init__(self, *args: Any, name: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["password"].label = f"Password of {name}"


class CheckForm(forms.Form):
    """Who compared which figures with the laboratory's own copy, and when."""

    checked_by = forms.CharField(
        label="Checked by",
        max_length=80,
        help_text="Who held them against the laboratory's own copy",
        error_messages={"required": "Say who compared the figures."},
    )
    on = DayField(
        label="On",
        widget=DAY,
        error_messages={"required": "Enter the day of the check."},
    )
    every = forms.BooleanField(label="Every figure below was compared", required=False)
    figures = forms.MultipleChoiceField(
        label="Figures that were compared",
        widget=forms.CheckboxSelectMultiple,
        required=False,
        error_messages={
            "invalid_choice": "A figure that you chose is no longer in force: look again."
        },
    )
    seen = SEEN

    def __init__(
        self, rows: Iterable[tuple[str, str]], *args: Any, **kwargs: Any
    ) -> None:
        """`rows`: key and words of each figure in force."""
        super().__init__(*args, **kwargs)
        self.fields["figures"].choices = list(rows)  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or {}
        if "figures" in given and not (given["figures"] or given.get("every")):
            self.add_error(
                "figures", ValidationError("Choose the figures that were compared.")
            )
        return given


class UncertaintyForm(forms.Form):
    """The laboratory's own standard uncertainty, how it was found, and the signature."""

    uncertainty = short("Standard uncertainty u", required=True)
    site_precision = short("Site precision R′", "May be left out")
    level_from = short("Level from", "Empty where the range has no beginning")
    level_to = short("Level to", "Empty where the range has no end")
    basis = forms.CharField(
        label="How it was found",
        max_length=300,
        help_text="Such as 40 control results on RG-7, March to May 2026",
        error_messages={"required": "Say how it was found."},
    )
    password = forms.CharField(
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
        error_messages={"required": "Type your password to sign."},
    )

    def __init__(
        self, characteristic: Characteristic, *args: Any, name: str, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.fields["password"].label = f"Password of {name}"
        self.fields["uncertainty"].error_messages["required"] = (
            "Write the standard uncertainty."
        )
        if characteristic.unit:
            for key in ("uncertainty", "site_precision"):
                label = self.fields[key].label
                self.fields[key].label = f"{label}, {unit_shown(characteristic.unit)}"


def figure_now(figure: Figure | None, revision: FiguresRevision) -> dict[str, Any]:
    """A figure that stands, by the names of the boxes."""
    told = figure.told if figure else {}
    names = ("value", "level_from", "level_to", "source", "standing")
    return {name: told.get(name, "") for name in names} | {"version": revision.version}
