"""The tags of every page: marks, rulers, fields, numbers and times. Each is a thin call of drawing or wording."""

from collections.abc import Callable, Mapping
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from django import template
from django.contrib.messages import DEFAULT_TAGS
from django.contrib.messages.storage.base import Message
from django.forms import BaseForm
from django.forms.boundfield import BoundField
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from lims.drawing import curve as curves
from lims.drawing import icons, logs, progress, rulers
from lims.drawing import onset as onsets
from lims.record import clock
from lims.screens import exporting, fields
from lims.screens.zone import zone
from lims.wording import dates, durations, limits, numbers
from lims.wording.languages import known

register = template.Library()
Number = Decimal | int | str | None
Values = Mapping[str, Any]  # what a drawing is given, by name


def _drawn(markup: str) -> SafeString:
    return mark_safe(markup)  # noqa: S308 - drawing escapes every word it is given


# ---- Marks


@register.simple_tag
def mark(
    word: str, text: str = "", *, big: bool = False, soft: bool = False
) -> SafeString:
    return _drawn(icons.mark(str(word), str(text), big=big, soft=soft))


@register.simple_tag
def icon(symbol: str) -> SafeString:
    return _drawn(icons.icon(symbol))


@register.simple_tag
def state_icon(word: str) -> SafeString:
    """The shape of a state without its word, for places that say the word themselves."""
    return _drawn(icons.icon(icons.STATES[str(word)][0]))


@register.simple_tag
def notice_icon(tone: str) -> SafeString:
    return _drawn(icons.icon(icons.NOTICES[tone]))


@register.simple_tag
def sprite() -> SafeString:
    return _drawn(icons.sprite())


@register.simple_tag
def logo() -> SafeString:
    return _drawn(icons.logo())


@register.filter
def tone(thing: Any) -> str:
    """The tone of a message to a person, or of a state."""
    if isinstance(thing, Message):
        level = DEFAULT_TAGS.get(thing.level, "info")
        return {"success": "good", "warning": "care", "error": "bad"}.get(level, "run")
    return icons.STATES[str(thing)][1]


# ---- Rulers


@register.simple_tag
def limit_bar(values: Values | None = None, **more: Any) -> SafeString:
    return _drawn(rulers.limit_bar(**{**(values or {}), **more}))


@register.simple_tag
def rating_bar(values: Values | None = None, **more: Any) -> SafeString:
    return _drawn(progress.rating_bar(**{**(values or {}), **more}))


@register.simple_tag
def progress_bar(values: Values | None = None, **more: Any) -> SafeString:
    return _drawn(progress.progress(**{**(values or {}), **more}))


@register.simple_tag
def curve(values: Values | None = None, **more: Any) -> SafeString:
    return _drawn(curves.curve(**{**(values or {}), **more}))


@register.simple_tag
def onset(values: Values | None = None, **more: Any) -> SafeString:
    return _drawn(onsets.onset(**{**(values or {}), **more}))


@register.simple_tag
def logged(values: Values | None = None, **more: Any) -> SafeString:
    return _drawn(logs.logged(**{**(values or {}), **more}))


@register.simple_tag
def key(kind: str) -> SafeString:
    return _drawn(rulers.key(kind))


# ---- Lists


@register.inclusion_tag("_parts/along.html", takes_context=True)
def along(context: Mapping[str, Any], *keys: str) -> dict[str, Any]:
    """The links by which a list is taken along; keys where a page has several."""
    return {
        "lists": exporting.along(context["request"], keys),
        "named": len(keys) > 0,
    }


# ---- Forms


@register.inclusion_tag("_parts/field.html")
def field(bound: BoundField, hint: str = "", says: str = "") -> dict[str, Any]:
    return fields.parts(bound, hint=hint, says=says)


@register.inclusion_tag("_parts/error_summary.html")
def error_summary(*forms: BaseForm | None) -> dict[str, Any]:
    faults = [
        fault
        for form in forms
        if isinstance(form, BaseForm)
        for fault in fields.faults(form)
    ]
    return {"faults": faults, "heading": fields.heading(len(faults))}


@register.simple_block_tag(takes_context=False)
def notice(content: str, tone: str = "plain", title: str = "") -> SafeString:
    """A notice whose body is markup: ``{% notice "care" "PEN-02 is overdue." %}…{% endnotice %}``."""
    tone_class = "" if tone == "plain" else f" is-{tone}"
    head = format_html("<b>{}</b>", title) if title else ""
    return format_html(
        '<div class="notice{}">{}{}<div>{}</div></div>',
        tone_class,
        notice_icon(tone),
        head,
        content,
    )


# ---- Numbers and codes


@register.filter
def shown(value: Number, language: str = "en") -> str:
    return numbers.shown(value, known(language))


@register.filter
def signed(value: Number, language: str = "en") -> str:
    return numbers.shown(value, known(language), signed=True)


@register.filter
def counts(number: int) -> str:
    return numbers.counts(int(number))


@register.filter
def unit(text: str, language: str = "en") -> str:
    return numbers.unit_shown(text, known(language))


@register.simple_tag
def value(
    number: Number, unit: str = "", *, signed: bool = False, language: str = "en"
) -> str:
    return numbers.with_unit(number, unit, known(language), signed=signed)


@register.simple_tag(name="limits")
def limits_in_words(
    lower: Number,
    upper: Number,
    unit: str = "",
    *,
    signed: bool = False,
    language: str = "en",
) -> str:
    low, high = (None if it == "" else it for it in (lower, upper))
    return limits.limits(low, high, unit, known(language), signed=signed)


@register.simple_tag
def figure(
    number: Number,
    unit: str = "",
    *,
    signed: bool = False,
    pending: bool = False,
    language: str = "en",
) -> SafeString:
    """A reported value in large figures; grey while it is not yet a result."""
    tail = numbers.unit_shown(unit, known(language))
    return format_html(
        '<span class="fig{}">{}{}</span>',
        " pending" if pending else "",
        numbers.shown(number, known(language), signed=signed),
        format_html('<span class="unit">{}</span>', tail) if tail else "",
    )


@register.filter
def code(text: object) -> SafeString:
    """A code that is copied by hand: slashed zero, footed l and I."""
    return format_html('<span class="code">{}</span>', text)


# ---- Days and times on the laboratory's clock


def _time(
    moment: datetime | None, words: Callable[[datetime], str]
) -> SafeString | str:
    if moment is None:
        return ""
    return format_html(
        '<time datetime="{}">{}</time>', moment.isoformat(), words(moment)
    )


@register.filter
def labday(moment: date | datetime | None, language: str = "en") -> SafeString | str:
    if moment is None:
        return ""
    on = dates.local_day(moment, zone())
    words = dates.day(on, zone(), known(language))
    return format_html('<time datetime="{}">{}</time>', on.isoformat(), words)


@register.filter
def labtime(moment: datetime | None, language: str = "en") -> SafeString | str:
    return _time(moment, lambda it: dates.day_time(it, zone(), known(language)))


@register.filter
def labnear(moment: datetime | None) -> SafeString | str:
    """A moment seen from now: ``today 20:20``, ``Sat 7 March 00:20``."""
    return _time(moment, lambda it: dates.near(it, clock.now(), zone()))


@register.filter
def labclock(moment: datetime | None) -> SafeString | str:
    return _time(moment, lambda it: dates.clock(it, zone()))


@register.filter
def labseconds(moment: datetime | None) -> SafeString | str:
    return _time(moment, lambda it: dates.clock(it, zone(), seconds=True))


@register.filter
def duration(length: timedelta | None) -> str:
    return durations.duration(length) if length is not None else ""


@register.filter
def ahead(moment: datetime | None) -> str:
    """``in 10 min``, ``19 h late``."""
    return durations.ahead(moment, clock.now()) if moment is not None else ""
