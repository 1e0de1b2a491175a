"""The tags and parts of every page, rendered without a page around them."""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from django import forms
from django.template import Context, Template

from lims.people import here
from lims.people.here import Here
from lims.record import clock

BERLIN = "Europe/Berlin"
NOON = datetime(2026, 3, 5, 10, 15, tzinfo=UTC)


class SiteInBerlin:
    zone = BERLIN


@pytest.fixture(autouse=True)
def in_berlin() -> Any:
    """A site, without a database."""
    token = here._here.set(Here(is_asked=True, site=SiteInBerlin()))  # type: ignore[arg-type]
    with clock.frozen(NOON):
        yield
    here._here.reset(token)


def render(source: str, **values: Any) -> str:
    return Template(source).render(Context(values)).strip()


class Entry(forms.Form):
    block = forms.CharField(label="Block temperature", help_text="232 or 288")
    note = forms.CharField(widget=forms.HiddenInput, required=False)
    kind = forms.ChoiceField(
        label="Disposition",
        widget=forms.RadioSelect,
        choices=[("hold", "Hold"), ("release", "Release")],
    )
    sealed = forms.BooleanField(label="The retain is sealed", required=False)


@pytest.mark.parametrize(
    ("source", "shown"),
    [
        ("{{ '27.9'|shown:'de' }}", "27,9"),
        ("{{ '22'|signed }}", "+22"),
        ("{{ n|counts }}", "100\u00a0000"),
        ("{{ '0.1 mm'|unit }}", "×\u00a00.1\u00a0mm"),
        ("{% value '281' '0.1 mm' %}", "281\u00a0×\u00a00.1\u00a0mm"),
        ("{% limits None '30' signed=True %}", "at most +30"),
        ("{% limits '' '' %}", "no limit"),
        ("{% limits 0 '' '°C' %}", "at least 0\u00a0°C"),
        ("{{ typed|code }}", '<span class="code">&lt;b&gt;</span>'),
        ("{{ length|duration }}", "17 h 20 min"),
        ("{{ due|ahead }}", "in 10 min"),
        ("{{ nothing|duration }}{{ nothing|ahead }}{{ nothing|labtime }}", ""),
        (
            "{{ at|labtime }}",
            '<time datetime="2026-03-05T10:15:00+00:00">5 March 2026, 11:15 CET</time>',
        ),
        (
            "{{ at|labtime:'de' }}",
            '<time datetime="2026-03-05T10:15:00+00:00">5. März 2026, 11:15 MEZ</time>',
        ),
        ("{{ late|labday }}", '<time datetime="2026-03-06">6 March 2026</time>'),
        (
            "{{ due|labnear }}",
            '<time datetime="2026-03-05T10:25:00+00:00">today 11:25</time>',
        ),
        (
            "{{ at|labclock }}",
            '<time datetime="2026-03-05T10:15:00+00:00">11:15</time>',
        ),
    ],
)
def test_a_value_is_shown_in_the_laboratorys_words(source: str, shown: str) -> None:
    values = {
        "n": 100_000,
        "at": NOON,
        "due": NOON + timedelta(minutes=10),
        "late": NOON.replace(hour=23, minute=30),
        "length": timedelta(hours=17, minutes=20),
        "nothing": None,
        "typed": "<b>",
    }

    assert render(source, **values) == shown


def test_a_figure_that_is_not_yet_a_result_is_grey() -> None:
    shown = render("{% figure '279.67' '0.1 mm' pending=True %}")

    assert shown.startswith('<span class="fig pending">279.67<span class="unit">×')


def test_a_mark_is_drawn_from_a_variable() -> None:
    shown = render("{% mark state soft=True %}", state="not met")

    assert shown.startswith('<span class="mark bad soft">')
    assert shown.endswith("not met</span>")


def test_a_ruler_takes_its_values_by_name_or_in_one_dict() -> None:
    by_name = render("{% limit_bar lower='265' upper='295' value='280' %}")
    in_one = render(
        "{% limit_bar values value='280' %}", values={"lower": "265", "upper": "295"}
    )

    assert by_name == in_one
    assert by_name.startswith("<svg")


def test_a_field_has_its_label_its_hint_and_a_line_kept_free() -> None:
    shown = render("{% field form.block says='Set by the method' %}", form=Entry())

    assert '<label for="id_block">Block temperature</label>' in shown
    assert 'aria-describedby="id_block-hint id_block-says"' in shown
    assert 'class="in"' in shown
    assert 'id="id_block-says">Set by the method</p>' in shown
    assert "aria-invalid" not in shown


def test_a_field_with_a_fault_says_so_beside_its_box_and_keeps_what_was_typed() -> None:
    form = Entry({"block": "268"})
    form.add_error("block", "268 is not a set point.")

    shown = render("{% field form.block says='Set by the method' %}", form=form)

    assert 'aria-invalid="true"' in shown
    assert 'value="268"' in shown
    assert '<p class="says bad" id="id_block-says">268 is not a set point.</p>' in shown
    assert "Set by the method" not in shown


def test_choices_stand_under_their_legend_with_a_note_each() -> None:
    form = Entry()
    form.fields["kind"].notes = {"hold": "Nothing may leave."}  # type: ignore[attr-defined]

    shown = render("{% field form.kind %}", form=form)

    assert "<legend>Disposition</legend>" in shown
    assert '<label for="id_kind_1">Release</label>' in shown
    assert shown.count('<span class="note">') == 1
    assert "Nothing may leave." in shown


def test_a_hidden_field_is_its_box_alone_and_a_tick_stands_in_its_label() -> None:
    assert render("{% field form.note %}", form=Entry()).startswith(
        '<input type="hidden"'
    )
    assert '<label class="tick" for="id_sealed"><input' in render(
        "{% field form.sealed %}", form=Entry()
    )


def test_the_summary_of_faults_leads_to_each_box() -> None:
    form = Entry({"block": ""})
    form.add_error(None, "The sample was registered by somebody else meanwhile.")

    shown = render("{% error_summary form %}", form=form)

    assert "3 boxes need another look" in shown
    assert (
        '<a href="#id_block">Block temperature: It is missing: fill it in.</a>' in shown
    )
    assert "<li>The sample was registered by somebody else meanwhile.</li>" in shown


def test_a_form_without_faults_has_no_summary() -> None:
    form = Entry({"block": "288", "kind": "hold"})

    assert render("{% error_summary form missing %}", form=form, missing=None) == ""


def test_a_notice_may_hold_markup_and_its_title_is_escaped() -> None:
    shown = render(
        "{% notice 'care' title %}<a href='#x'>Look</a>{% endnotice %}",
        title="<PEN-02>",
    )

    assert shown.startswith('<div class="notice is-care"><svg')
    assert "<b>&lt;PEN-02&gt;</b>" in shown
    assert "<a href='#x'>Look</a>" in shown


def test_no_part_carries_inline_style_or_script() -> None:
    shown = render(
        "{% sprite %}{% logo %}{% field form.block %}{% field form.kind %}"
        "{% include '_parts/notice.html' with tone='bad' title='A' text='B' %}"
        "{% include '_parts/empty.html' with title='A' text='B' href='/' action='C' %}",
        form=Entry({"block": ""}),
    )

    assert "style=" not in shown
    assert "<script" not in shown
    assert " on" not in shown.replace(" only", "").replace(" one", "")
