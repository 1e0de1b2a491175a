"""Adding methods and editions; saying who checked which figures."""

import datetime as dt

import pytest

from lims.methods import queries
from lims.methods.models import FigureCheck, Method
from lims.people.queries import person
from lims.record.queries import tail
from tests.factories import methods
from tests.lims.screens.methods.conftest import address, sent_by, text_of


@pytest.mark.parametrize("account", ["tech-a", "desk-1", "aud-1", "adm-1"])
def test_who_does_not_keep_methods_is_told_who_does(account, as_, d217, draft):
    client = as_(account)
    places = [
        address("method-new"),
        address("edition-new", d217.method_id),
        address("check-figures", d217.pk),
        address("figures-draft", d217.pk),
        address("figure", draft.pk),
        address("characteristic-new"),
    ]

    answers = [client.get(it) for it in places] + [client.post(it) for it in places]

    assert {it.status_code for it in answers} == {403}
    assert "Keeping methods is for the laboratory manager" in text_of(answers[0])


def test_opening_the_forms_writes_nothing(as_, d217, draft):
    client = as_("chem-1")
    before = tail()

    answers = [
        client.get(address("method-new")),
        client.get(address("edition-new", d217.method_id)),
        client.get(address("check-figures", d217.pk)),
        client.get(address("figures-draft", d217.pk)),
        client.get(address("figures", draft.pk)),
        client.get(address("figure", draft.pk)),
        client.get(address("figures-approve", draft.pk)),
        client.get(address("own-uncertainty", "worked-penetration")),
        client.get(address("characteristic-new")),
    ]

    assert {it.status_code for it in answers} == {200}
    assert tail() == before


def test_a_method_and_its_edition_are_added(as_):
    client = as_("mgr-1")

    added = client.post(
        address("method-new"), {"designation": "QG-P4", "title": "Pumping"}
    )
    method = Method.objects.get(designation="QG-P4")
    edition = client.post(
        address("edition-new", method.pk),
        {
            "edition": "2",
            "characteristics": ["appearance"],
            "source": "own procedure",
            "standing": "common practice",
        },
    )

    assert added["Location"] == address("one", method.pk)
    assert edition.status_code == 303
    assert queries.edition("QG-P4", "2").characteristics == ["appearance"]


def test_an_edition_that_stands_already_is_refused_with_what_was_typed(as_, d217):
    answered = as_("mgr-1").post(
        address("edition-new", d217.method_id),
        {
            "edition": "21a",
            "characteristics": ["appearance"],
            "source": "typed by hand",
            "standing": "published",
        },
    )

    assert answered.status_code == 422
    assert "stands here already" in answered.context["form"].errors["edition"][0]
    assert "typed by hand" in answered.content.decode()


def checks():
    return [(it.checked_by, it.checked_on) for it in FigureCheck.objects.all()]


def keys(page, word):
    """The boxes of the figures whose words hold `word`."""
    return [
        key
        for key, words in page.context["form"].fields["figures"].choices
        if word in words
    ]


def test_a_check_of_every_figure_is_recorded_with_who_and_when(as_, d217):
    client = as_("qm-1")
    page = client.get(address("check-figures", d217.pk))

    answered = client.post(
        address("check-figures", d217.pk),
        sent_by(page, every="on", checked_by="Quill Rastrick", on="2026-03-03"),
    )

    assert answered.status_code == 303
    assert checks() == [("Quill Rastrick", dt.date(2026, 3, 3))]
    shown = text_of(client.get(address("one", d217.method_id)))
    assert "3 March 2026, by Quill Rastrick" in shown.replace(" ,", ",")
    assert "checked by Quill Rastrick on 3 March 2026" in shown
    assert "Figures that rest on memory" not in shown


def test_only_the_chosen_figures_are_checked(as_, d217):
    client = as_("qm-1")
    page = client.get(address("check-figures", d217.pk))
    chosen = keys(page, "60 double strokes, 25 °C: repeatability")

    answered = client.post(
        address("check-figures", d217.pk),
        sent_by(page, figures=chosen, checked_by="Quill Rastrick", on="2026-03-03"),
    )

    assert answered.status_code == 303
    [check] = FigureCheck.objects.all()
    assert [(it["what"], it["value"]) for it in check.figures] == [
        ("repeatability", "7")
    ]
    shown = text_of(client.get(address("one", d217.method_id)))
    assert "From memory, checked by Quill Rastrick on 3 March 2026." in shown
    assert (
        "Repeatability r, from 130 to 475 7 × 0.1 mm source 9 Reproducibility" in shown
    )
    assert "20 × 0.1 mm source 8 from memory, not checked" in shown


@pytest.mark.parametrize(
    ("given", "field", "sentence"),
    [
        ({"checked_by": " "}, "checked_by", "Say who compared the figures."),
        ({"on": "2026-12-24"}, "on", "is still to come"),
        ({"on": "yesterday"}, "on", "no day of the calendar"),
        ({"every": ""}, "figures", "Choose the figures that were compared."),
        ({"figures": ["0" * 16]}, "figures", "is no longer in force: look again"),
    ],
)
def test_a_check_that_cannot_stand_is_refused(given, field, sentence, as_, d217):
    client = as_("qm-1")
    page = client.get(address("check-figures", d217.pk))
    sent = sent_by(page, every="on", checked_by="typed by hand", on="2026-03-03")

    answered = client.post(address("check-figures", d217.pk), sent | given)

    assert answered.status_code == 422
    assert sentence in answered.context["form"].errors[field][0]
    assert checks() == []


def test_a_check_of_figures_that_changed_meanwhile_is_refused(as_, d217):
    client = as_("qm-1")
    page = client.get(address("check-figures", d217.pk))
    sent = sent_by(page, every="on", checked_by="Quill Rastrick", on="2026-03-03")
    methods.in_force(
        d217,
        by=person("chem-1"),
        figures=[methods.figure(value="9", level_from="130", level_to="475")],
    )

    refused = client.post(address("check-figures", d217.pk), sent)
    again = sent_by(refused)
    answered = client.post(address("check-figures", d217.pk), again)

    assert refused.status_code == 409
    assert "were changed by somebody else since you opened them" in text_of(refused)
    assert "Repeatability r from 130 to 475, 9" in text_of(refused)
    assert again["checked_by"] == "Quill Rastrick"
    assert answered.status_code == 303


def test_an_edition_without_figures_offers_the_next_step(as_):
    client = as_("mgr-1")
    bare = methods.bare_edition(by=person("mgr-1"))

    text = text_of(client.get(address("check-figures", bare.pk)))

    assert "No figure is in force" in text
    assert "Open a draft of the figures" in text
