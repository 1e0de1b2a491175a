"""What is typed about methods, editions and characteristics; cleaned to what the actions take."""

from collections.abc import Callable, Sequence
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from lims.methods import queries
from lims.methods.models import MethodEdition
from lims.methods.rules import kinds_of
from lims.screens.fields import WholeNumberField
from specs.methods.catalogue import PROCEDURES
from specs.methods.circumstances import CIRCUMSTANCES
from specs.methods.outcome import Parameter, Procedure
from specs.numbers import Refused

SHORT = {"class": "short", "autocomplete": "off"}
CHOOSE = ("", "choose")
NUMBERS_OWN = ("unit", "step", "span", "is_signed")
ABSENT = {"number": (), "ladder": ("step", "span", "is_signed")}  # else all of them
SUCH_AS = {
    "plausible": "Such as 0.2 to 4; outside it a reading is questioned",
    "asked": f"Of {', '.join(CIRCUMSTANCES)}; such as hours, temperature 51 to 53",
    "apparatus": "Such as four-ball wear machine",
}
STANDING = [CHOOSE, *((it, it) for it in MethodEdition.Standing.values)]


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


def _said_by(check: Callable[[str], object]) -> Callable[[str], None]:
    """The refusal of a procedure, beside the box of its setting."""

    def validate(text: str) -> None:
        try:
            check(text)
        except Refused as refusal:
            raise ValidationError(refusal.sentence) from refusal

    return validate


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


class ProcedureForm(forms.Form):
    """The procedure that finds the new characteristic."""

    procedure = forms.ChoiceField(
        label="Procedure",
        choices=[
            CHOOSE,
            *((it, f"{it} ({PROCEDURES[it].kind})") for it in sorted(PROCEDURES)),
        ],
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
    step = short(
        "Reported to", "The step of the last place, such as 0.1, or 3 digits", 10
    )
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
        for name in ABSENT.get(procedure.kind, NUMBERS_OWN):
            del self.fields[name]
        if procedure.kind == "number":
            self.fields["step"].required = True
        self._ask_kind(kinds_of(procedure))
        self.shared = [
            it.key for it in procedure.parameters if self._is_asked_already(it)
        ]
        for it in procedure.parameters:
            if it.key not in self.shared:
                self.fields[f"set-{it.key}"] = self._setting(it)
        known = [(it.code, it.in_full) for it in queries.characteristics()]
        for role in procedure.derived_from:
            self.fields[f"from-{role}"] = forms.ChoiceField(
                label=f"Derived from: {role}",
                choices=[CHOOSE, *known],
                error_messages={"required": "Choose what it is derived from."},
            )

    def _ask_kind(self, kinds: Sequence[str]) -> None:
        """Only where the procedure's result may be kept as one of several kinds."""
        if len(kinds) > 1:
            self.fields["kind"] = forms.ChoiceField(
                label="Kind",
                choices=[CHOOSE, *((kind, kind) for kind in kinds)],
                error_messages={"required": f"Choose {' or '.join(kinds)}."},
            )

    def _is_asked_already(self, it: Parameter) -> bool:
        """Unit and step of a procedure for any method are those of the characteristic."""
        return it.key in {"unit", "step"} & self.fields.keys() and not it.choices

    @staticmethod
    def _setting(it: Parameter) -> forms.Field:
        hint = f"{it.default} where it is left out" if it.default else "May be left out"
        hint = f"{SUCH_AS[it.key]}. {hint}" if it.key in SUCH_AS else hint
        if it.house:
            hint = f"House figure, no standard states it. {hint}"
        if it.choices:
            choices = [("", "as the procedure has it"), *((c, c) for c in it.choices)]
            return forms.ChoiceField(
                label=it.label, choices=choices, required=False, help_text=hint
            )
        return forms.CharField(
            label=it.label,
            max_length=60,
            required=False,
            help_text=hint,
            validators=[_said_by(it.check)] if it.check else [],
        )

    @property
    def given(self) -> dict[str, Any]:
        """What the action takes."""
        told = {
            key: it
            for key, it in self.cleaned_data.items()
            if not key.startswith(("set-", "from-"))
        }
        settings = self._under("set-") | {key: told[key] for key in self.shared}
        told.setdefault("unit", "")
        told.setdefault("kind", self.procedure.kind)
        return told | {
            "procedure": self.procedure.name,
            "parameters": {key: it for key, it in settings.items() if it},
            "derived_from": self._under("from-"),
        }

    def _under(self, prefix: str) -> dict[str, str]:
        return {
            key.removeprefix(prefix): it
            for key, it in self.cleaned_data.items()
            if key.startswith(prefix)
        }
