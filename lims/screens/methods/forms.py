"""What is typed about methods, editions, figures and characteristics; cleaned to what the actions take."""

from typing import Any

from django import forms

from lims.methods import queries
from lims.methods.models import Characteristic, MethodEdition
from lims.screens.fields import DayField, WholeNumberField
from specs.methods.catalogue import PROCEDURES
from specs.methods.outcome import Procedure

SHORT = {"class": "short", "autocomplete": "off"}
CHOOSE = ("", "choose")
DAY = forms.DateInput(attrs={"type": "date", "class": "short"}, format="%Y-%m-%d")
STANDING = [CHOOSE, *MethodEdition.Standing.choices]


def short(
    label: str, hint: str = "", length: int = 20, *, required: bool = False
) -> Any:
    return forms.CharField(
        label=label,
        help_text=hint,
        max_length=length,
        required=required,
        widget=forms.TextInput(attrs=SHORT),
    )


def source() -> forms.CharField:
    return forms.CharField(
        label="Source",
        max_length=300,
        help_text="Where it was read, so that somebody else can look there",
    )


def standing() -> forms.ChoiceField:
    return forms.ChoiceField(
        label="Standing",
        choices=STANDING,
        error_messages={"required": "Say how the figures are known."},
    )


class MethodForm(forms.Form):
    """A method as its issuer names it."""

    designation = forms.CharField(
        label="Designation",
        max_length=40,
        help_text="Without its edition, such as ASTM D217",
    )
    title = forms.CharField(label="Title", max_length=200)


class EditionForm(forms.Form):
    """A dated issue of a method and what it measures."""

    edition = short("Edition", "Such as 21a or 2020", required=True)
    characteristics = forms.MultipleChoiceField(
        label="It measures",
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Choose what it measures."},
    )
    source = source()
    standing = standing()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["characteristics"].choices = [  # type: ignore[attr-defined]
            (it.code, it.in_full) for it in queries.characteristics()
        ]


class FiguresForm(forms.Form):
    """r and R as the edition states them. What is not stated stays empty."""

    repeatability = short("Repeatability r", "Empty where it is not stated")
    reproducibility = short("Reproducibility R", "Empty where it is not stated")
    source = source()
    standing = standing()
    reason = forms.CharField(
        label="Reason",
        max_length=300,
        help_text="Why the figures are changed; the record keeps it",
        error_messages={"required": "Say why the figures are changed."},
    )
    seen = forms.CharField(widget=forms.HiddenInput, max_length=64)


class NewFiguresForm(FiguresForm):
    """The same for a range of level that has no figures yet."""

    characteristic = forms.ModelChoiceField(
        label="Characteristic",
        queryset=Characteristic.objects.all(),
        to_field_name="code",
        empty_label="choose",
        error_messages={"required": "Choose what the figures are for."},
    )
    level_from = short("Level from", "Empty where the range has no beginning")
    level_to = short("Level to", "Empty where the range has no end")
    field_order = ("characteristic", "level_from", "level_to")

    def __init__(self, edition: MethodEdition, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        del self.fields["reason"]
        measured = Characteristic.objects.filter(code__in=edition.characteristics)
        field = self.fields["characteristic"]
        field.queryset = measured  # type: ignore[attr-defined]
        field.label_from_instance = lambda it: it.in_full  # type: ignore[attr-defined]


class CheckForm(forms.Form):
    """Who compared the figures with the laboratory's own copy, and when."""

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
    seen = forms.CharField(widget=forms.HiddenInput, max_length=64)


class ProcedureForm(forms.Form):
    """The procedure that finds the new characteristic."""

    procedure = forms.ChoiceField(
        label="Procedure",
        choices=[CHOOSE, *((name, name) for name in sorted(PROCEDURES))],
        error_messages={"required": "Choose the procedure."},
    )


class CharacteristicForm(forms.Form):
    """What is measured, with the settings of its procedure."""

    code = forms.SlugField(
        label="Code",
        max_length=60,
        help_text="Small letters, figures and hyphens; it stays for good",
        error_messages={"invalid": "Use letters, figures and hyphens only."},
    )
    name = forms.CharField(label="Name", max_length=80)
    conditions = forms.CharField(
        label="Conditions",
        required=False,
        max_length=120,
        help_text="Such as 60 double strokes, 25 °C",
    )
    unit = short("Unit", "Such as 0.1 mm")
    step = short("Reported to", "The step of the last place, such as 0.1", 10)
    span = short("Length of a one-sided ruler", "In the unit; may be left out", 10)
    is_signed = forms.BooleanField(
        label="A change: shown with its sign", required=False
    )
    place = WholeNumberField(
        label="Place",
        help_text="Its order on bench and paper; small numbers first",
        min_value=0,
        max_value=32767,
        error_messages={"invalid": "Write a whole number, such as 100."},
    )
    caution = forms.CharField(
        label="Caution",
        required=False,
        max_length=300,
        help_text="Besides local codes, the safety data sheet and the competent person",
    )

    def __init__(self, procedure: Procedure, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.procedure = procedure
        if procedure.kind == "number":
            self.fields["step"].required = True
        else:
            for name in ("unit", "step", "span", "is_signed"):
                del self.fields[name]
            self.fields["kind"] = forms.ChoiceField(
                label="Kind",
                choices=[CHOOSE, ("rating", "rating"), ("words", "words")],
                error_messages={"required": "Choose rating or words."},
            )
        for it in procedure.parameters:
            self.fields[f"set-{it.key}"] = self._setting(it)
        known = [(it.code, it.in_full) for it in queries.characteristics()]
        for role in procedure.derived_from:
            self.fields[f"from-{role}"] = forms.ChoiceField(
                label=f"Derived from: {role}",
                choices=[CHOOSE, *known],
                error_messages={"required": "Choose what it is derived from."},
            )

    @staticmethod
    def _setting(it: Any) -> forms.Field:
        hint = f"{it.default} where it is left out" if it.default else "May be left out"
        if it.house:
            hint = f"House figure, no standard states it. {hint}"
        if it.choices:
            choices = [("", "as the procedure has it"), *((c, c) for c in it.choices)]
            return forms.ChoiceField(
                label=it.label, choices=choices, required=False, help_text=hint
            )
        return forms.CharField(
            label=it.label, max_length=60, required=False, help_text=hint
        )

    @property
    def given(self) -> dict[str, Any]:
        """What the action takes."""
        told = {
            key: it
            for key, it in self.cleaned_data.items()
            if not key.startswith(("set-", "from-"))
        }
        told.setdefault("unit", "")
        return told | {
            "procedure": self.procedure.name,
            "parameters": {key: it for key, it in self._under("set-").items() if it},
            "derived_from": self._under("from-"),
        }

    def _under(self, prefix: str) -> dict[str, str]:
        return {
            key.removeprefix(prefix): it
            for key, it in self.cleaned_data.items()
            if key.startswith(prefix)
        }
