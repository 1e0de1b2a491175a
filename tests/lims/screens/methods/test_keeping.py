"""Adding methods and editions; entering, correcting and checking figures."""

import datetime as dt

import pytest

from lims.methods import actions, queries
from lims.methods.models import Method
from lims.people.queries import person
from lims.record.queries import tail
from tests.lims.screens.methods.conftest import address, text_of


def figures_sent(page, **given):
    """What the form of a page sends as it was opened."""
    form = page.context["form"]
    return {name: form[name].value() or "" for name in form.fields} | given


@pytest.mark.parametrize("account", ["chem-1", "tech-a", "desk-1", "aud-1", "adm-1"])
def test_who_does_not_keep_methods_is_told_who_does(account, as_, d217, worked):
    client = as_(account)
    places = [
        address("method-new"),
        address("edition-new", d217.method_id),
        address("check-figures", d217.pk),
        address("precision-new", d217.pk),
        address("precision", worked.pk),
        address("characteristic-new"),
    ]

    answers = [client.get(it) for it in places] + [client.post(it) for it in places]

    assert {it.status_code for it in answers} == {403}
    assert "Keeping methods is for the laboratory manager" in text_of(answers[0])


def test_opening_the_forms_writes_nothing(as_, d217, worked):
    client = as_("mgr-1")
    before = tail()

    answers = [
        client.get(address("method-new")),
        client.get(address("edition-new", d217.method_id)),
        client.get(address("check-figures", d217.pk)),
        client.get(address("precision-new", d217.pk)),
        client.get(address("precision", worked.pk)),
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


def test_a_check_is_recorded_with_who_and_when(as_, d217):
    client = as_("qm-1")
    page = client.get(address("check-figures", d217.pk))

    answered = client.post(
        address("check-figures", d217.pk),
        figures_sent(page, checked_by="Quill Rastrick", on="2026-03-03"),
    )

    d217.refresh_from_db()
    assert answered.status_code == 303
    assert (d217.checked_by, d217.checked_on) == (
        "Quill Rastrick",
        dt.date(2026, 3, 3),
    )
    shown = text_of(client.get(address("one", d217.method_id)))
    assert "3 March 2026 , by Quill Rastrick" in shown
    assert "Figures that rest on memory" not in shown


@pytest.mark.parametrize(
    ("given", "field", "sentence"),
    [
        ({"checked_by": " "}, "checked_by", "Say who compared the figures."),
        ({"on": "2026-12-24"}, "on", "is still to come"),
        ({"on": "yesterday"}, "on", "no day of the calendar"),
    ],
)
def test_a_check_that_cannot_stand_is_refused(given, field, sentence, as_, d217):
    client = as_("qm-1")
    page = client.get(address("check-figures", d217.pk))

    answered = client.post(
        address("check-figures", d217.pk),
        figures_sent(page, checked_by="Quill Rastrick", on="2026-03-03") | given,
    )

    assert answered.status_code == 422
    assert sentence in answered.context["form"].errors[field][0]


def test_a_check_of_figures_that_changed_meanwhile_is_refused(as_, d217, worked):
    client = as_("qm-1")
    page = client.get(address("check-figures", d217.pk))
    sent = figures_sent(page, checked_by="Quill Rastrick", on="2026-03-03")
    _correct(worked, "9")

    refused = client.post(address("check-figures", d217.pk), sent)
    again = figures_sent(refused)
    answered = client.post(address("check-figures", d217.pk), again)

    assert refused.status_code == 409
    assert "were changed by somebody else since you opened them" in text_of(refused)
    assert "475 9 × 0.1 mm" in text_of(refused)
    assert again["checked_by"] == "Quill Rastrick"
    assert answered.status_code == 303


def test_figures_are_corrected_with_a_reason_and_wait_for_a_check(as_, worked):
    client = as_("mgr-1")
    page = client.get(address("precision", worked.pk))

    answered = client.post(
        address("precision", worked.pk),
        figures_sent(page, repeatability="8", reason="read in our copy"),
    )

    worked.refresh_from_db()
    assert answered.status_code == 303
    assert (worked.repeatability, worked.reproducibility) == ("8", "20")
    assert worked.checked_by == ""


def test_figures_without_a_reason_are_refused_and_kept(as_, worked):
    client = as_("mgr-1")
    page = client.get(address("precision", worked.pk))

    answered = client.post(
        address("precision", worked.pk),
        figures_sent(page, repeatability="8", source="typed by hand"),
    )

    assert answered.status_code == 422
    assert "Say why the figures are changed." in text_of(answered)
    assert "typed by hand" in answered.content.decode()


def test_a_late_correction_is_refused_with_theirs_beside_yours(as_, worked):
    client = as_("mgr-1")
    page = client.get(address("precision", worked.pk))
    sent = figures_sent(page, repeatability="8", reason="read in our copy")
    _correct(worked, "9")

    refused = client.post(address("precision", worked.pk), sent)

    assert refused.status_code == 409
    assert "Theirs, as it stands now" in text_of(refused)
    assert "475 9 × 0.1 mm" in text_of(refused)
    assert 'value="8"' in refused.content.decode()
    worked.refresh_from_db()
    assert worked.repeatability == "9"


@pytest.mark.parametrize(
    ("given", "field", "sentence"),
    [
        ({"repeatability": "", "reproducibility": ""}, "repeatability", "Neither"),
        ({"repeatability": "0"}, "repeatability", "is no precision"),
        ({"level_from": "400", "level_to": "300"}, "level_to", "below its beginning"),
        ({"characteristic": ""}, "characteristic", "Choose what the figures are for."),
    ],
)
def test_new_figures_that_cannot_stand_are_refused(given, field, sentence, as_, d217):
    client = as_("mgr-1")
    page = client.get(address("precision-new", d217.pk))
    sent = figures_sent(
        page,
        characteristic="prolonged-penetration-10000",
        repeatability="9",
        source="own copy",
        standing="published",
    )

    answered = client.post(address("precision-new", d217.pk), sent | given)

    assert answered.status_code == 422
    assert sentence in answered.context["form"].errors[field][0]


def test_new_figures_are_entered(as_, d217):
    client = as_("mgr-1")
    page = client.get(address("precision-new", d217.pk))

    answered = client.post(
        address("precision-new", d217.pk),
        figures_sent(
            page,
            characteristic="prolonged-penetration-10000",
            repeatability="9",
            source="own copy",
            standing="published",
        ),
    )

    made = d217.precisions.get(characteristic__code="prolonged-penetration-10000")
    assert answered.status_code == 303
    assert (made.repeatability, made.reproducibility) == ("9", "")


def _correct(figure, repeatability):
    actions.set_precision(
        edition=figure.edition,
        characteristic=figure.characteristic,
        level_from=figure.level_from,
        level_to=figure.level_to,
        repeatability=repeatability,
        reproducibility=figure.reproducibility,
        source=figure.source,
        standing=figure.standing,
        reason="a slip",
        by=person("mgr-1"),
    )
