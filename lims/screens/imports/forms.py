"""What is sent about a file as a whole: the file, how its text is read, why it is left."""

from collections.abc import Mapping
from typing import Any

from django import forms

from lims.imports import rules
from lims.imports.models import Import
from lims.record.refusals import BadInput
from lims.screens.imports.words import BECOMES
from lims.sheets.reading import DELIMITERS, ENCODINGS

FOUND = ("", "found by the program")
NAMED = {"\t": "tab", " ": "blank"}  # what a form cannot send as it stands
CHOOSE_AGAIN = "A page does not keep a file: choose it again."


class NewForm(forms.Form):
    """What the file holds, and the file."""

    kind = forms.ChoiceField(
        label="What the file holds",
        widget=forms.RadioSelect,
        error_messages={"required": "Say what the file holds."},
    )
    file = forms.FileField(
        label="File",
        help_text="XLSX, CSV or another text of columns; at most 25 MB",
        allow_empty_file=True,  # the action says what is wrong with it
        widget=forms.FileInput(
            attrs={"accept": ".xlsx,.csv,.tsv,.txt,.ods,.dat,text/csv,text/plain"}
        ),
        error_messages={"required": "Choose the file."},
    )

    def __init__(self, kinds: list[str], *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        labels = dict(Import.Kind.choices)
        field: Any = self.fields["kind"]
        field.choices = [(kind, labels[kind]) for kind in kinds]
        field.notes = {kind: BECOMES[Import.Kind(kind)] for kind in kinds}
        if len(kinds) == 1:
            self.initial.setdefault("kind", kinds[0])

    def clean_file(self) -> Any:
        """Refuse by size before anything is read."""
        found = self.cleaned_data["file"]
        try:
            rules.check_size(found.size or 0)
        except BadInput as refusal:
            raise forms.ValidationError(refusal.sentence) from refusal
        return found

    def ask_again(self) -> None:
        """A file has to be chosen anew whatever was wrong."""
        if self.errors and "file" not in self.errors:
            self.add_error("file", CHOOSE_AGAIN)


class VersionForm(forms.Form):
    """The version that was seen."""

    version = forms.IntegerField(widget=forms.HiddenInput)


class ReasonForm(forms.Form):
    """Why a file is left, or what it brought is withdrawn."""

    reason = forms.CharField(
        label="Reason",
        max_length=300,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        error_messages={"required": "Say why."},
    )


class ReadingForm(VersionForm):
    """In which encoding, and with which mark between columns, a text file is read."""

    encoding = forms.ChoiceField(
        label="Encoding",
        choices=[FOUND, *ENCODINGS.items()],
        required=False,
        help_text="Try another one where letters look wrong",
    )
    delimiter = forms.ChoiceField(
        label="Between the columns",
        choices=[
            FOUND,
            *((NAMED.get(it, it), words) for it, words in DELIMITERS.items()),
        ],
        required=False,
    )

    def clean_delimiter(self) -> str:
        """The mark itself."""
        sent = str(self.cleaned_data["delimiter"])
        marks = {name: mark for mark, name in NAMED.items()}
        return marks.get(sent, sent)


def as_sent(reading: Mapping[str, str]) -> dict[str, str]:
    """How a file is read, as the form names it."""
    mark = reading.get("delimiter", "")
    return {**reading, "delimiter": NAMED.get(mark, mark)}
