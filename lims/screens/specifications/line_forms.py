"""The form of one requirement: its boxes follow from what is measured and from the kind of line."""

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms

from lims.methods.models import Characteristic, MethodEdition
from lims.products.deciding import CONFIDENCES, DECIDING, USUAL
from lims.products.lines import NUMBERS, Line, ladder_of, scale_of
from lims.products.models import Requirement
from lims.screens.specifications import words
from lims.screens.specifications.forms import CHOOSE, short, whole_number
from lims.wording.numbers import unit_shown
from specs.judging.rules import RULES, SIMPLE_ACCEPTANCE

Kind = Requirement.Kind
KINDS = Characteristic.Kind
LIMIT_FIELDS = (*NUMBERS, "must", "comparing", "rule", *DECIDING)
MARKED = {"comparing", "rule", "basis"}  # of LIMIT_FIELDS, chosen by a mark
BAND = ("internal_lower", "internal_upper")
# Which boxes make no sense for what is measured.
ABSENT = {
    KINDS.NUMBER: ("must",),
    KINDS.LADDER: ("must", *BAND, *DECIDING),
    KINDS.RATING: ("lower", "must", *BAND, *DECIDING),
    KINDS.FINDING: (*NUMBERS, *DECIDING),
    KINDS.WORDS: (*NUMBERS, *DECIDING),
}


NOTHING = "nothing"


def radio(label: str, told: Mapping[Any, str], hint: str = "") -> forms.ChoiceField:
    """A choice among words that each need a sentence; none is chosen beforehand."""
    field = forms.ChoiceField(
        label=label,
        required=False,
        help_text=hint,
        choices=[(str(key), str(key) or NOTHING) for key in told],
        widget=forms.RadioSelect,
    )
    field.notes = {str(key): sentence for key, sentence in told.items()}  # type: ignore[attr-defined]
    return field


class ChooseForm(forms.Form):
    """What the new line is to ask for."""

    characteristic = forms.ModelChoiceField(
        label="Characteristic",
        queryset=Characteristic.objects.all(),
        to_field_name="code",
        empty_label="choose",
        error_messages={"required": "Choose what is to be measured."},
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["characteristic"]
        field.label_from_instance = lambda it: it.in_full  # type: ignore[attr-defined]


class LineForm(forms.Form):
    """One requirement as typed. Limits are texts: 0.5 and 0.50 differ."""

    kind = radio("Kind", words.KINDS)
    edition = forms.ModelChoiceField(
        label="Method and edition",
        queryset=MethodEdition.objects.select_related("method"),
        required=False,
        empty_label="choose",
    )
    lower = short("Must be at least", "Its last place counts: 0.5 and 0.50 differ", 20)
    upper = short("Must be at most", "Its last place counts: 0.5 and 0.50 differ", 20)
    must = forms.CharField(
        label="Must be",
        required=False,
        max_length=120,
        help_text="What is to be seen, such as smooth, free of lumps",
    )
    internal_lower = short("Internal band from", "Inside the limits; warns only", 20)
    internal_upper = short("Internal band to", "Inside the limits; warns only", 20)
    number = whole_number("Line", "Its place on the paper; left out, it goes last")
    comparing = radio("Comparing", words.COMPARING, "There is no default: choose one")
    rule = radio(
        "Decision rule",
        {name: words.RULES.get(name, "") for name in RULES},
        "There is no default: choose one",
    )
    basis = radio("The rule rests on", words.BASES)
    uncertainty = short("u or R", "In the unit of the limits; kept with the line", 20)
    confidence = forms.ChoiceField(
        label="Confidence",
        required=False,
        choices=[CHOOSE, *((it, it) for it in CONFIDENCES)],
        help_text=f"One-sided. {USUAL} is usual; it is not taken unless chosen",
    )
    scope = radio("Asked", words.SCOPES)
    every_batches = whole_number("Every so many batches", "Only for a periodic line")
    every_months = whole_number("Every so many months", "Only for a periodic line")
    typical = forms.CharField(
        label="Typical value",
        required=False,
        max_length=80,
        help_text="As it is to be read; only for a typical line",
    )
    version = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(
        self,
        characteristic: Characteristic,
        editions: Sequence[MethodEdition],
        *args: Any,
        kind: str = "",
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.characteristic, self.kept_kind = characteristic, kind
        self._ask_what_fits(characteristic)
        self.fields["edition"].choices = [  # type: ignore[attr-defined]
            CHOOSE,
            *((str(it.pk), str(it)) for it in editions),
        ]
        if kind:
            self._keep_kind(kind)

    def _ask_what_fits(self, characteristic: Characteristic) -> None:
        for name in ABSENT[KINDS(characteristic.kind)]:
            del self.fields[name]
        if characteristic.kind != KINDS.NUMBER:
            self._offer_simple_acceptance()
        self._offer_marks(characteristic)
        if characteristic.unit:
            for box in (self.fields.get("lower"), self.fields.get("upper")):
                if box is not None:
                    box.label = f"{box.label}, {unit_shown(characteristic.unit)}"

    def _offer_marks(self, characteristic: Characteristic) -> None:
        """What is no plain number has few limits to choose from."""
        if characteristic.kind == KINDS.RATING:
            scale = scale_of(characteristic)
            hint = "The worst mark allowed; the scale begins with the best"
            self._choose_from("upper", "Must be no worse than", scale, hint)
        if characteristic.kind == KINDS.FINDING:
            passed = scale_of(characteristic)[:1]
            self._choose_from("must", "Must", passed, "Anything else is not met")
        if characteristic.kind == KINDS.LADDER:
            for name in ("lower", "upper"):
                label = str(self.fields[name].label)
                hint = "A load of the ladder; no load lies between two of them"
                self._choose_from(name, label, ladder_of(characteristic), hint)

    def _choose_from(
        self, name: str, label: str, marks: Sequence[str], hint: str
    ) -> None:
        self.fields[name] = forms.ChoiceField(
            label=label,
            required=False,
            choices=[CHOOSE, *((mark, mark) for mark in marks)],
            help_text=hint,
        )

    def _offer_simple_acceptance(self) -> None:
        """Only a plain number has an uncertainty that a rule could take into account."""
        field = self.fields["rule"]
        field.choices = [(SIMPLE_ACCEPTANCE, SIMPLE_ACCEPTANCE)]  # type: ignore[attr-defined]
        field.help_text = "What is no plain number has no uncertainty to reckon with"

    def clean(self) -> dict[str, Any]:
        """A mark cannot be taken away again: where nothing is compared, it counts for nothing."""
        given: dict[str, Any] = super().clean() or {}
        if (self.kept_kind or given.get("kind") or Kind.LIMIT) != Kind.LIMIT:
            given |= dict.fromkeys(MARKED & given.keys(), "")
        return given

    def _keep_kind(self, kind: str) -> None:
        """A line that stands keeps its kind: only the boxes of that kind are shown."""
        del self.fields["kind"]
        self.fields["number"].help_text = "Its place on the paper"
        if kind != Kind.LIMIT:
            for name in LIMIT_FIELDS:
                self.fields.pop(name, None)
        if kind != Kind.TYPICAL and not self.initial.get("typical"):
            del self.fields["typical"]

    @property
    def line(self) -> Line:
        """What the action takes."""
        given = {key: it for key, it in self.cleaned_data.items() if key != "version"}
        if self.kept_kind:
            given["kind"] = self.kept_kind
        return Line(characteristic=self.characteristic, **given)


def now_of(row: Requirement, version: int) -> dict[str, Any]:
    """A line that stands, by the names of the boxes."""
    names = (*LIMIT_FIELDS, "scope", "every_batches", "every_months", "typical")
    return {name: getattr(row, name) for name in names} | {
        "edition": row.edition_id,
        "number": row.line,
        "version": version,
    }
