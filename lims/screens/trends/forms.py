"""What is asked of a chart: where, along what, which kettle, instrument and days; cleaned to what the queries take."""

from collections.abc import Iterable
from typing import Any

from django import forms

from lims.drawing.trend import OF
from lims.screens.fields import DayField
from lims.trends.asked import Along, Where

EVERY = ("", "all of them")
ALONG = {Along.TIME: "time", Along.BATCHES: "batch by batch"}
WITHOUT = "without"
HISTORY = [("", "shown"), (WITHOUT, "left out")]
LONGEST = 80
DAY_LIKE = "Like 2026-03-05"


class OneOf(forms.CharField):
    """A name out of those that results bear. One that none bears is kept and finds nothing, so an old address still says what it asked for."""

    widget = forms.Select

    def __init__(self, label: str) -> None:
        super().__init__(label=label, required=False, max_length=LONGEST)

    def offer(self, names: Iterable[str], given: str) -> None:
        """The names to choose from, with the one given last where it is none of them."""
        here = list(names)
        if given and given not in here:
            here.append(given)
        self.widget.choices = [EVERY, *((name, name) for name in here)]


class WhereForm(forms.Form):
    """Which samples are charted: they are never mixed."""

    where = forms.ChoiceField(
        label="Of", choices=list(OF.items()), required=False, initial=Where.FINISHED
    )

    def chosen(self) -> Where:
        """What is asked for; the finished product where nothing is."""
        given = self.cleaned_data.get("where") if self.is_valid() else ""
        return Where(given or Where.FINISHED)


class SideForm(forms.Form):
    """One group of results: by kettle, by instrument, by person and by its days."""

    kettle = OneOf("Kettle")
    instrument = OneOf("Instrument")
    person = OneOf("Person")
    since = DayField(label="From", required=False, help_text=DAY_LIKE)
    until = DayField(label="To", required=False, help_text=DAY_LIKE)

    def __init__(
        self, *args: Any, names: dict[str, tuple[str, ...]], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        for field in ("kettle", "instrument", "person"):
            if field in names:
                self._offer(field, names[field])
            else:
                del self.fields[field]

    def _offer(self, field: str, names: tuple[str, ...]) -> None:
        given = str(self.data.get(self.add_prefix(field), ""))[:LONGEST]
        self.fields[field].offer(names, given)  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        given = super().clean() or self.cleaned_data
        first, last = given.get("since"), given.get("until")
        if first and last and first > last:
            self.add_error(
                "until", "This day lies before the first one: write it later, or none."
            )
        return given


class CommonForm(WhereForm):
    """What both sides of a comparison share."""

    history = forms.ChoiceField(
        label="Unverified history", choices=HISTORY, required=False
    )


class TrendForm(SideForm, CommonForm):
    """Everything that a chart can be asked for."""

    along = forms.ChoiceField(
        label="Along", choices=list(ALONG.items()), required=False, initial=Along.TIME
    )
    lot = forms.CharField(
        label="Batch or fill lot",
        required=False,
        max_length=40,
        help_text="Like Q1-26-0417 A",
    )
